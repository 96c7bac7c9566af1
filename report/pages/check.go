package pages

import "boxbook/season/ledger"

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

// Check lists the diagnostics of a reading.
func Check(result *ledger.Result) CheckData {
	d := CheckData{Diagnostics: []DiagnosticData{}, Errors: result.Diagnostics.Errors(), Warnings: result.Diagnostics.Warnings()}
	for _, g := range result.Diagnostics {
		d.Diagnostics = append(d.Diagnostics, DiagnosticData{g.File, g.Line, g.Column, string(g.Severity), g.Message, g.Hint})
	}
	return d
}
