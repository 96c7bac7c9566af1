package tables

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// DrillTable has a row a drill.
func DrillTable(d answers.Drills) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnTarget, Flexible: true, Min: 8},
		{Title: words.ColumnSet},
		{Title: words.ColumnBefore, Align: report.Right},
		{Title: words.ColumnSince, Align: report.Right},
		{Title: words.ColumnOthers, Align: report.Right, Drop: 1},
		{Title: words.ColumnP, Align: report.Right},
		{Title: words.ColumnRateRatio, Align: report.Right, Drop: 2},
		{Title: words.ColumnVerdict},
	}}
	several := d.SeveralPilots()
	if several {
		t.Key, t.Columns = 2, slices.Insert(t.Columns, 0, report.Column{Title: words.ColumnPilot})
	}
	for _, drill := range d.Drills {
		row := drillRow(drill)
		if several {
			row = slices.Insert(row, 0, report.Text(drill.Pilot))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func drillRow(drill answers.Drill) []report.Cell {
	others, ratio := report.Empty(), report.Empty()
	if u := drill.Undrilled; u != nil && u.Before.Known() && u.After.Known() {
		others = report.Text(fmt.Sprintf("%s to %s", u.Before.Text(1), u.After.Text(1)))
	}
	if drill.Rate != nil && drill.Rate.Ratio.Known() {
		ratio = report.Num(drill.Rate.Ratio, 2)
	}
	return []report.Cell{
		report.Text(words.GroupTitle(drill.Target)), report.Text(drill.Date), sideCell(drill, drill.Before), sideCell(drill, drill.After),
		others, report.Num(drill.P, 3), ratio, report.Text(string(drill.Word)),
	}
}

func sideCell(d answers.Drill, s answers.DrillSide) report.Cell {
	if !d.OnFamily() {
		return report.Text(fmt.Sprintf("%d of %d", s.Seen, s.Flights))
	}
	return report.Signed(s.Mean, 1)
}

// DrillNotes explain the columns and what is left out.
func DrillNotes(d answers.Drills) *report.Notes {
	notes := &report.Notes{}
	for _, text := range words.DrillColumns {
		AddNote(notes, "%s", text)
	}
	for _, drill := range d.Drills {
		what := words.Whose(d, drill) + words.GroupTitle(drill.Target)
		for _, text := range words.DrillDetails(drill) {
			AddNote(notes, "%s: %s", what, text)
		}
	}
	return notes
}
