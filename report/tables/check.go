package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// DiagnosticTable has a row a diagnostic.
func DiagnosticTable(d answers.Check) *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Title: words.ColumnFile},
		{Title: words.ColumnLine, Align: report.Right},
		{Title: words.ColumnColumn, Align: report.Right},
		{Title: words.ColumnSeverity},
		{Title: words.ColumnCode},
		{Title: words.ColumnMessage},
		{Title: words.ColumnHint},
	}}
	for _, g := range d.Diagnostics {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(g.File), CountCell(g.Line), CountCell(g.Column), report.Text(g.Severity), report.Text(g.Code),
			report.Text(g.Message), report.Text(g.Hint),
		})
	}
	return t
}
