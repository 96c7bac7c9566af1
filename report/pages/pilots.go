package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Pilots is the page of all pilots, a row each.
func Pilots(d answers.Pilots) report.Document {
	d = words.SayPilots(d)
	if d.Club != nil {
		doc := clubHome(*d.Club, d.Warnings, d.Drafts)
		doc.Data, doc.Main = d, tables.PilotsTable(d)
		return doc
	}
	doc := report.Document{Title: words.PilotsTitle, Data: d, Main: tables.PilotsTable(d)}
	if len(d.Pilots) == 0 {
		doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: words.NoPilots}}}}
		return doc
	}
	doc.Sections = []report.Section{{Blocks: []report.Block{
		&report.Paragraph{Text: words.PilotsSentence(d)}, tables.Filled(tables.PilotsTable(d)), tables.PilotsNotes(d), &report.Paragraph{Text: words.PilotsNext(d)},
	}}}
	return doc
}
