package sheetimport

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
)

// account goes through every column from the row of headings down: each is
// read, known to hold no marks, left out as was said, or an error. One passed
// over in silence could be a judge's.
func (s *sheet) account() {
	var passed, open []string
	columns := s.columnsUnread()
	for _, c := range columns {
		name := ColumnName(c.cell.Column)
		if s.known(c) {
			passed = append(passed, name+" "+quoted(c.cell.Text))
		} else {
			open = append(open, name)
		}
	}
	for _, c := range columns {
		if !s.known(c) {
			s.problem(c.cell.Column, c.row, s.leaveHint(open), "column %s, %s, is no judge's and none that is known, and nothing is passed over",
				ColumnName(c.cell.Column), s.holding(c))
		}
	}
	s.checkBlocks(columns)
	if len(passed) > 0 {
		s.note("", "not read: %s %s", display.Plural(len(passed), "column", "columns"), listed(passed))
	}
}

// checkBlocks reports cells merged over several columns and several rows of
// figures, where they swallow a column that is not read: it could be a judge's.
func (s *sheet) checkBlocks(columns []unread) {
	if s.layout.first >= len(s.Rows) {
		return // headings alone
	}
	for _, area := range s.Merged {
		if area.Right == area.Left || area.Bottom <= max(area.Top, s.Rows[s.layout.first].Number) {
			continue
		}
		for column := area.Left + 1; column <= area.Right; column++ {
			if s.reads(column) || slices.ContainsFunc(columns, func(c unread) bool { return c.cell.Column == column }) || slices.Contains(s.layout.left, column) {
				continue
			}
			s.problem(area.Left, area.Top, s.leaveHint([]string{ColumnName(column)}), "the merged cells %s leave nothing of column %s, which could be a judge's", area, ColumnName(column))
			break
		}
	}
}

// reads reports whether a column is read, or reported already.
func (s *sheet) reads(column int) bool {
	return s.layout.marks(column) || column == s.layout.k || column == s.layout.flight || slices.Contains(s.strangers, column)
}

// unread is a column that is not read: its heading, or where it has none the
// first cell that holds anything.
type unread struct {
	cell    Cell
	row     int
	heading bool
}

// columnsUnread lists the columns that hold something and are not read.
func (s *sheet) columnsUnread() []unread {
	seen := map[int]bool{}
	var list []unread
	for i, row := range s.Rows[max(s.layout.headings, 0):] {
		for _, c := range row.Cells {
			if !seen[c.Column] && !s.reads(c.Column) {
				seen[c.Column] = true
				list = append(list, unread{c, row.Number, i == 0 && s.layout.headings >= 0})
			}
		}
	}
	slices.SortFunc(list, func(a, b unread) int { return cmp.Compare(a.cell.Column, b.cell.Column) })
	return list
}

// known reports whether a column was said to be left out, or has a heading that
// says that it holds no marks.
func (s *sheet) known(c unread) bool {
	switch {
	case slices.Contains(s.layout.left, c.cell.Column):
		return true
	case !c.heading:
		return false
	case says(c.cell, figureHeadings):
		return !s.marksBeneath(c.cell.Column)
	case says(c.cell, workedOut):
		return true
	default:
		return says(c.cell, noJudge) && (s.layout.long() || !s.allMarks(c.cell.Column))
	}
}

// allMarks reports whether every figure has a mark in a column, so that it may be
// a judge's whatever its heading: a Page of 7.5, 8 and 7 is no page. In a list of
// figure, judge and mark no column is a judge's.
func (s *sheet) allMarks(column int) bool {
	figures := 0
	for _, row := range s.Rows[s.layout.first:] {
		if line, ok := lineOf(row.Cell(s.layout.figure)); !ok || line.Kind != scoring.Figure {
			continue
		}
		figures++
		if !likeMark(row.Cell(column)) {
			return false
		}
	}
	return figures > 0
}

// marksBeneath reports whether a column headed as one of figures has a mark
// beside a figure that is not the figure's own number: it is a judge's who is
// called NR, say.
func (s *sheet) marksBeneath(column int) bool {
	return slices.ContainsFunc(s.Rows[s.layout.first:], func(row Row) bool {
		cell := row.Cell(column)
		line, _ := lineOf(row.Cell(s.layout.figure))
		own, numbered := lineOf(cell)
		return s.begins(row.Cell(s.layout.figure)) && likeMark(cell) && !(numbered && own == line)
	})
}

// holding says what stands in a column that nobody reads.
func (s *sheet) holding(c unread) string {
	if c.heading {
		return described(c.cell)
	}
	if s.layout.headings >= 0 {
		if area, hidden := s.hidden(c.cell.Column, s.Rows[s.layout.headings].Number); hidden {
			return fmt.Sprintf("with %s beneath the merged cells %s", described(c.cell), area)
		}
	}
	return "with " + described(c.cell)
}

// leaveHint says what to do about columns that nobody reads.
func (s *sheet) leaveHint(columns []string) string {
	given := s.o.Columns
	given.Leave = slices.Concat(given.Leave, columns)
	return "head a judge's column with the judge's name; what is no judge's is left out with --columns " + given.flag()
}

// flag gives the columns as a flag's value, in quotation marks where it has
// spaces.
func (c Columns) flag() string {
	if text := c.String(); !strings.Contains(text, " ") {
		return text
	}
	return `"` + c.String() + `"`
}
