package xlsx

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// BarChart is a chart of horizontal bars, the first row at the top.
type BarChart struct {
	Sheet, At            string
	Title, Format        string
	Name, Labels, Values string // references
	Words                []string
	Numbers              []float64
	Low, High            float64 // ends of the axis; both 0: by the program
	Width, Height        int
	Intervals            *ErrorBars
}

// barFill is a grey that prints light enough for intervals to show on it.
const barFill = "BFC5CB"

// Bars draws a chart of bars.
func (b *Book) Bars(c BarChart) {
	gap := uint(45)
	values := excelize.ChartAxis{
		MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: c.Format}, Font: *chartFont(9, false),
	}
	if c.High > c.Low {
		values.Minimum, values.Maximum = &c.Low, &c.High
	}
	b.addChart(c.Sheet, c.At, &excelize.Chart{
		Type: excelize.Bar,
		Series: []excelize.ChartSeries{{
			Name: c.Name, Categories: c.Labels, Values: c.Values, Fill: solid(barFill),
			Line: excelize.LineOptions{Width: 0.75, Fill: solid(FaintInk)},
		}},
		Title: chartTitle(c.Title, 12), Legend: excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{ReverseOrder: true, Font: *chartFont(9, false)},
		YAxis:     values,
		Dimension: excelize.ChartDimension{Width: uint(c.Width), Height: uint(c.Height)},
		Format:    excelize.GraphicOptions{AltText: c.Title, OffsetX: 6, OffsetY: 4, LockAspectRatio: true},
		GapWidth:  &gap, VaryColors: new(bool),
	})
	b.charts = append(b.charts, ChartValues{series: []SeriesValues{{words: c.Words, Y: c.Numbers, Bars: c.Intervals}}})
}

// QuotedSheet is a sheet's name in front of a reference.
func QuotedSheet(name string) string {
	if strings.Contains(name, " ") {
		return "'" + name + "'"
	}
	return name
}

func chartFont(size float64, bold bool) *excelize.Font {
	return &excelize.Font{Size: size, Bold: bold, Color: Ink, Family: "Calibri"}
}

func chartTitle(words string, size float64) excelize.ChartTitle {
	return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: words, Font: chartFont(size, true)}}}
}
