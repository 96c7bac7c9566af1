package pages

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Debrief is one sheet for coach and pilot to talk a flight over.
func Debrief(d answers.Debrief) report.Document {
	d = words.SayDebrief(d)
	doc := report.Document{Title: words.DebriefTitle(d), Subtitle: words.DebriefSubtitle(d.Flight), Data: d, Caution: words.DebriefCaution, Paper: report.OneSheet}
	add := func(heading string, blocks ...report.Block) {
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
	}
	if len(d.Open) > 0 {
		add(words.OpenHeading, tables.OpenNotes(d.Open))
	}
	add("", &report.Paragraph{Text: strings.Join(words.DebriefSentences(d.Flight), " ")})
	if len(d.Agenda) > 0 {
		add(words.AgendaTitle(d.Talk), tables.Numbered(d.Agenda))
	} else {
		add(words.AgendaHeading, &report.Paragraph{Text: words.NothingToTalk(d)})
	}
	if len(d.Rows) > 0 {
		add("", tables.DebriefSheet(d), tables.DebriefNotes(d))
		doc.Main = tables.DebriefTable(d)
	} else if notes := words.DebriefNotes(d.Flight); len(notes) > 0 {
		add("", tables.Notes(notes))
	}
	for _, text := range []string{words.BackSentence(d), words.SetSentence(d)} {
		if text != "" {
			add("", &report.Paragraph{Text: text})
		}
	}
	return doc
}

// DebriefForm is the same sequence as an empty form.
func DebriefForm(d answers.DebriefForm) report.Document {
	return report.Document{
		Title: words.FormTitle, Data: d, Caution: words.DebriefCaution, Paper: report.Form,
		Sections: []report.Section{
			{Blocks: []report.Block{tables.FormFacts(d), tables.FormTable(d)}},
			{Heading: words.AgendaHeading, Blocks: []report.Block{tables.FormTalk(d)}},
		},
	}
}
