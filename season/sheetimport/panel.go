package sheetimport

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"
)

// judge names the judge that a text means: one of the panel, or where there is
// no panel yet whoever it names.
func (s *sheet) judge(text string) (string, bool) {
	if s.o.Panel != nil {
		return onPanel(s.o.Panel, text)
	}
	if name, ok := onPanel(s.out.Panel, text); ok {
		return name, true
	}
	return s.o.judgeNamed(text)
}

// judgeNamed names a judge where there is no panel: a new one, or by a word that is
// a heading else one whom the ledger knows by it.
func (o Options) judgeNamed(text string) (string, bool) {
	if name, ok := judgeNamed(text); ok {
		return name, true
	}
	return onPanel(o.Known, text)
}

// stranger reports a judge who is not on the panel.
func (s *sheet) stranger(c Cell, row int) {
	if s.o.Panel == nil || c.Kind == Empty {
		s.problem(c.Column, row, "", "%s names no judge", described(c))
		return
	}
	s.problem(c.Column, row, "another panel is given with --panel", "judge %s is not on the panel (%s)", described(c), listed(s.o.Panel))
}

// otherJudges finds the columns that look like a judge's and are none of the
// panel's: to leave one out would lose marks.
func (s *sheet) otherJudges() (strangers []place) {
	if s.o.Panel == nil || s.layout.headings < 0 || s.given() || s.lone {
		return nil
	}
	row := s.headingRow()
	beneath := s.figuresBeneath(s.layout.headings, s.layout.figure)
	for _, c := range row.Cells[:min(widest, len(row.Cells))] {
		if s.reads(c.Column) || slices.Contains(s.layout.left, c.Column) || slices.Contains(s.layout.names, c.Column) {
			continue
		}
		if _, ok := judgeNamed(c.Text); ok && likeMarks(beneath, c.Column) && !s.workedOut(c.Column) {
			s.strangers = append(s.strangers, c.Column)
			strangers = append(strangers, place{c, row.Number})
		}
	}
	return strangers
}

// given reports whether the columns were given.
func (s *sheet) given() bool { return s.o.Columns.Given() }

// tellJudges reports strangers, and judges of the panel who are not there: as
// one where there are both, since the one may be the other.
func (s *sheet) tellJudges() {
	strangers := s.otherJudges()
	if len(strangers) == 0 || len(s.absentees) == 0 {
		var all []judgeColumn
		for _, p := range strangers {
			all = append(all, judgeColumn{column: p.cell.Column})
		}
		for _, p := range strangers {
			s.problem(p.cell.Column, p.row, s.leaving(s.leavableSpans(all))+" leaves "+display.Plural(len(all), "it unread where it is no judge's", "them unread where they are no judges'")+"; another panel is given with --panel",
				"judge %s is not on the panel (%s)", described(p.cell), listed(s.o.Panel))
		}
		for _, name := range s.absentees {
			s.absent(name, s.aColumn())
		}
		return
	}
	var names, handles []string
	for _, p := range strangers {
		names = append(names, described(p.cell))
		handle, _ := judgeNamed(p.cell.Text)
		handles = append(handles, handle)
	}
	panel := slices.DeleteFunc(slices.Clone(s.o.Panel), func(name string) bool { return slices.Contains(s.absentees, name) })
	s.problem(strangers[0].cell.Column, strangers[0].row, "where the sheet is right: --panel \""+strings.Join(append(panel, handles...), " ")+"\"",
		"judge %s is not on the panel (%s), of which %s has no %s", listed(names), listed(s.o.Panel), listed(s.absentees), s.aColumn())
}

// aColumn is what a judge of a wide sheet has: a column, of a sheet that was
// turned a row.
func (s *sheet) aColumn() string { return s.columnsWord(1) }

// setJudges settles the panel, and reports judges twice or not at all.
func (s *sheet) setJudges(columns []judgeColumn) bool {
	s.out.Panel = slices.Clone(s.o.Panel)
	for i, name := range s.o.Panel {
		if slices.Contains(s.o.Panel[:i], name) {
			s.problemOf("", "judge %s is twice on the panel (%s)", name, listed(s.o.Panel))
			return false
		}
	}
	if s.layout.long() {
		return true
	}
	if len(columns) > mostJudges {
		s.problemOf("give the columns: --columns figure=COLUMN,judges=COLUMN-COLUMN", "more than %d columns of judges' marks", mostJudges)
		return false
	}
	headings := 1
	if s.layout.headings >= 0 {
		headings = s.Rows[s.layout.headings].Number
	}
	other := s.meantForAnother(columns)
	if other.at >= 0 && other.inOrder && s.o.PanelOf == "" {
		j := &columns[other.at]
		s.note("", "%s, headed %s as another is, is %s, whom --panel has there", s.columnName(j.column), j.name, other.name)
		j.name, other.at = other.name, -1
	}
	first := map[string]int{}
	var twice []judgeColumn
	for i, j := range columns {
		if j.name == "" {
			continue
		}
		if first[j.name] > 0 {
			twice, columns[i].name = append(twice, j), ""
			continue
		}
		first[j.name] = j.column
		if s.o.Panel == nil {
			s.out.Panel = append(s.out.Panel, j.name)
		}
	}
	if other.at >= 0 {
		s.tellMeantForAnother(columns, other, twice[0], headings)
	} else {
		s.tellJudgesTwice(twice, first, headings)
	}
	for _, name := range s.o.Panel {
		if first[name] == 0 && (other.at < 0 || name != other.name) {
			s.absentees = append(s.absentees, name)
		}
	}
	s.tellPanel()
	return true
}

