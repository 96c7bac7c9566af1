package pages

import (
	"boxbook/report"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Export is one tidy table: the rows of the named one.
func Export[Row any](of words.ExportedTable, rows []Row) report.Document {
	doc := report.Document{Title: of.Title(), Data: rows, Bare: true}
	doc.Sections = []report.Section{{Blocks: []report.Block{tables.ExportTable(of, rows)}}}
	return doc
}
