package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
)

// Check is what a reading found, as a table for other programs.
func Check(d answers.Check) report.Document {
	return report.Document{Data: d, Sections: []report.Section{{Blocks: []report.Block{tables.DiagnosticTable(d)}}}}
}
