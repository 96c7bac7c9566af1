package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Plan is the page of what to practise next.
func Plan(p analysis.Plan) report.Document {
	d := answers.PlanOf(p)
	doc := report.Document{Title: words.PlanTitle, Data: d, Caution: words.PlanCaution}
	if d.Category != "" {
		doc.Subtitle = season.Counted(d.Flights, "contest flight", "contest flights")
	}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PlanSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	for i, item := range d.Items {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: fmt.Sprintf("%d. %s", i+1, season.GroupTitle(item.Group)), Blocks: []report.Block{tables.PlanFacts(item)},
		})
	}
	if len(d.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.PlanNotes(d)}})
	}
	return doc
}
