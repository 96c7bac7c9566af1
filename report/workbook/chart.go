package workbook

import (
	"math"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// The chart stands beside the facts and ends above the tables. The library
// counts 18 pixels to a row of one line.
const (
	chartWidth  = 760
	chartHeight = 284
)

// seasonChart draws percent by date: each flight that counts one mark, with the
// noise of its panel as a bar, and a trend that is claimed as a thin line between
// the steepest and the flattest that it may be.
func seasonChart(b *xlsx.Book, c *content, p, trends xlsx.Placed, rows []flightRow) {
	if len(rows) == 0 {
		b.Text(6, factsRow, words.NoChart, xlsx.LookNote)
		return
	}
	chart := xlsx.ScatterChart{
		Sheet: words.SeasonSheet, At: xlsx.At(5, factsRow), Width: chartWidth, Height: chartHeight, X: dateAxis(rows),
		Title: words.SeasonChart(c.period), XTitle: words.ColumnDate, YTitle: words.ColumnPercent,
		Alt:    words.SeasonChartWords,
		Series: []xlsx.ScatterSeries{byDate(p, "percent", "drawn", xlsx.SeriesMarks, percentSeries(p, rows))},
	}
	for i, t := range c.book.Season.Trends {
		if t.Claimed() {
			chart.Series = append(chart.Series, trendSeries(trends, i, *t.Line))
			chart.Series = append(chart.Series, bandSeries(b, trends, i, t)...)
		}
	}
	for _, key := range []string{"upper", "lower"} {
		chart.Series = append(chart.Series, byDate(p, key, key, xlsx.SeriesUnseen, noiseSeries(key, rows)))
	}
	chart.Series = append(chart.Series, contestNames(p, rows)...)
	chart.YLow = percentsFrom(chart.Series)
	b.Scatter(chart)
}

// mostNamed is how many contests the chart names at the most: of more the names
// would lie over each other.
const mostNamed = 12

// contestNames are the contests' names, each above the highest of its flights.
func contestNames(p xlsx.Placed, rows []flightRow) []xlsx.ScatterSeries {
	var contests []string
	highest := map[string]int{}
	upper := noiseSeries("upper", rows)
	for i, f := range rows {
		at, known := highest[f.contest]
		switch {
		case f.contest == "" || math.IsNaN(upper.Y[i]):
		case !known:
			contests, highest[f.contest] = append(contests, f.contest), i
		case upper.Y[i] > upper.Y[at]:
			highest[f.contest] = i
		}
	}
	if len(contests) > mostNamed {
		return nil
	}
	var names []xlsx.ScatterSeries
	for _, contest := range contests {
		i := highest[contest]
		row := p.First() + i
		names = append(names, xlsx.ScatterSeries{
			Name: p.RowRef(row, "contest", ""), X: p.RowRef(row, "date", "date"), Y: p.RowRef(row, "upper", "upper"), Kind: xlsx.SeriesUnseen,
			Values: xlsx.SeriesValues{X: upper.X[i : i+1], Y: upper.Y[i : i+1], Named: true},
		})
	}
	return names
}

// byDate is a series of a table's column by the date beside it.
func byDate(p xlsx.Placed, named, key string, kind xlsx.SeriesKind, values xlsx.SeriesValues) xlsx.ScatterSeries {
	return xlsx.ScatterSeries{
		Name: p.HeadRef(named), Kind: kind, Values: values,
		X: p.Ref("date", "date"), Y: p.Ref(key, key),
	}
}

// trendSeries is the line between the two ends of a category's trend.
func trendSeries(trends xlsx.Placed, i int, l answers.TrendLine) xlsx.ScatterSeries {
	row := trends.First() + i
	return xlsx.ScatterSeries{
		Name: trends.RowRef(row, "name", ""), Kind: xlsx.SeriesLine,
		X:      trends.RowRef(row, "first", "last"),
		Y:      trends.RowRef(row, "line-first", "line-last"),
		Values: xlsx.SeriesValues{X: []float64{dayNumber(l.First), dayNumber(l.Last)}, Y: []float64{l.AtFirst.Float64(), l.AtLast.Float64()}},
	}
}

// bandColumn is where the ends of a trend's band stand, two columns a line, among
// the working columns of the table above.
const bandColumn = 17

// bandSeries are the lines between which a trend may lie, dashed. Their ends stand
// beside the trend.
func bandSeries(b *xlsx.Book, trends xlsx.Placed, i int, t answers.CategoryTrend) []xlsx.ScatterSeries {
	if !t.Low.Known() || !t.High.Known() {
		return nil
	}
	row, sheet := trends.First()+i, xlsx.QuotedSheet(words.SeasonSheet)+"!"
	var series []xlsx.ScatterSeries
	for n, edge := range []struct {
		name, end string
		change    report.Number
	}{
		{words.ColumnTrendAtMost, words.ColumnTrendAtMostEnd, t.High},
		{words.ColumnTrendAtLeast, words.ColumnTrendAtLeastEnd, t.Low},
	} {
		column := bandColumn + 2*n
		first, last := t.Line.Turned(edge.change.Float64())
		b.Text(column, trends.Head, edge.name, xlsx.LookText.Working())
		b.Text(column+1, trends.Head, edge.end, xlsx.LookText.Working())
		b.Put(column, row, xlsx.Float(first), xlsx.LookTwo.Working())
		b.Put(column+1, row, xlsx.Float(last), xlsx.LookTwo.Working())
		series = append(series, xlsx.ScatterSeries{
			Name: sheet + xlsx.Dollars(column, trends.Head, 0, 0), Kind: xlsx.SeriesLine,
			X: trends.RowRef(row, "first", "last"), Y: sheet + xlsx.Dollars(column, row, column+1, row),
			Values: xlsx.SeriesValues{X: []float64{dayNumber(t.Line.First), dayNumber(t.Line.Last)}, Y: []float64{first, last}, Dashed: true},
		})
	}
	return series
}

// percentSeries are the flights' values, with a bar of their panels' noise
// where that is known of any.
func percentSeries(p xlsx.Placed, rows []flightRow) xlsx.SeriesValues {
	s := xlsx.SeriesValues{}
	known := false
	var noise []float64
	for _, f := range rows {
		s.X = append(s.X, dayNumber(f.Date))
		s.Y = append(s.Y, f.line.Percent.Float64())
		noise = append(noise, orZero(f.line.Noise))
		known = known || f.line.Noise.Known()
	}
	if known {
		ref := p.Ref("noise", "noise")
		s.Bars = &xlsx.ErrorBars{PlusRef: ref, MinusRef: ref, Plus: noise, Minus: noise, Direction: "y"}
	}
	return s
}

// noiseSeries are the values at one end of the noise.
func noiseSeries(key string, rows []flightRow) xlsx.SeriesValues {
	columns := enteredColumns()
	i := slices.IndexFunc(columns, func(c xlsx.Column[flightRow]) bool { return c.Key == key })
	s := xlsx.SeriesValues{}
	for _, f := range rows {
		s.X = append(s.X, dayNumber(f.Date))
		end := columns[i].Value(f)
		if !end.Numeric {
			end.Number = math.NaN()
		}
		s.Y = append(s.Y, end.Number)
	}
	return s
}

// percentsFrom is where the axis of percent begins. Left to themselves, programs begin it
// at zero where the highest is more than a sixth above the lowest, and the flights lie in a
// flat row at the top; so far below them there is room for a figure that is zeroed in the
// workbook.
func percentsFrom(series []xlsx.ScatterSeries) float64 {
	const room, step = 10, 5
	lowest := 100.0
	for _, s := range series {
		for _, y := range s.Values.Y {
			if !math.IsNaN(y) {
				lowest = min(lowest, y)
			}
		}
	}
	return max(0, step*math.Floor((lowest-room)/step))
}

// dateAxis frames the dates in about six steps of whole weeks.
func dateAxis(rows []flightRow) xlsx.Axis {
	a := xlsx.Axis{Low: math.Inf(1), High: math.Inf(-1)}
	for _, f := range rows {
		d := dayNumber(f.Date)
		a.Low, a.High = min(a.Low, d), max(a.High, d)
	}
	a.Step = 7 * math.Ceil(max(1, (a.High-a.Low)/(6*7)))
	a.Low -= math.Ceil(a.Step / 2)
	a.High = a.Low + a.Step*math.Ceil((a.High-a.Low+1)/a.Step)
	return a
}

// familyChart draws the families' levels with their intervals; where the
// figures are too few to shrink, the plain percents.
func familyChart(b *xlsx.Book, c *content, p xlsx.Placed, rows []familyRow) {
	if len(rows) == 0 {
		return
	}
	shrunk := c.book.Families.Tau2.Known()
	key := "shrunken"
	if !shrunk {
		key = "percent"
	}
	chart := xlsx.BarChart{
		Sheet: words.FamiliesSheet, At: xlsx.At(1, p.Last()+2), Format: "0",
		Name:   p.HeadRef(key),
		Labels: p.Ref("family", "family"), Values: p.Ref(key, key),
		Low: math.Inf(1), High: math.Inf(-1), Width: 900, Height: 24*len(rows) + 80,
	}
	bars := &xlsx.ErrorBars{
		PlusRef: p.Ref("above", "above"), MinusRef: p.Ref("below", "below"), Direction: "",
	}
	for _, r := range rows {
		level, low, high := r.Shrunken.Float64(), r.Low.Float64(), r.High.Float64()
		if !shrunk {
			level, low, high = r.Percent.Float64(), r.Percent.Float64(), r.Percent.Float64()
		}
		chart.Words, chart.Numbers = append(chart.Words, words.FamilyTitle(r.Group.Group)), append(chart.Numbers, level)
		bars.Plus, bars.Minus = append(bars.Plus, high-level), append(bars.Minus, level-low)
		chart.Low, chart.High = min(chart.Low, low), max(chart.High, high)
	}
	if shrunk {
		chart.Intervals = bars
	}
	chart.Low, chart.High = max(0, 10*math.Floor((chart.Low-5)/10)), 10*math.Ceil((chart.High+1)/10)
	chart.Title = words.FamiliesChart(c.book.Families, int(chart.Low))
	b.Bars(chart)
}
