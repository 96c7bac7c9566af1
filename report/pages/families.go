package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Families is the page of the trend groups: what is weak and what moves, a row a
// family; the levels and trends with their tests where all is asked for.
func Families(d answers.Families, all bool) report.Document {
	doc := report.Document{Title: words.FamiliesTitle, Data: d, Main: tables.LevelTable(d)}
	if d.Category != "" {
		doc.Subtitle = words.FamiliesFlights(d)
	}
	said := []string{words.WeakSentence(d)}
	if text := words.MovingSentence(d); text != "" {
		said = append(said, text)
	}
	thought := report.Section{Blocks: paragraphs(said)}
	thought.Blocks = append(thought.Blocks, picture(charts.Families, d))
	doc.Sections = append(doc.Sections, thought)
	switch {
	case all && len(d.Groups) > 0:
		doc.Sections = append(doc.Sections,
			report.Section{Heading: words.LevelHeading, Blocks: []report.Block{tables.Whole(doc.Main), tables.LevelNotes(d)}},
			report.Section{Heading: words.VersusRest, Blocks: []report.Block{tables.Whole(tables.GroupTrendTable(d)), tables.GroupTrendNotes(d)}})
	case len(d.Groups) > 0:
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.FamilyTableBrief(d), tables.FamilyNotesBrief(d)}})
	}
	if !all {
		doc.Sections = append(doc.Sections, furtherSection(words.FurtherFromFamilies(d)))
	}
	return doc
}
