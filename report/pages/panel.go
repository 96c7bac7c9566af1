package pages

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Panel is the page of the judges over a selection: who grades apart, lone grades;
// each flight's scatter and noise where all is asked for.
func Panel(d answers.Panel, all bool) report.Document {
	d = words.SayPanel(d)
	doc := report.Document{Title: words.PanelTitle, Data: d, Main: tables.PanelJudges(d, 1)}
	doc.Sections = append(doc.Sections, report.Section{Blocks: paragraphs(words.PanelSentences(d))})
	for i := range d.Parts {
		table := tables.PanelJudgesBrief(d, i+1)
		if all {
			table = tables.PanelJudges(d, i+1)
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: words.PartHeading(i+1, len(d.Parts)), Blocks: []report.Block{table}})
	}
	if len(d.Flags) > 0 {
		flags := report.Section{Heading: words.LoneGradesHeading, Blocks: []report.Block{tables.FlagTable(d.Flags)}}
		if all {
			flags.Blocks = append(flags.Blocks, tables.Notes(words.LoneNotes(d.Flags)))
		}
		doc.Sections = append(doc.Sections, flags)
	}
	if len(d.Flights) == 0 {
		return doc
	}
	if all {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.PanelFlightsHeading, Blocks: []report.Block{tables.PanelFlights(d), tables.Notes(slices.Concat(words.ZerosAlone(d), words.PanelNotes(d)))},
		})
		return doc
	}
	doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.Notes(words.PanelNotesBrief(d))}}, furtherSection(words.MoreNumbers("panel", d.Pilot)))
	return doc
}
