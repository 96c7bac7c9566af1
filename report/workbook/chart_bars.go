package workbook

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// barChart is a chart of horizontal bars, the first row at the top.
type barChart struct {
	sheet, at            string
	title, format        string
	name, labels, values string // references
	words                []string
	numbers              []float64
	low, high            float64 // ends of the axis; both 0: by the program
	width, height        int
	intervals            *errorBars
}

// barFill is a grey that prints light enough for intervals to show on it.
const barFill = "BFC5CB"

// bars draws a chart of bars.
func (b *book) bars(c barChart) {
	gap := uint(45)
	values := excelize.ChartAxis{
		MajorGridLines: true, NumFmt: excelize.ChartNumFmt{CustomNumFmt: c.format}, Font: *chartFont(9, false),
	}
	if c.high > c.low {
		values.Minimum, values.Maximum = &c.low, &c.high
	}
	b.addChart(c.sheet, c.at, &excelize.Chart{
		Type: excelize.Bar,
		Series: []excelize.ChartSeries{{
			Name: c.name, Categories: c.labels, Values: c.values, Fill: solid(barFill),
			Line: excelize.LineOptions{Width: 0.75, Fill: solid(faintInk)},
		}},
		Title: chartTitle(c.title, 12), Legend: excelize.ChartLegend{Position: "none"},
		XAxis:     excelize.ChartAxis{ReverseOrder: true, Font: *chartFont(9, false)},
		YAxis:     values,
		Dimension: excelize.ChartDimension{Width: uint(c.width), Height: uint(c.height)},
		Format:    excelize.GraphicOptions{AltText: c.title, OffsetX: 6, OffsetY: 4, LockAspectRatio: true},
		GapWidth:  &gap, VaryColors: new(bool),
	})
	b.charts = append(b.charts, chartValues{series: []seriesValues{{words: c.words, y: c.numbers, bars: c.intervals}}})
}

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
