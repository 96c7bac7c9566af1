package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/season"
)

// Export is every mark of the flights as one tidy row: by flight, then by
// figure as the sheet stands, then by judge as the panel does. It tells how many
// of the flights are through, unless tell is nil.
func Export(flights []*season.Flight, tell func(done, total int)) report.Document {
	rows := []answers.ExportRow{}
	for i, f := range flights {
		rows = append(rows, answers.ExportRows(f)...)
		if tell != nil {
			tell(i+1, len(flights))
		}
	}
	doc := report.Document{Title: "Marks", Data: rows, Bare: true}
	doc.Sections = []report.Section{{Blocks: []report.Block{tables.ExportTable(rows)}}}
	return doc
}
