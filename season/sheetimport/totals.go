package sheetimport

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/scoring"
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

// sumsOf sums the marks of a judge up, as they are typed: a zero and what has no
// number are nothing. False where one could not be read.
func (s *sheet) sumsOf(judge int) (t sums, ok bool) {
	return s.summed(func(_, _ int, row []Entry) (float64, bool, bool) {
		value, number := row[judge].counted()
		return value, number, row[judge].Read
	})
}

// countedOf sums up what the marks of a judge count by the rules, filled or zeroed
// by the panel. False where that is not decided.
func (s *sheet) countedOf(judge int) (t sums, ok bool) {
	score, ok := s.score()
	if !ok {
		return t, false
	}
	return s.summed(func(line, flown int, _ []Entry) (float64, bool, bool) {
		of := score.Lines[line]
		if of.Rows != nil {
			of = of.Rows[flown]
		}
		if of.Points == nil || of.Cells[judge].Used == nil {
			return 0, false, false
		}
		value, _ := of.Cells[judge].Used.Float64()
		return value, true, true
	})
}

// summed sums up what each row of marks is worth: line is its place among the lines
// that are there, and flown how often the line was flown before.
func (s *sheet) summed(of func(line, flown int, row []Entry) (value float64, number, ok bool)) (t sums, ok bool) {
	line := -1
	for i, row := range s.out.Rows {
		if row == nil {
			continue
		}
		line++
		for flown, entries := range append([][]Entry{row}, s.out.Again[i]...) {
			value, number, ok := of(line, flown, entries)
			if !ok {
				return t, false
			}
			k := float64(s.o.Lines[i].K)
			t.k += k
			if number {
				t.points, t.marks, t.lines = t.points+k*value, t.marks+value, t.lines+1
				if s.o.Lines[i].Figure > 0 {
					t.figures += k * value
				}
			}
		}
	}
	return t, t.lines > 0
}

// score is what the rows that are there come to by the rules, with their penalties
// not in it. False where a mark was not read.
func (s *sheet) score() (scoring.Score, bool) {
	sheet := scoring.Sheet{Judges: len(s.out.Panel), Style: s.o.Style}
	for i, row := range s.out.Rows {
		if row == nil {
			continue
		}
		line := scoring.Line{Kind: s.o.Lines[i].Kind, K: s.o.Lines[i].K}
		for flown, entries := range append([][]Entry{row}, s.out.Again[i]...) {
			marks := make([]scoring.Mark, len(entries))
			for j, e := range entries {
				if !e.Read {
					return scoring.Score{}, false
				}
				marks[j] = e.Mark
			}
			if flown == 0 {
				line.Marks = marks
			} else {
				line.Again = append(line.Again, marks)
			}
		}
		sheet.Lines = append(sheet.Lines, line)
	}
	if len(sheet.Lines) == 0 || sheet.Judges == 0 {
		return scoring.Score{}, false
	}
	return sheet.Score(), true
}

// printed is a judge's total on the sheet.
type printed struct {
	place
	judge int
	value float64
	unit  float64
	// readings are the sums that it may be: of the marks as typed, and as counted.
	readings []sums
}

// agrees reports whether a total is one of a judge's sums.
func (p printed) agrees(way totalling) bool {
	return slices.ContainsFunc(p.readings, func(t sums) bool { return math.Abs(p.value-way.of(t)) <= p.unit })
}

// comesTo says what a judge's marks come to: once where both readings are alike.
func (p printed) comesTo(way totalling) string {
	first, last := shortNumber(way.of(p.readings[0])), shortNumber(way.of(p.readings[len(p.readings)-1]))
	if first == last {
		return "the marks come to " + first
	}
	return "the marks come to " + first + " as typed, " + last + " as counted"
}

// printedOf is a judge's total with the sums that it may be; false where no mark of
// the judge is known.
func (s *sheet) printedOf(at place, judge int) (p printed, ok bool) {
	value, decimals, ok := number(at.cell)
	typed, known := s.sumsOf(judge)
	if !ok || !known {
		return p, false
	}
	p = printed{at, judge, value, unitOf(decimals), []sums{typed}}
	if counted, decided := s.countedOf(judge); decided && !s.lone {
		p.readings = append(p.readings, counted)
	}
	return p, true
}

// total reports whether a row sums the marks above it up, by what it holds or by
// what it is called, and names the totals that do not match where others do.
func (s *sheet) total(row Row) bool {
	var list []printed
	for _, j := range s.layout.judges {
		at := slices.Index(s.out.Panel, j.name)
		cell := row.Cell(j.column)
		if at < 0 {
			continue
		}
		if p, known := s.printedOf(place{cell, row.Number}, at); known {
			list = append(list, p)
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
	s.totals[row.Number], s.skippedRows[row.Number] = true, true
	for _, p := range wrong {
		s.problem(p.cell.Column, p.row, "one mark or the total is mistyped; "+s.leaving(s.cellName(p.cell.Column, p.row))+" leaves it unread",
			"the %s printed for %s is %s, %s", way.name, s.out.Panel[p.judge], p.cell.Text, p.comesTo(way))
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
			if !p.agrees(way) {
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
	s.skipped = append(s.skipped, row)
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
		value, decimals, ok := number(plainTotal(c))
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