// another is a column that is probably of another judge than its heading says.
type another struct {
	at      int    // among the columns, -1 for none
	name    string // whose it is
	inOrder bool   // the columns are then in the panel's order
}

// meantForAnother finds the column of a judge with two that is that of the one judge of
// the panel without any: by the panel's order, else the second.
func (s *sheet) meantForAnother(columns []judgeColumn) another {
	seen, found := map[string]bool{}, another{at: -1}
	for i, j := range columns {
		if j.name == "" || seen[j.name] && found.at >= 0 {
			return another{at: -1}
		}
		if seen[j.name] {
			found.at = i
		}
		seen[j.name] = true
	}
	if found.at < 0 || len(columns) != len(s.o.Panel) {
		return another{at: -1}
	}
	for _, name := range s.o.Panel {
		if !seen[name] {
			found.name = name
		}
	}
	var places []int // where the columns are not in the panel's order
	for i, name := range s.o.Panel {
		if columns[i].name != name {
			places = append(places, i)
		}
	}
	if len(places) == 1 {
		found.at, found.inOrder = places[0], true
	}
	return found
}

// tellMeantForAnother reports a judge with two columns, and one without.
func (s *sheet) tellMeantForAnother(columns []judgeColumn, other another, twice judgeColumn, headings int) {
	panel := make([]string, len(columns))
	for i, j := range columns {
		panel[i] = j.name
	}
	panel[slices.IndexFunc(columns, func(j judgeColumn) bool { return j.column == twice.column })] = twice.name
	panel[other.at] = other.name
	s.problem(twice.column, headings,
		fmt.Sprintf("where %s is that of %s: --panel \"%s\"; else leave one out: %s", s.columnName(columns[other.at].column), other.name, strings.Join(panel, " "), s.leaving(s.leavableSpans([]judgeColumn{twice}))),
		"judge %s has a second %s, and %s of the panel has none", twice.name, s.aColumn(), other.name)
}

// tellJudgesTwice reports judges with a second column: of more than one, as one, since it
// may be another flight's.
func (s *sheet) tellJudgesTwice(twice []judgeColumn, first map[string]int, headings int) {
	if len(twice) == 0 {
		return
	}
	also, another := "", ""
	if n := len(twice) - 1; n > 0 {
		also, another = fmt.Sprintf(" and %s", display.Counted(n, "more judge", "more judges")), ": another flight?"
	}
	has := display.Plural(len(twice), "has", "have")
	s.problem(twice[0].column, headings, "leave one out: "+s.leaving(s.leavableSpans(twice)), "judge %s%s %s a second %s, the first is %s%s",
		twice[0].name, also, has, s.aColumn(), bare(s.columnName(first[twice[0].name])), another)
}

// leavableSpans are columns as leave= takes them: H-L, of a sheet that was turned 8:12.
func (s *sheet) leavableSpans(columns []judgeColumn) string {
	spans := s.columnSpans(columns)
	for i := range spans {
		if from, to, found := strings.Cut(spans[i], "-"); s.isTurned {
			if !found {
				to = from
			}
			spans[i] = from + ":" + to
		}
	}
	return strings.Join(spans, "+")
}

// absent reports a judge of the panel who has nothing on the sheet.
func (s *sheet) absent(name, what string) {
	var rest []string
	for _, other := range s.o.Panel {
		if other != name {
			rest = append(rest, other)
		}
	}
	s.problemOf("where the sheet is not to hand: --panel \""+strings.Join(rest, " ")+" missing "+name+"\"", "judge %s of the panel has no %s", name, what)
}

// tellPanel says that the judges are the sheet's.
func (s *sheet) tellPanel() {
	if s.o.Panel == nil && len(s.out.Panel) > 0 {
		s.note("", "the judges are those of the sheet: %s", strings.Join(s.out.Panel, " "))
	}
}

// ofAnotherPanel is a result in which nothing was read: where the sheet reads whole
// by as many judges of its own, of whom none is on the panel, that is the only problem.
// Numbers of seats are nobody's names, and no other panel.
func (r Result) ofAnotherPanel(g Grid, o Options) Result {
	panel := o.Panel
	o.Panel = nil
	own := find(g, o).finish()
	if len(own.Problems) > 0 || slices.ContainsFunc(own.Panel, isSeat) || len(own.Panel) != len(panel) || slices.ContainsFunc(own.Panel, func(name string) bool { return slices.Contains(panel, name) }) {
		return r
	}
	r.Problems, r.More, r.Notes = []Problem{{
		Sheet: g.Name,
		Text:  "the judges at the heads are " + listed(own.Panel) + "; none of them is on the panel (" + listed(panel) + ")",
		Hint:  "where the sheet is right: --panel \"" + strings.Join(own.Panel, " ") + "\"; else write the panel's names at the heads",
	}}, 0, nil
	return r
}

// isSeat reports whether a judge's name is that of a numbered seat: J3.
func isSeat(name string) bool {
	number, found := strings.CutPrefix(name, "J")
	return found && isDigits(number)
}

// anyRead reports whether any mark was read.
func (r Result) anyRead() bool {
	return slices.ContainsFunc(r.Rows, func(row []Entry) bool { return slices.ContainsFunc(row, func(e Entry) bool { return e.Read }) })
}
