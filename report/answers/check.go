package answers

import (
	"boxbook/season/ledger"
)

// Check is what check found, in JSON.
type Check struct {
	Diagnostics []Diagnostic `json:"diagnostics"`
	Errors      int          `json:"errors"`
	Warnings    int          `json:"warnings"`
}

// Diagnostic is one thing wrong at one place; line and column count from 1.
type Diagnostic struct {
	File     string `json:"file"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	Severity string `json:"severity"`
	Message  string `json:"message"`
	Hint     string `json:"hint,omitempty"`
}

// CheckOf is what a reading of a ledger found.
func CheckOf(result *ledger.Result) Check {
	d := Check{Diagnostics: []Diagnostic{}, Errors: result.Diagnostics.Errors(), Warnings: result.Diagnostics.Warnings()}
	for _, g := range result.Diagnostics {
		d.Diagnostics = append(d.Diagnostics, Diagnostic{g.File, g.Line, g.Column, string(g.Severity), g.Message, g.Hint})
	}
	return d
}
