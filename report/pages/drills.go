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
	said := report.Section{}
	for _, text := range words.DrillSentences(d) {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: text})
	}
	doc.Sections = append(doc.Sections, said)
	if len(d.Drills) == 0 {
		return doc
	}
	counts := report.Section{Heading: words.CountsHeading, Blocks: []report.Block{tables.DrillTable(d), tables.DrillNotes(d)}}
	doc.Sections = append(doc.Sections, counts)
	return doc
}
