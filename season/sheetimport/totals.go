package sheetimport

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"boxbook/report/display"
)

// sums are a judge's marks as an office adds them up, HZ as 0.
type sums struct {
	points, figures float64 // K x mark, and those of the figures alone
	marks, lines    float64
	k               float64
}

// totalling is one way to sum a judge's marks up.
type totalling struct {
	name string
	of   func(sums) float64
}

// totallings are the ways that are known.
func totallings() []totalling {
	return []totalling{
		{"total", func(t sums) float64 { return t.points }},
		{"total of the figures", func(t sums) float64 { return t.figures }},
		{"percent", func(t sums) float64 { return 10 * t.points / t.k }},
		{"share", func(t sums) float64 { return t.points / t.k / 10 }},
		{"mean", func(t sums) float64 { return t.marks / t.lines }},
		{"mean by K", func(t sums) float64 { return t.points / t.k }},
		{"sum of the marks", func(t sums) float64 { return t.marks }},
		{"total without points", func(t sums) float64 { return 10 * t.points }},
	}
}

// sumsOf sums the marks of a judge; false where one has no number.
func (s *sheet) sumsOf(judge int) (t sums, ok bool) {
	for i, row := range s.out.Rows {
		for _, entries := range append([][]Entry{row}, s.out.Again[i]...) {
			if entries == nil {
				continue
			}
			value, ok := entries[judge].counted()
			if !ok {
				return t, false
			}
			k := float64(s.o.Lines[i].K)
			t.points, t.marks, t.lines, t.k = t.points+k*value, t.marks+value, t.lines+1, t.k+k
			if s.o.Lines[i].Figure > 0 {
				t.figures += k * value
			}
		}
	}
	return t, t.lines > 0
}

// printed is a judge's total on the sheet.
type printed struct {
	place
	judge int
	value float64
	unit  float64
	sums
}

// total reports whether a row sums the marks above it up, by what it holds or by
// what it is called, and names the totals that do not match where others do.
func (s *sheet) total(row Row) bool {
	var list []printed
	for _, j := range s.layout.judges {
		at := slices.Index(s.out.Panel, j.name)
		cell := row.Cell(j.column)
		value, decimals, ok := number(cell)
		if at < 0 || !ok {
			continue
		}
		if t, known := s.sumsOf(at); known {
			list = append(list, printed{place{cell, row.Number}, at, value, unitOf(decimals), t})
		}
	}
	way, wrong := bestTotalling(list)
	agree := len(list) - len(wrong)
	called := slices.ContainsFunc(row.Cells, func(c Cell) bool { return c.Kind == Text && !s.isJudges(c.Column) && saysTotal(c) })
	_, named := s.lineOf(row.Cell(s.layout.figure))
	beyond := slices.ContainsFunc(list, func(p printed) bool { return !mayBeGrade(p.value) || strings.Contains(p.cell.Text, "%") })
	if !called && (named || !beyond) {
		return false // what may be marks is no total by chance
	}
	if agree == 0 || 2*agree < len(list) && !called {
		if called {
			s.skip(row)
		}
		return called
	}
	s.skip(row)
	for _, p := range wrong {
		s.problem(p.cell.Column, p.row, "one mark or the total is mistyped; --columns leave="+s.cellName(p.cell.Column, p.row)+" leaves it unread",
			"the %s printed for %s is %s, the marks come to %s", way.name, s.out.Panel[p.judge], p.cell.Text, shortNumber(way.of(p.sums)))
	}
	if len(wrong) == 0 {
		s.note("", "%s, %s, agrees with the marks: the %s, of %d of %s", s.rowName(row.Number), s.called(row), way.name, agree, display.Counted(len(s.layout.judges), "judge", "judges"))
	}
	return true
}

// bestTotalling is the way that most totals agree with, and those that do not.
func bestTotalling(list []printed) (best totalling, wrong []printed) {
	for i, way := range totallings() {
		var differ []printed
		for _, p := range list {
			if math.Abs(p.value-way.of(p.sums)) > p.unit {
				differ = append(differ, p)
			}
		}
		if i == 0 || len(differ) < len(wrong) {
			best, wrong = way, differ
		}
	}
	return best, wrong
}

