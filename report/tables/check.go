package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
)

// DiagnosticTable has a row a diagnostic.
func DiagnosticTable(d answers.Check) *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Title: "file"},
		{Title: "line", Align: report.Right},
		{Title: "column", Align: report.Right},
		{Title: "severity"},
		{Title: "code"},
		{Title: "message"},
		{Title: "hint"},
	}}
	for _, g := range d.Diagnostics {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(g.File), CountCell(g.Line), CountCell(g.Column), report.Text(g.Severity), report.Text(g.Code),
			report.Text(g.Message), report.Text(g.Hint),
		})
	}
	return t
}
