package sheetimport

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"

	"boxbook/scoring"
)

// index finds a line among those of the sequence.
func (s *sheet) index(line Line) int {
	return slices.IndexFunc(s.o.Lines, func(l Line) bool { return l.Kind == line.Kind && l.Figure == line.Figure })
}

// figures counts the figures of the sequence.
func (s *sheet) figures() int {
	n := 0
	for _, l := range s.o.Lines {
		if l.Kind == scoring.Figure {
			n++
		}
	}
	return n
}

// lineAt reads a row's cell of the figure column. Where that names a line that
// the sequence lacks, it says so and gives -1, as it does for anything else.
func (s *sheet) lineAt(row Row) int {
	if i := s.lineNamed(row); i >= 0 {
		s.checkK(row, i)
		return i
	}
	cell := row.Cell(s.layout.figure)
	line, ok := s.lineOf(cell)
	switch {
	case !ok:
		if cell.Kind == Empty {
			for _, c := range row.Cells {
				if c.Kind == Text && !s.reads(c.Column) {
					cell = c
					break
				}
			}
		}
		s.openRow = s.openRow || len(s.without()) == 1 && s.marked(row)
		s.problem(max(cell.Column, 1), row.Number, s.nameHint(row), "%s is not a figure, though there are marks beside it", described(cell))
	case line.Kind == scoring.Figure:
		s.openRow = s.openRow || len(s.without()) == 1
		s.problem(s.layout.figure, row.Number, "", "there is no figure %d: %s has %s", line.Figure, s.o.Sequence, display.Counted(s.figures(), "figure", "figures"))
	default:
		s.problem(s.layout.figure, row.Number, "", "%s has no %s line", s.o.Sequence, line.Name())
	}
	return -1
}

// nameHint says how a row is named that nothing names.
func (s *sheet) nameHint(row Row) string {
	if len(s.without()) == 1 && s.marked(row) {
		return "call it " + s.o.Lines[s.without()[0]].Name() + " if it is; " + s.leaving(s.spanOf(row.Number, row.Number)) + " leaves it out"
	}
	return ""
}

// wrongK is a K on the sheet that is not the ledger's.
type wrongK struct {
	place
	line int
}

// checkK compares the sheet's K with the ledger's: a difference says that
// another sequence is meant, or that a K was mistyped.
func (s *sheet) checkK(row Row, i int) {
	cell := row.Cell(s.layout.k)
	value, _, ok := number(cell)
	if s.layout.k > 0 && ok && value != float64(s.o.Lines[i].K) && !s.otherK[i] {
		s.otherK[i] = true
		s.wrongK = append(s.wrongK, wrongK{place{cell, row.Number}, i})
	}
}

// tellK reports K that differ as one: a mistyped one, or another sequence.
func (s *sheet) tellK() {
	if len(s.wrongK) == 0 {
		return
	}
	hint := "correct the sheet or the sequence; " + s.leaving(s.leavable(s.layout.k)) + " reads past the sheet's K"
	var all []string
	for _, w := range s.wrongK {
		line := s.o.Lines[w.line]
		all = append(all, fmt.Sprintf("%s has K %s on the sheet, K %d in %s", line.Name(), plain(w.cell.Text), line.K, s.o.Sequence))
	}
	first := s.wrongK[0]
	if n := len(all); n > 1 {
		s.problem(first.cell.Column, first.row, hint, "K differs for %d figures (another sequence?): %s", n, strings.Join(all[:min(n, 3)], "; "))
		return
	}
	s.problem(first.cell.Column, first.row, hint, "%s", all[0])
}

// leavable names a column as leave= takes it.
func (s *sheet) leavable(column int) string {
	if s.isTurned {
		return s.turnedSpan(column)
	}
	return ColumnName(column)
}

func (s *sheet) turnedSpan(row int) string { return fmt.Sprintf("%d:%d", row, row) }

// checkRows reports lines that the sheet lacks.
func (s *sheet) checkRows() {
	rows := 0
	for _, row := range s.out.Rows {
		if row != nil {
			rows++
		}
	}
	if rows == 0 {
		if len(s.out.Problems) == 0 {
			s.problemOf("", "the sheet has no row of marks")
		}
		return
	}
	missing := s.without()
	if s.o.Partial || s.saidMissing || s.openRow {
		return
	}
	if len(missing) > 3 {
		s.problemOf("", "%d lines have no row, %s the first", len(missing), s.o.Lines[missing[0]].Name())
		return
	}
	for _, i := range missing {
		s.problemOf("", "%s has no row", s.o.Lines[i].Name())
	}
}

// without are the lines without a row.
func (s *sheet) without() []int {
	var missing []int
	for i, row := range s.out.Rows {
		if row == nil {
			missing = append(missing, i)
		}
	}
	return missing
}
