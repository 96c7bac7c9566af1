package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Families is the page of the trend groups.
func Families(f analysis.Families, title string) report.Document {
	d := answers.FamiliesOf(f)
	doc := report.Document{Title: title, Subtitle: words.FamiliesSubtitle(d), Data: d}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.WeakSentence(d)}, &report.Paragraph{Text: words.MovingSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	if len(d.Groups) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: words.LevelHeading, Blocks: []report.Block{tables.LevelTable(d), tables.LevelNotes(d)}},
			report.Section{Heading: words.MovementHeading, Blocks: []report.Block{tables.GroupTrendTable(d), tables.GroupTrendNotes(d)}})
	}
	return doc
}
