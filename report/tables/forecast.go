package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// ForecastNotes say what a reader must know beside a forecast.
func ForecastNotes(d answers.Forecast) *report.Notes { return notesOf(words.ForecastNotes(d)) }

// FigureForecasts has a row a figure.
func FigureForecasts(d answers.Forecast) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Wrapped: true, Min: 10},
		{Title: words.ColumnGrade, Align: report.Right},
		{Title: words.RangeFrom(d.Confidence), Align: report.Right},
		{Title: words.ColumnTo, Align: report.Right},
	}}
	for _, f := range d.Figures {
		t.Rows = append(t.Rows, []report.Cell{
			CountCell(f.Number), report.Text(f.Label), report.Num(f.Mean, 1), report.Num(f.Low, 1), report.Num(f.High, 1),
		})
	}
	return t
}
