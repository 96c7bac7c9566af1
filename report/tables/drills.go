package tables

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
)

// DrillTable has a row a drill.
func DrillTable(d answers.Drills) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "target", Flexible: true, Min: 8},
		{Title: "set"},
		{Title: "before", Align: report.Right},
		{Title: "since", Align: report.Right},
		{Title: "others", Align: report.Right, Drop: 1},
		{Title: "p", Align: report.Right},
		{Title: "rate ratio", Align: report.Right, Drop: 2},
		{Title: "verdict"},
	}}
	several := d.SeveralPilots()
	if several {
		t.Key, t.Columns = 2, slices.Insert(t.Columns, 0, report.Column{Title: "pilot"})
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
		report.Text(season.GroupTitle(drill.Target)), report.Text(drill.Date), sideCell(drill, drill.Before), sideCell(drill, drill.After),
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
	notes := &report.Notes{Items: []report.Note{
		{Text: "before, since: flights in which the fault was noted, seen or felt, of the flights looked at (with a fault line or reviewed); for a family, mean percent points against the rest of the flight, comparing flights of one sequence"},
		{Text: "others: other, undrilled faults per flight before and since; where everything got rarer, a drill has not been shown to matter"},
	}}
	for _, drill := range d.Drills {
		what := words.Whose(d, drill) + season.GroupTitle(drill.Target)
		if len(drill.Prompted) > 0 {
			AddNote(notes, "%s: left out of before, %s: %s", what, words.WhyLeftOut(drill), strings.Join(drill.Prompted, ", "))
		}
		if drill.Apart > 0 {
			AddNote(notes, "%s: %s not compared, because the sequence was flown on one side of the drill only", what, words.Counted(drill.Apart, "flight", "flights"))
		}
		if drill.Text != "" {
			AddNote(notes, "%s: %s", what, drill.Text)
		}
	}
	return notes
}
