package workbook

import "github.com/xuri/excelize/v2"

// scatterChart is a chart of values by date.
type scatterChart struct {
	sheet, at     string
	title, alt    string
	xTitle        string
	yTitle        string
	x             axis
	width, height uint
	series        []scatterSeries
}

// scatterSeries is one run of values: where they stand and what they are.
type scatterSeries struct {
	name, x, y string // references
	kind       seriesKind
	values     seriesValues
}

// seriesKind says how a series is drawn.
type seriesKind int

// The kinds.
const (
	seriesMarks  seriesKind = iota // a mark a value
	seriesLine                     // a thin line
	seriesUnseen                   // neither, and not in the legend: it widens the axis
)

// axis is the ends of an axis and the step between its numbers.
type axis struct{ low, high, step float64 }

// scatter draws a chart of values by date. The vertical axis is left to the
// program: a value changed in the workbook can move beyond any that is set here.
func (b *book) scatter(c scatterChart) {
	chart := &excelize.Chart{
		Type:       excelize.Scatter,
		Title:      chartTitle(c.title, 12),
		Legend:     excelize.ChartLegend{Position: "bottom", Font: chartFont(9, false)},
		XAxis:      excelize.ChartAxis{Minimum: &c.x.low, Maximum: &c.x.high, MajorUnit: c.x.step, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm-dd"}, Title: chartTitle(c.xTitle, 10), Font: *chartFont(9, false)},
		YAxis:      excelize.ChartAxis{MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0"}, Title: chartTitle(c.yTitle, 10), Font: *chartFont(9, false)},
		Dimension:  excelize.ChartDimension{Width: c.width, Height: c.height},
		Format:     excelize.GraphicOptions{AltText: c.alt, OffsetX: 6, LockAspectRatio: true},
		VaryColors: new(bool),
	}
	picture := chartValues{scatter: true, step: c.x.step}
	for i, s := range c.series {
		if s.kind == seriesUnseen {
			picture.unnamed = append(picture.unnamed, i)
		}
		chart.Series = append(chart.Series, s.drawn())
		picture.series = append(picture.series, s.values)
	}
	b.addChart(c.sheet, c.at, chart)
	b.charts = append(b.charts, picture)
}

// drawn is a series as the library takes it.
func (s scatterSeries) drawn() excelize.ChartSeries {
	drawn := excelize.ChartSeries{
		Name: s.name, Categories: s.x, Values: s.y,
		Line: excelize.LineOptions{Type: excelize.LineNone}, Marker: excelize.ChartMarker{Symbol: "none"},
	}
	switch s.kind {
	case seriesMarks:
		drawn.Marker = excelize.ChartMarker{Symbol: "circle", Size: 8, Fill: solid(ink)}
	case seriesLine:
		drawn.Line.Type = excelize.LineSolid
	case seriesUnseen:
	}
	return drawn
}
