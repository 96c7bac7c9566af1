package sheetimport

import (
	"slices"
	"strings"

	"boxbook/report/display"
)

// leftJudges are the columns that were left out, as was asked, and hold marks as a
// judge gives them.
func (s *sheet) leftJudges() []judgeColumn {
	if s.layout.long() {
		return nil
	}
	rows := s.blockRows()
	var found []judgeColumn
	for _, column := range s.leftMarks(rows, s.layout.left) {
		head := s.headingRow().Cell(column)
		if s.reads(column) || s.ownNumbers(column) || s.holdsK(column) || says(head, workedOutHeadings) || says(head, figureHeadings) || headsK(head) {
			continue
		}
		found = append(found, judgeColumn{column, head.Text})
	}
	return found
}

// holdsK reports whether a column has the K of the lines once more.
func (s *sheet) holdsK(column int) bool {
	return !slices.ContainsFunc(s.block.rows, func(r lineRow) bool {
		value, _, ok := number(s.Rows[r.at].Cell(column))
		return ok && value != float64(s.o.Lines[r.line].K)
	})
}

// blockRows are the rows of the sequence's lines.
func (s *sheet) blockRows() []Row {
	rows := make([]Row, len(s.block.rows))
	for i, r := range s.block.rows {
		rows[i] = s.Rows[r.at]
	}
	return rows
}

// withLeft is the sheet with the marks of the judges who were left out besides: what an
// office printed may be worked out of them too. It is nil where nobody was.
func (s *sheet) withLeft() *sheet {
	if s.joined != nil || len(s.layout.left) == 0 {
		return s.joined
	}
	left := s.leftJudges()
	if len(left) == 0 {
		return nil
	}
	t := *s
	t.out.Panel, t.out.Rows = slices.Clone(s.out.Panel), make([][]Entry, len(s.out.Rows))
	for _, j := range left {
		t.out.Panel = append(t.out.Panel, j.name)
	}
	t.left = left
	for _, r := range s.block.rows {
		if s.out.Rows[r.line] == nil || t.out.Rows[r.line] != nil {
			continue
		}
		t.out.Rows[r.line] = slices.Clone(s.out.Rows[r.line])
		for _, j := range left {
			mark, problem, _ := s.mark(s.Rows[r.at].Cell(j.column))
			t.out.Rows[r.line] = append(t.out.Rows[r.line], Entry{mark, problem == ""})
		}
	}
	s.joined = &t
	return s.joined
}

// isLeftJudge reports whether a column is that of a judge who was left out.
func (s *sheet) isLeftJudge(column int) bool {
	t := s.withLeft()
	return t != nil && slices.ContainsFunc(t.left, func(j judgeColumn) bool { return j.column == column })
}

// tellLeft says whose marks were left out, and which printed columns and totals include
// them.
func (s *sheet) tellLeft(columns []string) {
	t := s.withLeft()
	if t == nil || len(columns)+len(s.including) == 0 {
		return
	}
	left := make([]string, len(t.left))
	for i, j := range t.left {
		left[i] = bare(s.columnName(j.column)) + " " + quoted(j.name)
	}
	n := len(left)
	said := s.columnsWord(n) + " " + listed(left) + ", " + display.Plural(n, "a judge's marks", "judges' marks")
	with := slices.Clone(s.including)
	if m := len(columns); m > 0 {
		with = append([]string{"printed " + s.columnsWord(m) + " " + listed(columns)}, with...)
	}
	m := len(columns) + len(s.including)
	s.note("", "left out, as was asked: %s; the %s %s %s and %s not compared",
		said, strings.Join(with, " and the "), display.Plural(m, "includes", "include"), display.Plural(n, "it", "them"), display.Plural(m, "is", "are"))
}
