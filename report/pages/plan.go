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
	doc := report.Document{Title: words.PlanTitle(d.Sequence), Subtitle: words.PlanSubtitle(d), Data: d, Caution: words.PlanCaution, Main: tables.PlanTable(d)}
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d.Open))
	}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.PlanSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	for i, item := range d.Items {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.PlanHeading(i+1, item), Blocks: []report.Block{tables.PlanFacts(d, item)}})
	}
	doc.Sections = append(doc.Sections, besidePlan(d)...)
	if notes := tables.PlanNotes(d); len(notes.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{notes}})
	}
	return doc
}

// besidePlan are zeros, the weak families that are none of the items, and what
// comes back without a drill; what there is none of has no section.
func besidePlan(d answers.Plan) []report.Section {
	var sections []report.Section
	if text := words.PlanZerosSentence(d); text != "" {
		sections = append(sections, report.Section{Heading: words.PlanZerosHeading, Blocks: []report.Block{&report.Paragraph{Text: text}}})
	}
	if len(d.Aside) > 0 {
		sections = append(sections, report.Section{Heading: words.PlanAsideHeading, Blocks: []report.Block{tables.PlanAside(d)}})
	}
	if len(d.Without) > 0 {
		sections = append(sections, report.Section{Heading: words.PlanWithoutHeading, Blocks: []report.Block{tables.PlanWithout(d)}})
	}
	return sections
}
