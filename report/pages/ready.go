package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Ready is the page of a pilot's readiness for the next category.
func Ready(r analysis.Readiness) report.Document {
	d := answers.ReadyOf(r)
	doc := report.Document{
		Title: words.ReadyTitle(d.To), Subtitle: words.ReadySubtitle(d), Data: d, Caution: words.ReadyCaution,
	}
	doc.Sections = append(doc.Sections,
		report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.ReadySentence(d)}}},
		report.Section{Heading: words.GatesHeading, Blocks: []report.Block{tables.GateFacts(d)}},
	)
	if len(d.Against) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.AgainstHeading, Blocks: []report.Block{tables.AgainstNotes(d)}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.NeedsHeading(d), Blocks: []report.Block{needs}})
	}
	if text := words.FloorNote(d); text != "" {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Notes{Items: []report.Note{{Text: text}}}}})
	}
	return doc
}
