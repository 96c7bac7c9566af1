package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Ready is the page of a pilot's readiness for the next category.
func Ready(d answers.Ready) report.Document {
	d = words.SayReady(d)
	doc := report.Document{Title: words.ReadyTitle(d.To), Subtitle: words.ReadySubtitle(d), Data: d, Caution: words.ReadyCaution}
	doc.Sections = append(doc.Sections,
		report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.ReadySentence(d)}}},
		report.Section{Heading: words.GatesHeading, Blocks: []report.Block{tables.GateFacts(d)}},
	)
	if against := tables.AgainstNotes(d); len(against.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.AgainstHeading, Blocks: []report.Block{against}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.NeedsHeading(d), Blocks: []report.Block{needs}})
	}
	if text := words.FloorNote(d); text != "" {
		floor := &report.Notes{}
		tables.AddNote(floor, "%s", text)
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{floor}})
	}
	return doc
}
