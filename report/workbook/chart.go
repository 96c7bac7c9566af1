package workbook

import (
	"math"
	"slices"
	"strconv"
)

// The chart stands beside the facts and ends above the tables. The library
// counts 18 pixels to a row of one line.
const (
	chartWidth  = 760
	chartHeight = 284
)

// seasonChart draws percent by date: each flight that counts one mark, with the
// noise of its panel as a bar, and a thin line where a trend's slope may be
// shown.
func seasonChart(b *book, c *content, p, trends placed, rows []flightRow) {
	if len(rows) == 0 {
		b.text(6, factsRow, "No contest flight in this selection, so there is no chart.", lookNote)
		return
	}
	chart := scatterChart{
		sheet: seasonName, at: b.at(5, factsRow), width: chartWidth, height: chartHeight, x: dateAxis(rows),
		title: "Percent of the maximum, " + c.period + "; bars: panel noise either way", xTitle: "date", yTitle: "percent",
		alt:    "Percent of the maximum of each flight that counts, by date, with the panel noise of each and the trend where one may be drawn",
		series: []scatterSeries{byDate(p, "percent", "drawn", seriesMarks, percentSeries(p, rows))},
	}
	for i, t := range c.trends {
		if t.drawn {
			chart.series = append(chart.series, trendSeries(trends, i, t))
		}
	}
	for _, key := range []string{"upper", "lower"} {
		chart.series = append(chart.series, byDate(p, key, key, seriesUnseen, noiseSeries(key, rows)))
	}
	b.scatter(chart)
}

// byDate is a series of a table's column by the date beside it.
func byDate(p placed, named, key string, kind seriesKind, values seriesValues) scatterSeries {
	return scatterSeries{
		name: p.sheet + "!" + dollars(p.columns[named], p.head, 0, 0), kind: kind, values: values,
		x: p.sheet + "!" + p.span("date", "date"), y: p.sheet + "!" + p.span(key, key),
	}
}

// trendSeries is the line between the two ends of a category's trend.
func trendSeries(trends placed, i int, t trendRow) scatterSeries {
	row := trends.first() + i
	return scatterSeries{
		name: seasonName + "!" + dollars(trends.columns["name"], row, 0, 0), kind: seriesLine,
		x:      seasonName + "!" + dollars(trends.columns["first"], row, trends.columns["last"], row),
		y:      seasonName + "!" + dollars(trends.columns["line-first"], row, trends.columns["line-last"], row),
		values: seriesValues{x: t.days[:], y: t.line[:], dashed: true},
	}
}

// percentSeries are the flights' values, with a bar of their panels' noise
// where that is known of any.
func percentSeries(p placed, rows []flightRow) seriesValues {
	s := seriesValues{}
	known := false
	var noise []float64
	for _, f := range rows {
		s.x = append(s.x, day(f.line.Flight.Date).number)
		percent := math.NaN()
		if f.line.Record.Percent != nil {
			percent = exact(f.line.Record.Percent).number
		}
		s.y = append(s.y, percent)
		noise = append(noise, f.noise().number)
		known = known || f.panelNoise != nil
	}
	if known {
		ref := p.sheet + "!" + p.span("noise", "noise")
		s.bars = &errorBars{plusRef: ref, minusRef: ref, plus: noise, minus: noise, direction: "y"}
	}
	return s
}

// noiseSeries are the values at one end of the noise.
func noiseSeries(key string, rows []flightRow) seriesValues {
	i := slices.IndexFunc(enteredColumns, func(c column[flightRow]) bool { return c.key == key })
	s := seriesValues{}
	for _, f := range rows {
		s.x = append(s.x, day(f.line.Flight.Date).number)
		end := enteredColumns[i].value(f)
		if !end.numeric {
			end.number = math.NaN()
		}
		s.y = append(s.y, end.number)
	}
	return s
}

// dateAxis frames the dates in about six steps of whole weeks.
func dateAxis(rows []flightRow) axis {
	a := axis{low: math.Inf(1), high: math.Inf(-1)}
	for _, f := range rows {
		d := float64(f.line.Flight.Date) + epoch
		a.low, a.high = min(a.low, d), max(a.high, d)
	}
	a.step = 7 * math.Ceil(max(1, (a.high-a.low)/(6*7)))
	a.low -= math.Ceil(a.step / 2)
	a.high = a.low + a.step*math.Ceil((a.high-a.low+1)/a.step)
	return a
}

// familyChart draws the families' levels with their intervals; where the
// figures are too few to shrink, the plain percents.
func familyChart(b *book, c *content, p placed, rows []familyRow) {
	if len(rows) == 0 {
		return
	}
	key, title := "shrunken", "Level of the families, percent, with 90 % intervals"
	if !c.families.Shrunk {
		key, title = "percent", "Percent of the families"
	}
	column := columnName(p.columns[key])
	chart := barChart{
		sheet: familiesName, at: b.at(1, p.last()+2), format: "0",
		name:   familiesName + "!$" + column + "$" + strconv.Itoa(p.head),
		labels: familiesName + "!" + p.span("family", "family"), values: familiesName + "!" + p.span(key, key),
		low: math.Inf(1), high: math.Inf(-1), width: 900, height: 24*len(rows) + 80,
	}
	bars := &errorBars{
		plusRef: familiesName + "!" + p.span("above", "above"), minusRef: familiesName + "!" + p.span("below", "below"), direction: "",
	}
	for _, r := range rows {
		level, low, high := r.line.Shrunken, r.line.Low, r.line.High
		if !r.shrunk {
			level, low, high = r.line.Percent, r.line.Percent, r.line.Percent
		}
		chart.words, chart.numbers = append(chart.words, familyTitle(r.line.Group)), append(chart.numbers, level)
		bars.plus, bars.minus = append(bars.plus, high-level), append(bars.minus, level-low)
		chart.low, chart.high = min(chart.low, low), max(chart.high, high)
	}
	if c.families.Shrunk {
		chart.intervals = bars
	}
	chart.low, chart.high = max(0, 10*math.Floor((chart.low-5)/10)), 10*math.Ceil((chart.high+1)/10)
	chart.title = title + " (the axis begins at " + strconv.Itoa(int(chart.low)) + ")"
	b.bars(chart)
}
