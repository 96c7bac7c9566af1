package xlsx

import "github.com/xuri/excelize/v2"

// ScatterChart is a chart of values by date.
type ScatterChart struct {
	Sheet, At     string
	Title, Alt    string
	XTitle        string
	YTitle        string
	X             Axis
	YLow          float64 // where the vertical axis begins
	Width, Height uint
	Series        []ScatterSeries
}

// ScatterSeries is one run of values: where they stand and what they are.
type ScatterSeries struct {
	Name, X, Y string // references
	Kind       SeriesKind
	Values     SeriesValues
}

// SeriesKind says how a series is drawn.
type SeriesKind int

// The kinds.
const (
	SeriesMarks  SeriesKind = iota // a mark a value
	SeriesLine                     // a thin line
	SeriesUnseen                   // neither, and not in the legend: it widens the axis
)

// Axis is the ends of an axis and the step between its numbers.
type Axis struct{ Low, High, Step float64 }

// Scatter draws a chart of values by date. The upper end of the vertical axis is left
// to the program: a value changed in the workbook can move beyond any that is set here.
func (b *Book) Scatter(c ScatterChart) {
	chart := &excelize.Chart{
		Type:       excelize.Scatter,
		Title:      chartTitle(c.Title, 12),
		Legend:     excelize.ChartLegend{Position: "bottom", Font: chartFont(9, false)},
		XAxis:      excelize.ChartAxis{Minimum: &c.X.Low, Maximum: &c.X.High, MajorUnit: c.X.Step, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "yyyy-mm-dd"}, Title: chartTitle(c.XTitle, 10), Font: *chartFont(9, false)},
		YAxis:      excelize.ChartAxis{Minimum: &c.YLow, MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: "0"}, Title: chartTitle(c.YTitle, 10), Font: *chartFont(9, false)},
		Dimension:  excelize.ChartDimension{Width: c.Width, Height: c.Height},
		Format:     excelize.GraphicOptions{AltText: c.Alt, OffsetX: 6, LockAspectRatio: true},
		VaryColors: new(bool),
	}
	picture := ChartValues{scatter: true, step: c.X.Step}
	for i, s := range c.Series {
		if s.Kind == SeriesUnseen {
			picture.unnamed = append(picture.unnamed, i)
		}
		chart.Series = append(chart.Series, s.drawn())
		picture.series = append(picture.series, s.Values)
	}
	b.addChart(c.Sheet, c.At, chart)
	b.charts = append(b.charts, picture)
}

// drawn is a series as the library takes it.
func (s ScatterSeries) drawn() excelize.ChartSeries {
	drawn := excelize.ChartSeries{
		Name: s.Name, Categories: s.X, Values: s.Y,
		Line: excelize.LineOptions{Type: excelize.LineNone}, Marker: excelize.ChartMarker{Symbol: "none"},
	}
	switch s.Kind {
	case SeriesMarks:
		drawn.Marker = excelize.ChartMarker{Symbol: "circle", Size: 8, Fill: solid(Ink)}
	case SeriesLine:
		drawn.Line.Type = excelize.LineSolid
	case SeriesUnseen:
	}
	return drawn
}
