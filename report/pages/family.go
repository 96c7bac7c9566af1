package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Family follows one trend group, or one figure, over time: own grades and the
// best ever first, then the comparison with the rest of the same flights.
func Family(d answers.Family) report.Document {
	doc := report.Document{Title: words.FamilyPageTitle(d), Data: d, Caution: words.PracticeCaution}
	first := []string{words.FamilySentence(d)}
	if len(d.Flights) > 0 {
		first = append(first, words.VersusRestSentence(d))
	}
	doc.Sections = []report.Section{{Blocks: paragraphs(first)}}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.OwnHeading, Blocks: []report.Block{tables.FamilyTable(d), tables.FamilySeries(d), tables.Notes(words.FamilyNotes(d))},
		})
	}
	if len(d.Drills) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.FamilyDrillsHeading, Blocks: []report.Block{tables.FamilyDrills(d)}})
	}
	return doc
}
