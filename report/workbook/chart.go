package workbook

import (
	"math"
	"strconv"

	"github.com/xuri/excelize/v2"
)

// The chart stands beside the facts and ends above the tables. The library
// counts 18 pixels to a row of one line.
const (
	chartWidth  = 600
	chartHeight = 284
)

// chart draws percent by date, each flight that counts one mark. No trend is
// drawn: whether there is one is not for a picture to say.
func (b *book) chart(c *content, p placed, rows []flightRow) {
	if len(rows) == 0 {
		b.text(6, factsRow, "No flight has a percent yet, so there is no chart.", lookNote)
		return
	}
	x, y := dateAxis(rows), percentAxis(rows)
	plain := func(size float64, bold bool) *excelize.Font {
		return &excelize.Font{Size: size, Bold: bold, Color: ink, Family: "Calibri"}
	}
	title := func(words string, size float64) excelize.ChartTitle {
		return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: words, Font: plain(size, true)}}}
	}
	no := false
	b.fail(b.file.AddChart(seasonName, b.at(5, factsRow), &excelize.Chart{
		Type: excelize.Scatter,
		Series: []excelize.ChartSeries{{
			Name:       p.sheet + "!$" + columnName(p.columns["percent"]) + "$" + strconv.Itoa(p.head),
			Categories: p.sheet + "!" + p.span("date", "date"),
			Values:     p.sheet + "!" + p.span("percent", "percent"),
			Line:       excelize.LineOptions{Type: excelize.LineNone},
			Marker:     excelize.ChartMarker{Symbol: "circle", Size: 9, Fill: solid(ink)},
		}},
		Title:     title("Percent of the maximum, "+c.period, 12),
		Legend:    excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{Minimum: &x.low, Maximum: &x.high, MajorUnit: x.step, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm-dd"}, Title: title("date", 10), Font: *plain(9, false)},
		YAxis:     excelize.ChartAxis{Minimum: &y.low, Maximum: &y.high, MajorUnit: y.step, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0"}, Title: title("percent", 10), Font: *plain(9, false)},
		Dimension: excelize.ChartDimension{Width: chartWidth, Height: chartHeight},
		Format: excelize.GraphicOptions{
			AltText: "Percent of the maximum of each flight that counts, by date", OffsetX: 6, LockAspectRatio: true,
		},
		VaryColors: &no,
	}))
	picture := chartValues{step: x.step}
	for _, f := range rows {
		picture.x = append(picture.x, day(f.line.Flight.Date).number)
		picture.y = append(picture.y, exact(f.line.Record.Percent).number)
	}
	b.charts = append(b.charts, picture)
}

// axis is the ends of an axis and the step between its numbers.
type axis struct{ low, high, step float64 }

// percentAxis frames the percents in steps of five with room on both sides,
// within 0 and 100 where they are. It does not begin at 0: flights of one
// pilot lie within a few percent.
func percentAxis(rows []flightRow) axis {
	a := axis{low: math.Inf(1), high: math.Inf(-1), step: 5}
	for _, f := range rows {
		p := exact(f.line.Record.Percent).number
		a.low, a.high = min(a.low, p), max(a.high, p)
	}
	a.low = max(0, 5*math.Floor((a.low-2.5)/5))
	a.high = 5 * math.Ceil((a.high+2.5)/5)
	if a.high-a.low > 50 {
		a.step = 10
	}
	return a
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
