package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Panel is the page of the judges over a selection.
func Panel(p analysis.Panels) report.Document {
	d := answers.PanelOf(p)
	doc := report.Document{Title: words.PanelTitle, Data: d}
	doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PanelThought(d)}}})
	for i := range d.Parts {
		heading := "Judges"
		if len(d.Parts) > 1 {
			heading = fmt.Sprintf("Judges who can be compared, part %d of %d", i+1, len(d.Parts))
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: []report.Block{tables.PanelJudges(d, i+1)}})
	}
	if len(d.Flags) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "Lone grades", Blocks: []report.Block{tables.FlagTable(d.Flags), tables.FlagNotes(d.Flags)}})
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "Flights", Blocks: []report.Block{tables.PanelFlights(d), tables.PanelNotes(d)}})
	}
	return doc
}
