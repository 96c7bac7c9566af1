package sheetimport

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"

	"boxbook/scoring"
)

// entry reads one mark.
func (s *sheet) entry(row Row, column, line int) Entry {
	cell := row.Cell(column)
	if area, hidden := s.hidden(column, row.Number); hidden {
		s.problem(column, row.Number, "", "part of the merged cells %s: a mark belongs to one judge and one figure", s.areaName(area))
		return Entry{}
	}
	if s.asked(cell, row) {
		return Entry{}
	}
	mark, problem, hint := s.mark(cell)
	if problem != "" {
		s.problem(column, row.Number, hint, "%s", problem)
		return Entry{}
	}
	if s.o.Lines[line].Kind != scoring.Figure && mark.FigureOnly() {
		s.problem(column, row.Number, "", "%s is not allowed in the %s line, which takes grades, AV or -", mark, s.o.Lines[line].Name())
		return Entry{}
	}
	if cell.Formula {
		s.formulas = append(s.formulas, s.cellName(column, row.Number))
	}
	return Entry{mark, true}
}

// asked reports whether a cell was reported with others of the same reason: a
// judge without any mark, numbers in doubt, a mark one cell beside its place.
func (s *sheet) asked(cell Cell, row Row) bool {
	if slices.Contains(s.empty, cell.Column) || s.doubtful[s.cellName(cell.Column, row.Number)] {
		return true
	}
	return cell.Kind == Empty && !s.layout.long() && s.shifted(cell.Column, row)
}

// shifted reports a mark that stands one cell beside its place, in a column
// that is nobody's and has nothing else.
func (s *sheet) shifted(column int, row Row) bool {
	for _, beside := range []int{column + 1, column - 1} {
		if s.reads(beside) || !s.plainly(row.Cell(beside)) {
			continue
		}
		others := slices.ContainsFunc(s.Rows[max(s.layout.headings, 0):], func(r Row) bool {
			return r.Number != row.Number && r.Cell(beside).Kind != Empty
		})
		if !others {
			s.strangers = append(s.strangers, beside)
			s.problem(column, row.Number, "move it where it belongs", "no mark here, but %s beside it in %s, in a %s that is nobody's", described(row.Cell(beside)), s.cellName(beside, row.Number), s.aColumn())
			return true
		}
	}
	return false
}

// noMark says that a text is no mark.
const noMark = "%s is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -"

// notSeen is what is asked about, not guessed: n.s., not seen or nothing there.
var notSeen = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)^(n[./ ]?[as]\.?|not seen|unseen)$`) })

// markRead reads what no other cell of the same text was read as before.
func (s *sheet) markRead(c Cell) (mark scoring.Mark, problem, hint string) {
	switch {
	case c.Kind == Empty:
		return mark, "no mark", "type - for a mark that is not on the sheet"
	case c.Kind == Unsolved:
		return mark, "a formula without a stored value; nothing is calculated here", "save the file in a spreadsheet program, or type the mark"
	case c.Kind == Date:
		return mark, "a date, " + datePlain(c.Text) + ", where a mark is expected", dateHint(c.Text)
	case c.Kind == Text && dateText(c.Text):
		return mark, "a date, " + quoted(c.Text) + ", where a mark is expected", dateHint(c.Text)
	}
	text := plainMark(c.Text)
	if notSeen().MatchString(text) {
		return mark, fmt.Sprintf("%s is not a mark: was the figure not seen, or is there no mark?", quoted(text)), "type AV where the judge did not see it, - where the sheet has no mark"
	}
	if c.Kind == Truth || c.Kind == Failure || text == "" || len(text) > mostShown || strings.ContainsAny(text, "#\"") || len(strings.Fields(text)) != 1 {
		return mark, fmt.Sprintf(noMark, quoted(text)), ""
	}
	return s.o.ReadMark(text)
}
