package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// FlightOptions are choices about the page of one flight.
type FlightOptions struct {
	Rules bool // the rule style in words
	Brief bool // the sheet, the score and the official total alone
	All   bool // elements and families, judges, the score step by step
}

// Flight is the page of one flight.
func Flight(d answers.Flight, o FlightOptions) report.Document {
	d = words.SayFlight(d)
	doc := report.Document{Title: words.FlightTitle(d), Subtitle: words.FlightSubtitle(d), Data: d}
	switch {
	case o.Brief:
		doc.Sections = briefSections(d)
		return doc
	case o.All:
		doc.Sections = append(answerSections(d), wholeSections(d)...)
	default:
		doc.Sections = append(answerSections(d), shortSections(d)...)
	}
	if o.Rules && d.Style != nil {
		doc.Sections = append(doc.Sections, rulesSection(d))
	}
	if d.Marked {
		doc.Main = tables.SheetTable(d)
	}
	return doc
}

// answerSections are what a flight's page says first.
func answerSections(d answers.Flight) []report.Section {
	return []report.Section{{Blocks: paragraphs(words.FlightSentences(d))}}
}

// shortSections are the sheet, what would explain another official total, the
// losses with the faults noted, and the notes.
func shortSections(d answers.Flight) []report.Section {
	var sections []report.Section
	if d.Marked {
		sheet := tables.SheetTable(d)
		tables.AddTotals(sheet, d)
		sections = append(sections, report.Section{Blocks: []report.Block{sheet, tables.FlightSheetNotes(d)}})
	}
	if d.Counts != answers.CountsVoid {
		sections = append(sections, explainedSection(d)...)
	}
	sections = append(sections, lossSection(d)...)
	if notes := words.FlightPageNotes(d); len(notes) > 0 {
		sections = append(sections, report.Section{Heading: words.NotesHeading, Blocks: []report.Block{tables.Notes(notes)}})
	}
	if d.Marked {
		sections = append(sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.MoreOfFlight(d), Command: true}}})
	}
	return sections
}

// wholeSections are a flight's page with everything that was worked out.
func wholeSections(d answers.Flight) []report.Section {
	var sections []report.Section
	if d.Marked {
		sections = append(sections, report.Section{Blocks: []report.Block{tables.SheetTable(d), tables.SheetNotes(d)}})
	}
	sections = append(sections, report.Section{Heading: words.ScoreHeading, Blocks: []report.Block{tables.ScoreFacts(d), tables.Notes(words.ScoreNotes(d))}})
	if d.Counts != answers.CountsVoid {
		sections = append(sections, explainedSection(d)...)
	}
	if d.Marked {
		sections = append(sections, panelSection(d))
		sections = append(sections, lostSections(d.Lost)...)
	}
	sections = append(sections, faultSections(d)...)
	return append(sections, reviewSections(d)...)
}

// briefSections are the sheet, the score and the official total alone.
func briefSections(d answers.Flight) []report.Section {
	var sections []report.Section
	if d.Marked {
		sections = append(sections, report.Section{Blocks: []report.Block{tables.SheetTable(d), tables.BriefSheetNotes(d)}})
	}
	sections = append(sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.ScoreLine(d)}, tables.Notes(words.ScoreNotes(d))}})
	if d.Counts != answers.CountsVoid {
		sections = append(sections, officialSection(d)...)
	}
	return sections
}
