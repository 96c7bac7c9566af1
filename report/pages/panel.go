package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Panel is the page of the judges over a selection.
func Panel(p analysis.Panels, title string) report.Document {
	d := answers.PanelOf(p)
	doc := report.Document{Title: title, Data: d}
	doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PanelThought(d)}}})
	for i := range d.Parts {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.JudgesHeading(d, i+1), Blocks: []report.Block{tables.PanelJudges(d, i+1)}})
	}
	if len(d.Flags) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.LoneHeading, Blocks: []report.Block{tables.FlagTable(d.Flags), tables.FlagNotes(d.Flags)}})
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.FlightsHeading, Blocks: []report.Block{tables.PanelFlights(d), tables.PanelNotes(d)}})
	}
	return doc
}
