package tables

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

func PlanFacts(i answers.PlanItem) *report.Facts {
	facts := &report.Facts{Items: []report.Fact{
		{Label: "gain", Value: report.Text(fmt.Sprintf("%s percent points (%s to %s, 90 %% sure)", i.Gain.Text(1), i.Low.Text(1), i.High.Text(1)))},
		{Label: "evidence", Value: report.Text(i.Evidence)},
	}}
	if i.Fault != "" {
		AddFact(facts, "fault", report.Text(fmt.Sprintf("%s, %s", i.Fault, season.Counted(i.Seen, "flight", "flights"))))
	}
	if i.Drill != "" {
		AddFact(facts, "drill", report.Text(words.DrillWords(i)))
	}
	return facts
}

func PlanNotes(d answers.Plan) *report.Notes {
	notes := &report.Notes{}
	for i := 0; i+1 < len(d.Items); i++ {
		if !d.Items[i].Apart {
			AddNote(notes, "%d and %d: not told apart, their intervals overlap by more than half", i+1, i+2)
		}
	}
	AddNote(notes, "gain: the family's share of the K of %s times the way from its level to the pilot's own best quarter on it, drawn towards the other families by how much of it is chance", d.Sequence)
	return notes
}
