package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Panel is the page of the judges over a selection.
func Panel(d answers.Panel) report.Document {
	d = words.SayPanel(d)
	doc := report.Document{Title: words.PanelTitle, Data: d}
	doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PanelThought(d)}}})
	for i := range d.Parts {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.PartHeading(i+1, len(d.Parts)), Blocks: []report.Block{tables.PanelJudges(d, i+1)},
		})
	}
	if len(d.Flags) > 0 {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.LoneGradesHeading, Blocks: []report.Block{tables.FlagTable(d.Flags), tables.Notes(words.FlagNotes(d.Flags))},
		})
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.PanelFlightsHeading, Blocks: []report.Block{tables.PanelFlights(d), tables.Notes(words.PanelNotes(d))},
		})
	}
	return doc
}
