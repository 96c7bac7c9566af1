package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// latestRows is how many flights with a family its page shows where not all are
// asked for.
const latestRows = 6

// Family follows one trend group, or one figure, over time: own grades and the
// best ever first, then the comparison with the rest of the same flights; the
// latest flights, every one where all is asked for.
func Family(d answers.Family, all bool) report.Document {
	doc := report.Document{Title: words.FamilyPageTitle(d), Data: d, Caution: words.PracticeCaution, Main: tables.FamilyTable(d, len(d.Flights))}
	first := []string{words.FamilySentence(d)}
	if len(d.Flights) > 0 {
		first = append(first, words.VersusRestSentence(d))
	}
	doc.Sections = []report.Section{{Blocks: paragraphs(first)}}
	switch {
	case len(d.Flights) > 0 && all:
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.OwnHeading, Blocks: []report.Block{tables.Whole(tables.FamilyTable(d, len(d.Flights))), tables.FamilySeries(d), tables.FamilyNotes(d, len(d.Flights), true)},
		})
	case len(d.Flights) > 0:
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.FamilyTable(d, latestRows), tables.FamilySeries(d), tables.FamilyNotes(d, latestRows, false)}})
	}
	if len(d.Drills) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.FamilyDrillsHeading, Blocks: []report.Block{tables.FamilyDrills(d)}})
	}
	if !all {
		doc.Sections = append(doc.Sections, furtherSection(words.FurtherFromFamily(d, max(0, len(d.Flights)-latestRows))))
	}
	return doc
}
