package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Drills is the page of the drills: a sentence each, then the counts.
func Drills(d answers.Drills) report.Document {
	doc := report.Document{Title: words.DrillsTitle, Data: d, Caution: words.DrillsCaution}
	if len(d.Drills) == 0 {
		doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: words.NoDrills}}}}
		return doc
	}
	said := report.Section{}
	for _, drill := range d.Drills {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: words.Whose(d, drill) + words.DrillSentence(drill, d.Limits)})
	}
	counts := report.Section{Heading: words.CountsHeading, Blocks: []report.Block{tables.DrillTable(d), tables.DrillNotes(d)}}
	doc.Sections = append(doc.Sections, said, counts)
	return doc
}
