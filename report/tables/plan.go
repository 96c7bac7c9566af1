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
	if i.Fault != "" || i.Untold != nil {
		AddFact(facts, "fault", report.Text(words.FaultWords(i)))
	}
	if i.Drill != "" {
		AddFact(facts, "drill", report.Text(words.DrillWords(i)))
	}
	return facts
}

// PlanItems has a row a recommendation, for people.
func PlanItems(d answers.Plan) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnRank, Align: report.Right},
		{Title: words.ColumnFamily, Wrapped: true, Min: 16},
		{Title: words.ColumnGain, Align: report.Right},
		{Title: words.ColumnWhy, Wrapped: true, Min: 16},
		{Title: words.ColumnBackThere, Wrapped: true, Min: 12},
		{Title: words.ColumnDrill, Wrapped: true, Min: 12},
	}}
	for n, i := range d.Items {
		drill := report.Empty()
		switch {
		case i.Drill != "":
			drill = report.Text(words.PlanDrill(i))
		case i.Fault != "":
			drill = report.Text(words.NoDrill).Toned(report.Faint)
		}
		t.Rows = append(t.Rows, []report.Cell{
			CountCell(n + 1), report.Text(words.GroupTitle(i.Group)), report.Num(i.Gain, 1), report.Text(words.PlanWhy(d, i)),
			report.Text(words.PlanFault(i)), drill,
		})
	}
	return t
}

// PlanTable has a row a recommendation, for other programs.
func PlanTable(d answers.Plan) *report.Table {
	t := &report.Table{}
	for _, title := range []string{words.ColumnFamily, words.ColumnGain, words.RangeFrom(d.Confidence), words.ColumnTo, words.ColumnEvidence, words.ColumnFault, words.ColumnDrill} {
		t.Columns = append(t.Columns, report.Column{Title: title})
	}
	for _, i := range d.Items {
		low, gain, high := words.GainRange(d, i).Cells()
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.GroupTitle(i.Group)), gain, low, high, report.Text(i.Evidence), report.Text(i.Fault), report.Text(i.Drill),
		})
	}
	return t
}

// PlanNotes say what a reader must know beside a plan.
func PlanNotes(d answers.Plan) *report.Notes { return notesOf(words.PlanNotes(d)) }

// PlanAside lists the weak families that are none of the recommendations.
func PlanAside(d answers.Plan) *report.Notes {
	var texts []string
	for _, a := range d.Aside {
		texts = append(texts, words.AsideWords(a))
	}
	return notesOf(texts)
}

// PlanWithout lists what comes back without a drill.
func PlanWithout(d answers.Plan) *report.Notes {
	var texts []string
	for _, k := range d.Without {
		texts = append(texts, words.WithoutWords(k))
	}
	return notesOf(texts)
}
