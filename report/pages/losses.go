package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
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
	if words.AnyLost(d) {
		blocks = append(blocks, picture(charts.Losses, d))
		blocks = append(blocks,
			tables.LostTable(d, words.LostByFigure, words.FigureRows(d)),
			tables.LostTable(d, words.LostByElement, words.ElementRows(d)),
			tables.LostTable(d, words.LostByFamily, words.GroupRows(d)),
		)
	}
	return []report.Section{{Heading: words.LostHeading, Blocks: append(blocks, tables.Notes(words.LostNotes(d)))}}
}
