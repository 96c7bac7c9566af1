package pages

import (
	"boxbook/report"
	"boxbook/season/ledger"
)

// CheckData is what check found, in JSON.
type CheckData struct {
	Diagnostics []DiagnosticData `json:"diagnostics"`
	Errors      int              `json:"errors"`
	Warnings    int              `json:"warnings"`
}

// DiagnosticData is one thing wrong at one place; line and column count from 1.
type DiagnosticData struct {
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Severity string `json:"severity"`
	Message  string `json:"message"`
	Hint     string `json:"hint,omitempty"`
}

// Check is what a reading found, as a table for other programs.
func Check(result *ledger.Result) report.Document {
	d := checkData(result)
	t := &report.Table{Columns: []report.Column{
		{Title: "file"},
		{Title: "line", Align: report.Right},
		{Title: "column", Align: report.Right},
		{Title: "severity"},
		{Title: "message"},
		{Title: "hint"},
	}}
	for _, g := range d.Diagnostics {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(g.File), countCell(g.Line), countCell(g.Column),
			report.Text(g.Severity), report.Text(g.Message), report.Text(g.Hint),
		})
	}
	return report.Document{Data: d, Sections: []report.Section{{Blocks: []report.Block{t}}}}
}

func checkData(result *ledger.Result) CheckData {
	d := CheckData{Diagnostics: []DiagnosticData{}, Errors: result.Diagnostics.Errors(), Warnings: result.Diagnostics.Warnings()}
	for _, g := range result.Diagnostics {
		d.Diagnostics = append(d.Diagnostics, DiagnosticData{g.File, g.Line, g.Column, string(g.Severity), g.Message, g.Hint})
	}
	return d
}
