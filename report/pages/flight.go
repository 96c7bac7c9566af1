package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// FlightOptions say what else a score sheet shows.
type FlightOptions struct {
	Rules bool // the rule style in words
	Brief bool // the sheet, the score and the official total alone
}

// Flight is the score sheet of one flight.
func Flight(d answers.Flight, o FlightOptions) report.Document {
	d = words.SayFlight(d)
	doc := report.Document{Title: words.FlightTitle(d), Subtitle: words.FlightSubtitle(d), Data: d}
	if d.Marked {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.SheetTable(d), tables.SheetNotes(d)}})
	}
	doc.Sections = append(doc.Sections, scoreSection(d, o.Brief))
	if d.Counts != answers.CountsVoid {
		doc.Sections = append(doc.Sections, officialSection(d)...)
	}
	if o.Brief {
		return doc
	}
	if d.Marked {
		doc.Sections = append(doc.Sections, panelSection(d))
		doc.Sections = append(doc.Sections, lostSections(d.Lost)...)
	}
	doc.Sections = append(doc.Sections, faultSections(d)...)
	doc.Sections = append(doc.Sections, reviewSections(d)...)
	if o.Rules && d.Style != nil {
		doc.Sections = append(doc.Sections, rulesSection(d))
	}
	return doc
}

// scoreSection goes from raw points to the record, or says it in a line where the
// page must fit a screen.
func scoreSection(d answers.Flight, brief bool) report.Section {
	notes := tables.Notes(words.ScoreNotes(d))
	if brief {
		return report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.ScoreLine(d)}, notes}}
	}
	return report.Section{Heading: words.ScoreHeading, Blocks: []report.Block{tables.ScoreFacts(d), notes}}
}
