package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Families is the page of the trend groups.
func Families(d answers.Families) report.Document {
	doc := report.Document{Title: words.FamiliesTitle, Data: d}
	if d.Category != "" {
		doc.Subtitle = words.Counted(d.Flights, "contest flight", "contest flights")
	}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.WeakSentence(d)}, &report.Paragraph{Text: words.MovingSentence(d)}}}
	thought.Blocks = append(thought.Blocks, picture(charts.Families(d))...)
	doc.Sections = append(doc.Sections, thought)
	if len(d.Groups) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: words.LevelHeading, Blocks: []report.Block{tables.LevelTable(d), tables.LevelNotes(d)}},
			report.Section{Heading: words.VersusRest, Blocks: []report.Block{tables.GroupTrendTable(d), tables.GroupTrendNotes(d)}})
	}
	return doc
}
