package workbook

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// The chart stands beside the facts and ends above the tables. The library
// counts 18 pixels to a row of one line.
const (
	chartWidth  = 760
	chartHeight = 284
)

// quotedSheet is a sheet's name in front of a reference.
func quotedSheet(name string) string {
	if strings.Contains(name, " ") {
		return "'" + name + "'"
	}
	return name
}

func chartFont(size float64, bold bool) *excelize.Font {
	return &excelize.Font{Size: size, Bold: bold, Color: ink, Family: "Calibri"}
}

func chartTitle(words string, size float64) excelize.ChartTitle {
	return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: words, Font: chartFont(size, true)}}}
}

// chart draws percent by date: each flight that counts one mark, with the noise
// of its panel as a bar, and a thin line where a trend's slope may be shown.
// The vertical axis is left to the program: a mark changed in the workbook can
// move a flight beyond any that is set here.
func (b *book) chart(c *content, p, trends placed, rows []flightRow) {
	if len(rows) == 0 {
		b.text(6, factsRow, "No contest flight in this selection, so there is no chart.", lookNote)
		return
	}
	x := dateAxis(rows)
	chart := &excelize.Chart{
		Type: excelize.Scatter,
		Series: []excelize.ChartSeries{{
			Name:       p.sheet + "!$" + columnName(p.columns["percent"]) + "$" + strconv.Itoa(p.head),
			Categories: p.sheet + "!" + p.span("date", "date"),
			Values:     p.sheet + "!" + p.span("drawn", "drawn"),
			Line:       excelize.LineOptions{Type: excelize.LineNone},
			Marker:     excelize.ChartMarker{Symbol: "circle", Size: 8, Fill: solid(ink)},
		}},
		Title:     chartTitle("Percent of the maximum, "+c.period+"; bars: panel noise either way", 12),
		Legend:    excelize.ChartLegend{Position: "bottom", Font: chartFont(9, false)},
		XAxis:     excelize.ChartAxis{Minimum: &x.low, Maximum: &x.high, MajorUnit: x.step, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm-dd"}, Title: chartTitle("date", 10), Font: *chartFont(9, false)},
		YAxis:     excelize.ChartAxis{MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0"}, Title: chartTitle("percent", 10), Font: *chartFont(9, false)},
		Dimension: excelize.ChartDimension{Width: chartWidth, Height: chartHeight},
		Format: excelize.GraphicOptions{
			AltText: "Percent of the maximum of each flight that counts, by date, with the panel noise of each and the trend where one may be drawn",
			OffsetX: 6, LockAspectRatio: true,
		},
		VaryColors: new(bool),
	}
	picture := chartValues{scatter: true, step: x.step, series: []seriesValues{percentSeries(p, rows)}}
	for i, t := range c.trends {
		if t.drawn {
			chart.Series = append(chart.Series, trendSeries(trends, i))
			picture.series = append(picture.series, seriesValues{x: t.days[:], y: t.line[:], dashed: true})
		}
	}
	for _, key := range []string{"upper", "lower"} {
		picture.unnamed = append(picture.unnamed, len(chart.Series))
		chart.Series = append(chart.Series, excelize.ChartSeries{
			Name:       p.sheet + "!$" + columnName(p.columns[key]) + "$" + strconv.Itoa(p.head),
			Categories: p.sheet + "!" + p.span("date", "date"),
			Values:     p.sheet + "!" + p.span(key, key),
			Line:       excelize.LineOptions{Type: excelize.LineNone},
			Marker:     excelize.ChartMarker{Symbol: "none"},
		})
		picture.series = append(picture.series, noiseSeries(key, rows))
	}
	b.addChart(seasonName, b.at(5, factsRow), chart)
	b.charts = append(b.charts, picture)
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

// trendSeries is the line between the two ends of a category's trend.
func trendSeries(trends placed, i int) excelize.ChartSeries {
	row := trends.first() + i
	return excelize.ChartSeries{
		Name:       seasonName + "!$" + columnName(trends.columns["name"]) + "$" + strconv.Itoa(row),
		Categories: seasonName + "!" + dollars(trends.columns["first"], row, trends.columns["last"], row),
		Values:     seasonName + "!" + dollars(trends.columns["line-first"], row, trends.columns["line-last"], row),
		Line:       excelize.LineOptions{Type: excelize.LineSolid},
		Marker:     excelize.ChartMarker{Symbol: "none"},
	}
}

// axis is the ends of an axis and the step between its numbers.
type axis struct{ low, high, step float64 }

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
