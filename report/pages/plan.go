package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Plan is the page of what to practise next.
func Plan(d answers.Plan) report.Document {
	d = words.SayPlan(d)
	doc := report.Document{Title: words.PlanTitle, Subtitle: words.PlanSubtitle(d), Data: d, Caution: words.PlanCaution}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PlanSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	for i, item := range d.Items {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.PlanHeading(i+1, item), Blocks: []report.Block{tables.PlanFacts(d, item)}})
	}
	if len(d.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{tables.PlanNotes(d)}})
	}
	return doc
}