// unitOf is how far a number with so many decimals may lie from what it was
// rounded or cut from.
func unitOf(decimals int) float64 {
	if decimals == 0 {
		return 0.51
	}
	return 1.01 * math.Pow10(-min(decimals, 4))
}

// saysTotal reports whether a text says that a row sums up.
func saysTotal(c Cell) bool {
	return slices.ContainsFunc(strings.Fields(folded(c.Text)), func(word string) bool { return slices.Contains(totalWords, word) })
}

// skip notes a row that is no line.
func (s *sheet) skip(row Row) {
	s.skippedRows[row.Number] = true
	s.skipped = append(s.skipped, fmt.Sprintf("%s %s", bare(s.rowName(row.Number)), s.called(row)))
}

// tellFinal compares a final total beneath the points of all judges with them.
// Where it differs penalties may be in it, or a zero that was filled: it is said.
func (s *sheet) tellFinal() {
	sum, known := 0.0, true
	for i, row := range s.out.Rows {
		marks, ok := s.marksFor(working{judge: -1}, row)
		if row == nil || !ok {
			known = false
			break
		}
		for _, m := range marks {
			sum += float64(s.o.Lines[i].K) * m / float64(len(marks))
		}
	}
	for _, column := range slices.Sorted(maps.Keys(s.derived)) {
		w := s.derived[column]
		for _, row := range s.Rows {
			cell := row.Cell(column)
			value, decimals, ok := number(cell)
			if !known || !ok || w.name != pointsOfAll || !s.skippedRows[row.Number] && !s.summing(row) || strings.Contains(cell.Text, "%") {
				continue
			}
			name := s.cellName(column, row.Number)
			if math.Abs(value-sum) <= unitOf(decimals) {
				s.note(name, "the final total %s agrees with the marks", cell.Text)
			} else if s.totalled(row) {
				s.note(name, "the final total is %s, the marks come to %s: penalties may be in it", cell.Text, shortNumber(sum))
			}
		}
	}
}

// summing reports whether a row says that it sums up.
func (s *sheet) summing(row Row) bool {
	return slices.ContainsFunc(row.Cells, func(c Cell) bool { return c.Kind == Text && saysTotal(c) })
}

// totalled reports whether a row is called a total, and not a percentage or a
// maximum.
func (s *sheet) totalled(row Row) bool {
	return slices.ContainsFunc(row.Cells, func(c Cell) bool {
		return c.Kind == Text && slices.ContainsFunc(strings.Fields(folded(c.Text)), func(word string) bool { return word == "total" || word == "final" })
	})
}

// shortNumber writes a number with at most three decimals.
func shortNumber(value float64) string {
	return display.Trimmed(value, mostDecimals)
}

// PrintedTotal reads the printed total out of a cell, I19 or Summary!B6, as a
// ledger writes a number. The error says why it is none.
func PrintedTotal(grids []Grid, cell string) (string, error) {
	sheet, name, found := strings.Cut(cell, "!")
	if !found {
		sheet, name = "", cell
	}
	column, row, ok := cellAt(name)
	if !ok {
		return "", fmt.Errorf("%s is not the name of a cell, such as I19", quoted(cell))
	}
	for _, g := range grids {
		if sheet != "" && sheet != g.Name {
			continue
		}
		if sheet == "" && len(grids) > 1 {
			return "", fmt.Errorf("of several worksheets one is named with the cell: Summary!%s", name)
		}
		i := slices.IndexFunc(g.Rows, func(r Row) bool { return r.Number == row })
		if i < 0 {
			return "", fmt.Errorf("%s is empty", name)
		}
		c := g.Rows[i].Cell(column)
		value, decimals, ok := number(c)
		if !ok || strings.Contains(c.Text, "%") {
			return "", fmt.Errorf("%s, %s, is no total", name, described(c))
		}
		return display.Fixed(value, min(decimals, mostDecimals)), nil
	}
	return "", fmt.Errorf("there is no worksheet %s", quoted(sheet))
}

// mostDecimals is how many decimals of a total are taken: what a program keeps
// beyond was not printed.
const mostDecimals = 3
