package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

// FlightOptions say what else a score sheet shows.
type FlightOptions struct {
	Rules bool // the rule style in words
}

// Flight is the score sheet of one flight.
func Flight(f *season.Flight, o FlightOptions) report.Document {
	d := answers.FlightOf(f)
	doc := report.Document{Title: words.FlightTitle(f, d), Subtitle: words.FlightSubtitle(f, d), Data: d}
	marked := f.HasMarks()
	if marked {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.SheetTable(d), tables.SheetNotes(f, d)}})
	}
	doc.Sections = append(doc.Sections, report.Section{Heading: "Score", Blocks: []report.Block{tables.ScoreFacts(d), tables.ScoreNotes(d)}})
	if f.Void == nil {
		doc.Sections = append(doc.Sections, officialSection(d)...)
	}
	if marked {
		doc.Sections = append(doc.Sections, panelSection(d))
		doc.Sections = append(doc.Sections, lostSections(d.Lost)...)
	}
	doc.Sections = append(doc.Sections, faultSections(d.Faults, d.Expected)...)
	if o.Rules && f.Style != nil {
		doc.Sections = append(doc.Sections, rulesSection(f))
	}
	return doc
}
