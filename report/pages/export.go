package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Export is every mark as one tidy row.
func Export(rows []answers.ExportRow) report.Document {
	doc := report.Document{Title: words.ExportTitle, Data: rows, Bare: true}
	doc.Sections = []report.Section{{Blocks: []report.Block{tables.ExportTable(rows)}}}
	return doc
}
