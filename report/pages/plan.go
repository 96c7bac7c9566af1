package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Plan is the page of what to practise next: where it pays, a row a
// recommendation, what comes back without a drill; the evidence of each where all
// is asked for.
func Plan(d answers.Plan, all bool) report.Document {
	d = words.SayPlan(d)
	doc := report.Document{Title: words.PlanTitle(d.Sequence), Subtitle: words.PlanSubtitle(d), Data: d, Caution: words.PlanCaution, Main: tables.PlanTable(d)}
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d.Open))
	}
	doc.Sections = append(doc.Sections, report.Section{Blocks: paragraphs([]string{words.PlanSentence(d)})})
	if all {
		doc.Sections = append(doc.Sections, wholePlan(d)...)
	} else {
		doc.Sections = append(doc.Sections, briefPlan(d)...)
	}
	return doc
}

// briefPlan are the recommendations as a table, zeros and what comes back in a
// sentence each, and the pages that have the evidence.
func briefPlan(d answers.Plan) []report.Section {
	var sections []report.Section
	if len(d.Items) > 0 {
		sections = append(sections, report.Section{Blocks: []report.Block{tables.PlanItems(d)}})
	}
	var beside report.Section
	var said []string
	for _, text := range []string{words.PlanZerosSentence(d), words.BackDespite(d.Drilled), words.BackWithout(d.Without)} {
		if text != "" {
			said = append(said, text)
		}
	}
	if len(said) > 0 {
		beside.Blocks = append(beside.Blocks, paragraphs(said)...)
	}
	if notes := tables.Notes(words.PlanBrief(d)); len(notes.Items) > 0 {
		beside.Blocks = append(beside.Blocks, notes)
	}
	if len(beside.Blocks) > 0 {
		sections = append(sections, beside)
	}
	return append(sections, furtherSection(words.FurtherFromPlan(d)))
}

// wholePlan are the recommendations with their evidence, and what stands beside
// them.
func wholePlan(d answers.Plan) []report.Section {
	var sections []report.Section
	for i, item := range d.Items {
		sections = append(sections, report.Section{Heading: words.PlanHeading(i+1, item), Blocks: []report.Block{tables.PlanFacts(d, item)}})
	}
	sections = append(sections, besidePlan(d)...)
	if notes := tables.PlanNotes(d); len(notes.Items) > 0 {
		sections = append(sections, report.Section{Blocks: []report.Block{notes}})
	}
	return sections
}

// besidePlan are zeros, the weak families that are none of the items, and what
// comes back without a drill; what there is none of has no section.
func besidePlan(d answers.Plan) []report.Section {
	var sections []report.Section
	if text := words.PlanZerosSentence(d); text != "" {
		sections = append(sections, report.Section{Heading: words.PlanZerosHeading, Blocks: []report.Block{&report.Paragraph{Text: text}}})
	}
	if d.Drilled != nil {
		sections = append(sections, report.Section{Heading: words.PlanDrilledHeading, Blocks: []report.Block{&report.Paragraph{Text: words.BackDespite(d.Drilled)}}})
	}
	if len(d.Aside) > 0 {
		sections = append(sections, report.Section{Heading: words.PlanAsideHeading, Blocks: []report.Block{tables.PlanAside(d)}})
	}
	if len(d.Without) > 0 {
		sections = append(sections, report.Section{Heading: words.PlanWithoutHeading, Blocks: []report.Block{tables.PlanWithout(d)}})
	}
	return sections
}
