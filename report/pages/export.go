package pages

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Export is one tidy table: the rows of the named one.
func Export[Row any](of words.ExportedTable, rows []Row) report.Document {
	return exportTable(of, rows, rows)
}

// ExportDrills is the table of drills, with what was seen in the page's words; JSON
// keeps those of its contract.
func ExportDrills(of words.ExportedTable, drills answers.Drills) report.Document {
	rows := answers.ExportDrillsOf(drills)
	shown := slices.Clone(rows)
	for i, d := range drills.Drills {
		shown[i].Word = answers.DrillWord(words.DrillMoved(d))
	}
	return exportTable(of, rows, shown)
}

// exportTable is a table as it is shown, and its rows in JSON.
func exportTable[Row any](of words.ExportedTable, rows, shown []Row) report.Document {
	doc := report.Document{Title: of.Title(), Data: rows, Bare: true}
	doc.Sections = []report.Section{{Blocks: []report.Block{tables.ExportTable(of, shown)}}}
	return doc
}
