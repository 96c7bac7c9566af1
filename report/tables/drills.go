package tables

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// DrillTable has a row a drill: the counts.
func DrillTable(d answers.Drills) *report.Table { return drillCounts(d, 12) }

// DrillTableWhole is the same with every column at any width, as far as it can in one part:
// the other faults go on in further lines, so that a verdict stands in the row of its counts.
func DrillTableWhole(d answers.Drills) *report.Table { return Whole(drillCounts(d, 7)) }

// drillCounts has a row a drill, its other faults at least so wide.
func drillCounts(d answers.Drills, others int) *report.Table {
	return drillTable(d, []report.Column{
		{Title: words.ColumnTarget, Wrapped: true, Min: longestWord(d)},
		{Title: words.ColumnSet},
		{Title: words.ColumnBefore, Align: report.Right},
		{Title: words.ColumnSince, Align: report.Right},
		{Title: words.ColumnOthers, Align: report.Right, Wrapped: true, Breaks: true, Min: others, Drop: 1},
		{Title: words.ColumnVerdict, Wrapped: true, Min: 9},
	}, func(drill answers.Drill) []report.Cell { return drillRow(drill, d.Limits) })
}

// longestWord is how wide the longest word of a target is, up to what leaves room for
// the rest: a word is what is typed to name the drill, and is not cut.
func longestWord(d answers.Drills) int {
	longest := 8
	for _, drill := range d.Drills {
		for _, word := range strings.Fields(words.GroupTitle(drill.Target)) {
			longest = max(longest, utf8.RuneCountInString(word))
		}
	}
	return min(longest, 24)
}

// DrillTestTable has a row a drill: the tests. Those of families alone have no column
// where no drill is on one.
func DrillTestTable(d answers.Drills) *report.Table {
	columns := []report.Column{{Title: words.ColumnTarget, Wrapped: true, Min: 9}, {Title: words.ColumnSet}}
	titles := []string{words.ColumnP, words.ColumnZ, words.ColumnFall, words.ColumnOfFaults, words.ColumnWithin, words.ColumnRateRatio, words.RateFrom(d), words.ColumnTo}
	families := slices.ContainsFunc(d.Drills, answers.Drill.OnFamily)
	if families {
		titles = slices.Insert(titles, 5, words.ColumnT)
	}
	for _, title := range titles {
		columns = append(columns, report.Column{Title: title, Align: report.Right, Breaks: true})
	}
	return drillTable(d, columns, func(drill answers.Drill) []report.Cell { return drillTestRow(drill, families) })
}

// drillTable has a row a drill, with the pilot in front where there are several.
func drillTable(d answers.Drills, columns []report.Column, row func(answers.Drill) []report.Cell) *report.Table {
	t := &report.Table{Key: 1, Columns: columns}
	several := d.SeveralPilots()
	if several {
		t.Key, t.Columns = 2, slices.Insert(t.Columns, 0, report.Column{Title: words.ColumnPilot})
	}
	for _, drill := range words.DrillsInOrder(d.Drills) {
		cells := row(drill)
		if several {
			cells = slices.Insert(cells, 0, report.Text(drill.Pilot))
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

func drillRow(drill answers.Drill, limits answers.DrillLimits) []report.Cell {
	others := report.Empty()
	if u := drill.Undrilled; u != nil && u.Before.Known() && u.After.Known() {
		others = report.Text(words.BeforeAndSince(u.Before.Text(1), u.After.Text(1)))
	}
	return []report.Cell{
		report.Text(words.GroupTitle(drill.Target)), report.Text(drill.Date), sideCell(drill, drill.Before), sideCell(drill, drill.After),
		others, report.Text(words.DrillShort(drill, limits)),
	}
}

func drillTestRow(drill answers.Drill, families bool) []report.Cell {
	var tests answers.DrillTests
	if drill.Tests != nil {
		tests = *drill.Tests
	}
	var rate answers.Rate
	if drill.Rate != nil {
		rate = *drill.Rate
	}
	row := []report.Cell{report.Text(words.GroupTitle(drill.Target)), report.Text(drill.Date)}
	chances := []report.Number{drill.P, tests.Z, tests.Fall, tests.Faults, tests.Within}
	if families {
		chances = append(chances, tests.T)
	}
	for _, p := range chances {
		row = append(row, report.Chance(p))
	}
	for _, n := range []report.Number{rate.Ratio, rate.Low, rate.High} {
		row = append(row, report.Num(n, 2))
	}
	return row
}

func sideCell(d answers.Drill, s answers.DrillSide) report.Cell {
	if !d.OnFamily() {
		return report.Text(fmt.Sprintf("%d of %d", s.Seen, s.Flights))
	}
	return report.Signed(s.Mean, 1)
}

// DrillNotes say of each drill what its verdict lacks and what it is, then what
// no drill's counts have in them.
func DrillNotes(d answers.Drills) *report.Notes {
	notes := &report.Notes{}
	for _, drill := range words.DrillsInOrder(d.Drills) {
		if details := words.DrillDetails(drill, d.Limits); len(details) > 0 {
			AddNote(notes, "%s: %s", words.DrillNoted(d, drill), strings.Join(details, "; "))
		}
	}
	for _, text := range words.DrillNotes(d) {
		AddNote(notes, "%s", text)
	}
	return notes
}

// DrillTestNotes explain the columns, and name the flights left out.
func DrillTestNotes(d answers.Drills) *report.Notes {
	notes := notesOf(slices.Concat(words.DrillColumns(d.Limits), words.DrillTests))
	for _, drill := range words.DrillsInOrder(d.Drills) {
		AddNote(notes, "%s: %s", words.DrillNoted(d, drill), words.DrillLeftOut(drill))
	}
	return notes
}
