package pages

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Drills is the page of the drills: what can be said, the counts, what they left
// out; the tests where all is asked for.
func Drills(d answers.Drills, all bool) report.Document {
	doc := report.Document{Title: words.DrillsTitle, Data: d, Caution: words.DrillsCaution}
	doc.Sections = append(doc.Sections, report.Section{Blocks: append(paragraphs(words.DrillAnswers(d)), picture(charts.Drills, d))})
	if len(d.Drills) == 0 {
		return doc
	}
	table := tables.DrillTable(d)
	if all {
		table = tables.DrillTableWhole(d)
	}
	counts := report.Section{Blocks: []report.Block{table, tables.DrillNotes(d)}}
	if !all {
		counts.Blocks = append(counts.Blocks, &report.Paragraph{Text: words.FurtherFromDrills(d), Command: true})
	}
	doc.Sections = append(doc.Sections, counts)
	if all {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.TestsHeading, Blocks: []report.Block{tables.DrillTestTable(d), tables.DrillTestNotes(d)}})
	}
	return doc
}

// paragraphs are sentences, a paragraph for all of them.
func paragraphs(said []string) []report.Block {
	return []report.Block{&report.Paragraph{Text: strings.Join(said, "\n")}}
}
