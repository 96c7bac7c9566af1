package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// lostSections are the section on where the points went; none where the flight
// has no marks.
func lostSections(d *answers.Lost) []report.Section {
	if d == nil {
		return nil
	}
	blocks := []report.Block{&report.Paragraph{Text: words.LostSentence(d)}}
	if d.Whole.Sign() > 0 {
		blocks = append(blocks,
			tables.Table(d, "by figure", "fig", "figure", words.FigureRows(d)),
			tables.Table(d, "by element", "code", "where", words.ElementRows(d)),
			tables.Table(d, "by family", "key", "family", words.GroupRows(d)),
		)
	}
	return []report.Section{{Heading: "Where the points went", Blocks: append(blocks, tables.LostNotes(d))}}
}
