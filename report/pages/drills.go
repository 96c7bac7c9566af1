package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Drills is the page of the drills: a sentence each, then the counts.
func Drills(all []analysis.DrillAnswer, title string) report.Document {
	d := answers.DrillsOf(all)
	doc := report.Document{Title: title, Data: d, Caution: words.DrillsCaution}
	if len(d.Drills) == 0 {
		doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: "No drill is set."}}}}
		return doc
	}
	said := report.Section{}
	for _, drill := range d.Drills {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: words.Whose(d, drill) + words.DrillSentence(drill)})
	}
	counts := report.Section{Heading: "Counts", Blocks: []report.Block{tables.DrillTable(d), tables.DrillNotes(d)}}
	doc.Sections = append(doc.Sections, said, counts)
	return doc
}
