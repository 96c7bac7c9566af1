package workbook

import (
	"math"
	"slices"

	"boxbook/season/analysis"
)

// trendRow is the trend of one category, and the line that may be drawn.
type trendRow struct {
	analysis.CategoryTrend
	days  [2]float64 // first and last flight, as a spreadsheet counts days
	line  [2]float64 // percent at each
	drawn bool
}

// trendRows are the trends of the categories flown. The line has the slope of
// the trend, through the median of the flights (Theil-Sen).
func trendRows(flights analysis.Flights) []trendRow {
	var rows []trendRow
	for _, t := range flights.Trends() {
		row := trendRow{CategoryTrend: t, days: [2]float64{math.Inf(1), math.Inf(-1)}}
		slope := t.Trend.Slope30 / 30
		var heights []float64
		for _, line := range flights.Lines {
			if !line.Enters() || line.Flight.Category != t.Category {
				continue
			}
			day, percent := float64(line.Flight.Date)+epoch, exact(line.Record.Percent).number
			heights = append(heights, percent-slope*day)
			row.days = [2]float64{min(row.days[0], day), max(row.days[1], day)}
		}
		slices.Sort(heights)
		middle := (heights[(len(heights)-1)/2] + heights[len(heights)/2]) / 2
		row.line = [2]float64{middle + slope*row.days[0], middle + slope*row.days[1]}
		row.drawn = t.Trend.HasSlope && row.days[1] > row.days[0]
		rows = append(rows, row)
	}
	return rows
}

// sloped is a number of the trend, where there are flights enough for it.
func sloped(key, title, format string, of func(analysis.Trend) float64) column[trendRow] {
	return column[trendRow]{
		key: key, title: title, look: look{format: format, align: "right", line: true}.stat(), value: func(r trendRow) value {
			return float(of(r.Trend))
		},
	}
}

// compared is the S of so many points, which one alone does not have.
func compared(n, s int) value {
	if n < 2 {
		return value{}
	}
	return integer(s)
}

// ofLine is an end of the line.
func ofLine(key, title string, l look, of func(trendRow) float64) column[trendRow] {
	return column[trendRow]{key: key, title: title, look: l, value: func(r trendRow) value {
		if !r.drawn {
			return value{}
		}
		return float(of(r))
	}}
}

var trendColumns = []column[trendRow]{
	{key: "name", title: "trend of the category", look: lookWrap, value: func(r trendRow) value { return text("trend, " + r.Category) }},
	ofLine("first", "first day", lookDate, func(r trendRow) float64 { return r.days[0] }),
	ofLine("last", "last day", lookDate, func(r trendRow) float64 { return r.days[1] }),
	ofLine("line-first", "line, first day", lookTwo.stat(), func(r trendRow) float64 { return r.line[0] }),
	ofLine("line-last", "line, last day", lookTwo.stat(), func(r trendRow) float64 { return r.line[1] }),
	sloped("slope", "points per 30 days", "+0.00;-0.00;0.00", func(t analysis.Trend) float64 { return t.Slope30 }),
	sloped("change", "change", signedOne, func(t analysis.Trend) float64 { return t.Season }),
	sloped("low", "from", signedOne, func(t analysis.Trend) float64 { return t.Low }),
	sloped("high", "to", signedOne, func(t analysis.Trend) float64 { return t.High }),
	sloped("sure", "sure", "0.0 %", func(t analysis.Trend) float64 { return t.Confidence }),
	{key: "without", title: "without zeroed", look: look{format: signedOne, align: "right", line: true}.stat(), value: func(r trendRow) value {
		return float(r.Trend.WithoutZero)
	}},
	{key: "word", title: "verdict", look: lookText.stat().indented(), value: func(r trendRow) value { return text(string(r.Trend.Word)) }},
}

var lookP = look{format: lookThree, align: "right", line: true}.stat()

var testColumns = []column[trendRow]{
	{key: "name", title: "tests of the trend", look: lookWrap, value: func(r trendRow) value { return text(r.Category) }},
	{key: "n", title: "flights compared", look: lookInteger.stat(), value: func(r trendRow) value { return integer(r.Trend.N) }},
	{key: "s", title: "S, on flights", look: lookInteger.stat(), value: func(r trendRow) value { return compared(r.Trend.N, r.Trend.S) }},
	{key: "p", title: "p, on flights", look: lookP, value: func(r trendRow) value { return float(r.Trend.P) }},
	{key: "contests-n", title: "contests", look: lookInteger.stat(), value: func(r trendRow) value { return integer(r.Trend.Contests.N) }},
	{key: "contests-s", title: "S, on contests", look: lookInteger.stat(), value: func(r trendRow) value { return compared(r.Trend.Contests.N, r.Trend.Contests.S) }},
	{key: "contests-p", title: "p, on contests", look: lookP, value: func(r trendRow) value { return float(r.Trend.Contests.P) }},
	{key: "tau", title: "tau, on flights", look: lookTwo.stat(), value: func(r trendRow) value {
		return float(r.Trend.Tau)
	}},
}

// moved is a number of a change of category, where enough contests can tell.
func moved(key, title, format string, of func(analysis.Move) float64) column[analysis.Move] {
	return column[analysis.Move]{
		key: key, title: title, look: look{format: format, align: "right", line: true}.stat(), value: func(m analysis.Move) value {
			if !m.Known {
				return value{}
			}
			return float(of(m))
		},
	}
}

var moveColumns = []column[analysis.Move]{
	{key: "from", title: "change of category", look: lookWrap, value: func(m analysis.Move) value { return text(m.From + " to " + m.To) }},
	{key: "before", title: "contests before", look: lookInteger.stat(), value: func(m analysis.Move) value { return integer(m.Before) }},
	{key: "after", title: "contests after", look: lookInteger.stat(), value: func(m analysis.Move) value { return integer(m.After) }},
	moved("change", "change", signedOne, func(m analysis.Move) float64 { return m.Change }),
	moved("low", "from", signedOne, func(m analysis.Move) float64 { return m.Low }),
	moved("high", "to", signedOne, func(m analysis.Move) float64 { return m.High }),
	moved("sure", "sure", "0.0 %", func(m analysis.Move) float64 { return m.Confidence }),
}
