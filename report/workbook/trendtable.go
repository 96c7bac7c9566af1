package workbook

import (
	"math"
	"slices"

	"boxbook/report/workbook/xlsx"
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
			day, percent := float64(line.Flight.Date)+epoch, xlsx.Exact(line.Record.Percent).Number
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
func sloped(key, title, format string, of func(analysis.Trend) float64) xlsx.Column[trendRow] {
	return xlsx.Column[trendRow]{
		Key: key, Title: title, Look: xlsx.Look{Format: format, Align: "right", Line: true}.Stat(), Value: func(r trendRow) xlsx.Value {
			return xlsx.Float(of(r.Trend))
		},
	}
}

// compared is the S of so many points, which one alone does not have.
func compared(n, s int) xlsx.Value {
	if n < 2 {
		return xlsx.Value{}
	}
	return xlsx.Integer(s)
}

// ofLine is an end of the line.
func ofLine(key, title string, l xlsx.Look, of func(trendRow) float64) xlsx.Column[trendRow] {
	return xlsx.Column[trendRow]{Key: key, Title: title, Look: l, Value: func(r trendRow) xlsx.Value {
		if !r.drawn {
			return xlsx.Value{}
		}
		return xlsx.Float(of(r))
	}}
}

var trendColumns = []xlsx.Column[trendRow]{
	{Key: "name", Title: "trend of the category", Look: xlsx.LookWrap, Value: func(r trendRow) xlsx.Value { return xlsx.Text("trend, " + r.Category) }},
	ofLine("first", "first day", xlsx.LookDate, func(r trendRow) float64 { return r.days[0] }),
	ofLine("last", "last day", xlsx.LookDate, func(r trendRow) float64 { return r.days[1] }),
	ofLine("line-first", "line, first day", xlsx.LookTwo.Stat(), func(r trendRow) float64 { return r.line[0] }),
	ofLine("line-last", "line, last day", xlsx.LookTwo.Stat(), func(r trendRow) float64 { return r.line[1] }),
	sloped("slope", "points per 30 days", "+0.00;-0.00;0.00", func(t analysis.Trend) float64 { return t.Slope30 }),
	sloped("change", "change", signedOne, func(t analysis.Trend) float64 { return t.Season }),
	sloped("low", "from", signedOne, func(t analysis.Trend) float64 { return t.Low }),
	sloped("high", "to", signedOne, func(t analysis.Trend) float64 { return t.High }),
	sloped("sure", "sure", "0.0 %", func(t analysis.Trend) float64 { return t.Confidence }),
	{Key: "without", Title: "without zeroed", Look: xlsx.Look{Format: signedOne, Align: "right", Line: true}.Stat(), Value: func(r trendRow) xlsx.Value {
		return xlsx.Float(r.Trend.WithoutZero)
	}},
	{Key: "word", Title: "verdict", Look: xlsx.LookText.Stat().Indented(), Value: func(r trendRow) xlsx.Value { return xlsx.Text(string(r.Trend.Word)) }},
}

var lookP = xlsx.Look{Format: lookThree, Align: "right", Line: true}.Stat()

var testColumns = []xlsx.Column[trendRow]{
	{Key: "name", Title: "tests of the trend", Look: xlsx.LookWrap, Value: func(r trendRow) xlsx.Value { return xlsx.Text(r.Category) }},
	{Key: "n", Title: "flights compared", Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return xlsx.Integer(r.Trend.N) }},
	{Key: "s", Title: "S, on flights", Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return compared(r.Trend.N, r.Trend.S) }},
	{Key: "p", Title: "p, on flights", Look: lookP, Value: func(r trendRow) xlsx.Value { return xlsx.Float(r.Trend.P) }},
	{Key: "contests-n", Title: "contests", Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return xlsx.Integer(r.Trend.Contests.N) }},
	{Key: "contests-s", Title: "S, on contests", Look: xlsx.LookInteger.Stat(), Value: func(r trendRow) xlsx.Value { return compared(r.Trend.Contests.N, r.Trend.Contests.S) }},
	{Key: "contests-p", Title: "p, on contests", Look: lookP, Value: func(r trendRow) xlsx.Value { return xlsx.Float(r.Trend.Contests.P) }},
	{Key: "tau", Title: "tau, on flights", Look: xlsx.LookTwo.Stat(), Value: func(r trendRow) xlsx.Value {
		return xlsx.Float(r.Trend.Tau)
	}},
}

// moved is a number of a change of category, where enough contests can tell.
func moved(key, title, format string, of func(analysis.Move) float64) xlsx.Column[analysis.Move] {
	return xlsx.Column[analysis.Move]{
		Key: key, Title: title, Look: xlsx.Look{Format: format, Align: "right", Line: true}.Stat(), Value: func(m analysis.Move) xlsx.Value {
			if !m.Known {
				return xlsx.Value{}
			}
			return xlsx.Float(of(m))
		},
	}
}

var moveColumns = []xlsx.Column[analysis.Move]{
	{Key: "from", Title: "change of category", Look: xlsx.LookWrap, Value: func(m analysis.Move) xlsx.Value { return xlsx.Text(m.From + " to " + m.To) }},
	{Key: "before", Title: "contests before", Look: xlsx.LookInteger.Stat(), Value: func(m analysis.Move) xlsx.Value { return xlsx.Integer(m.Before) }},
	{Key: "after", Title: "contests after", Look: xlsx.LookInteger.Stat(), Value: func(m analysis.Move) xlsx.Value { return xlsx.Integer(m.After) }},
	moved("change", "change", signedOne, func(m analysis.Move) float64 { return m.Change }),
	moved("low", "from", signedOne, func(m analysis.Move) float64 { return m.Low }),
	moved("high", "to", signedOne, func(m analysis.Move) float64 { return m.High }),
	moved("sure", "sure", "0.0 %", func(m analysis.Move) float64 { return m.Confidence }),
}
