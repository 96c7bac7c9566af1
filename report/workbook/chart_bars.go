package workbook

import (
	"math"
	"strconv"

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

// familyChart draws the families' levels with their intervals; where the
// figures are too few to shrink, the plain percents.
func (b *book) familyChart(c *content, p placed, rows []familyRow) {
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
