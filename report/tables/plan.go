package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// PlanFacts are one recommendation of a plan.
func PlanFacts(d answers.Plan, i answers.PlanItem) *report.Facts {
	facts := &report.Facts{}
	AddFact(facts, "gain", report.Text(words.GainWords(d, i)))
	AddFact(facts, "evidence", report.Text(i.Evidence))
	if i.Fault != "" {
		AddFact(facts, "fault", report.Text(words.FaultWords(i)))
	}
	if i.Drill != "" {
		AddFact(facts, "drill", report.Text(words.DrillWords(i)))
	}
	return facts
}

// PlanNotes say what a reader must know beside a plan.
func PlanNotes(d answers.Plan) *report.Notes { return notesOf(words.PlanNotes(d)) }
