package answers

import (
	"boxbook/season/ledger"
)

// MostDiagnostics is how many diagnostics the JSON of check holds; the rest are
// counted.
const MostDiagnostics = 1000

// Check is what check found, in JSON.
type Check struct {
	Diagnostics []Diagnostic `json:"diagnostics"`
	Errors      int          `json:"errors"`
	Warnings    int          `json:"warnings"`
	// Shown is how many of them stand in Diagnostics.
	Shown int `json:"shown"`
}

// Diagnostic is one thing wrong at one place. Lines and columns count from 1,
// columns in characters, a tab one; the end is the column behind the last one.
type Diagnostic struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"endLine"`
	EndColumn int    `json:"endColumn"`
	Severity  string `json:"severity"`
	// Code is the name of its kind, for `boxbook help KIND`.
	Code    string `json:"code"`
	Message string `json:"message"`
	Hint    string `json:"hint,omitempty"`
	// Fixes are the edits that fix it, together; none where it has more than
	// one reading.
	Fixes []Fix `json:"fixes,omitempty"`
}

// Fix is an edit of one line: what stands from Column to before EndColumn gives
// way to Text.
type Fix struct {
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndColumn int    `json:"endColumn"`
	Text      string `json:"text"`
}

// CheckOf is what a reading found, the errors first where it is too much to
// show.
func CheckOf(result *ledger.Result) Check {
	list := result.Diagnostics
	shown := ledger.MostPressing(list, MostDiagnostics)
	d := Check{Diagnostics: []Diagnostic{}, Errors: list.Errors(), Warnings: list.Warnings(), Shown: len(shown)}
	for _, g := range shown {
		d.Diagnostics = append(d.Diagnostics, diagnosticOf(g))
	}
	return d
}

func diagnosticOf(g ledger.Diagnostic) Diagnostic {
	d := Diagnostic{
		File: g.File, Line: g.Line, Column: g.Column, EndLine: g.EndLine(), EndColumn: g.EndColumn(),
		Severity: string(g.Severity), Code: string(g.Code), Message: g.Message, Hint: g.Hint,
	}
	for _, f := range g.Fixes {
		d.Fixes = append(d.Fixes, Fix(f))
	}
	return d
}
