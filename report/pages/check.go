package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/season/ledger"
)

// Check is what a reading found, as a table for other programs.
func Check(result *ledger.Result) report.Document {
	d := answers.CheckOf(result)
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
			report.Text(g.File), tables.CountCell(g.Line), tables.CountCell(g.Column),
			report.Text(g.Severity), report.Text(g.Code), report.Text(g.Message), report.Text(g.Hint),
		})
	}
	return report.Document{Data: d, Sections: []report.Section{{Blocks: []report.Block{t}}}}
}
