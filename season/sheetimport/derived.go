package sheetimport

import (
	"math"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/scoring"
)

// working is one way in which an office works a column or a total out of the
// marks of some judges. It gives false for a line whose marks have no number.
type working struct {
	name  string
	judge int // whose it is, -1 for all
	of    func(k float64, marks []float64) float64
	left  bool // worked out of the marks of judges too who were left out
}

// pointsOfAll is what K x the mean of all judges is called.
const pointsOfAll = "points"

// pointsOfEach is what the sum of K x each judge's mark is called.
const pointsOfEach = "points of all"

// workings are the ways that are known: means and points of all judges, and
// each judge's points.
func (s *sheet) workings() []working {
	list := []working{
		{name: "mean", judge: -1, of: func(_ float64, m []float64) float64 { return meanOf(m) }},
		{name: pointsOfAll, judge: -1, of: func(k float64, m []float64) float64 { return k * meanOf(m) }},
		{name: "sum", judge: -1, of: func(_ float64, m []float64) float64 { return meanOf(m) * float64(len(m)) }},
		{name: pointsOfEach, judge: -1, of: func(k float64, m []float64) float64 { return k * meanOf(m) * float64(len(m)) }},
	}
	for j := range s.out.Panel {
		list = append(list, working{name: "points of " + s.out.Panel[j], judge: j, of: func(k float64, m []float64) float64 { return k * m[0] }})
	}
	return list
}

// marksFor are the numbers that a working takes of a line.
func (s *sheet) marksFor(w working, row []Entry) ([]float64, bool) {
	if w.judge >= 0 {
		value, ok := row[w.judge].counted()
		return []float64{value}, ok
	}
	var marks []float64
	for _, e := range row {
		value, ok := e.counted()
		if !ok || e.Mark.Kind != scoring.Grade {
			return nil, false // what an office makes of it is its own
		}
		marks = append(marks, value)
	}
	return marks, len(marks) > 0
}

// fit is how a column fits a working.
type fit struct {
	working
	agree    int
	wrong    []place
	expected []float64 // of each wrong one
	beyond   bool      // at least one value is no mark, so that it is no judge's
	texts    []place   // cells without a number, beneath a word for what the column holds
}

// fits compares a column with a working; false where a cell is no number, or
// where the fit is chance.
func (s *sheet) fits(column int, w working) (fit, bool) {
	f := fit{working: w}
	unit, heading := s.shownUnit(column), s.headingRow().Cell(column)
	mean := w.name == "mean" && says(heading, meanHeadings)
	named := mean || w.name == pointsOfAll && says(heading, pointsWords)
	if mean && s.inHalves(column) {
		unit = max(unit, 0.26) // rounded to a half
	}
	for _, r := range s.block.rows {
		cell := s.Rows[r.at].Cell(column)
		if cell.Kind == Empty || s.out.Rows[r.line] == nil {
			continue
		}
		value, _, ok := number(cell)
		if !ok && named && cell.Kind == Text {
			f.texts = append(f.texts, place{cell, s.Rows[r.at].Number})
			continue
		}
		if !ok {
			return f, false
		}
		f.beyond = f.beyond || named || !mayBeGrade(value) || value > 10 && !s.tenths
		marks, ok := s.marksFor(w, s.out.Rows[r.line])
		if !ok {
			continue
		}
		if expected := w.of(float64(s.o.Lines[r.line].K), marks); math.Abs(value-expected) > unit && math.Abs(value-10*expected) > unit {
			f.wrong, f.expected = append(f.wrong, place{cell, s.Rows[r.at].Number}), append(f.expected, expected)
		} else {
			f.agree++
		}
	}
	return f, f.beyond && mostly(f.agree, len(f.wrong)) && len(f.texts) <= f.agree
}

// better reports whether a fit is better than another one.
func (f fit) better(other fit) bool {
	return f.agree-2*len(f.wrong) > other.agree-2*len(other.wrong)
}

// bestFit is the working that a column fits best; false where it fits none.
func (s *sheet) bestFit(column int) (best fit, found bool) {
	for _, w := range s.workings() {
		if f, ok := s.fits(column, w); ok && (!found || f.better(best)) {
			best, found = f, true
		}
	}
	return best, found
}

// shownUnit is the last place that a column shows: what was rounded or cut off there
// lies by less beside it, and by as much where a mark is half a point off.
func (s *sheet) shownUnit(column int) float64 {
	most := 0
	for _, r := range s.block.rows {
		if _, decimals, ok := number(s.Rows[r.at].Cell(column)); ok {
			most = max(most, decimals)
		}
	}
	if most == 0 {
		return 0.51
	}
	return 0.999 * math.Pow10(-min(most, 3))
}

// inHalves reports whether a column shows halves alone, to one decimal at most.
func (s *sheet) inHalves(column int) bool {
	return !slices.ContainsFunc(s.block.rows, func(r lineRow) bool {
		value, decimals, ok := number(s.Rows[r.at].Cell(column))
		return ok && (decimals > 1 || !mayBeGrade(value))
	})
}

// mistypedIn says what to do of a value that the marks beside it do not come to. Columns
// behind it that were worked out of the same marks and are wrong there too, points of a
// mean say, are left with it.
func (s *sheet) mistypedIn(column, row int) string {
	leave := []judgeColumn{{column: column}}
	for other := column + 1; other <= s.width(); other++ {
		if f, ok := s.bestFit(other); ok && !s.reads(other) && !slices.Contains(s.layout.left, other) && slices.ContainsFunc(f.wrong, func(p place) bool { return p.row == row }) {
			leave = append(leave, judgeColumn{column: other})
		}
	}
	spans := strings.Join(s.columnSpans(leave), "+")
	return "one of them is mistyped; " + s.leaving(spans) + " leaves " + display.Plural(len(leave), "it", "them") + " unread"
}

// workedOut reports whether a column holds what was worked out of the marks that
// were read. Where one cell of it does not fit, that or a mark is mistyped. What fits the
// marks better with those of judges who were left out is not judged.
func (s *sheet) workedOut(column int) bool {
	best, found := s.bestFit(column)
	if t := s.withLeft(); t != nil {
		if f, ok := t.bestFit(column); ok && (!found || f.better(best)) {
			f.left = true
			s.derived[column] = f.working
			return true
		}
	}
	if !found {
		return false
	}
	s.derived[column] = best.working
	for _, p := range best.texts {
		if name := s.cellName(column, p.row); !s.compared[name] {
			s.compared[name] = true
			s.note(name, "not read: %s, where the %s would stand", described(p.cell), best.name)
		}
	}
	for i, p := range best.wrong {
		if !s.complained[p.row] {
			s.problem(column, p.row, s.mistypedIn(column, p.row), "the %s printed is %s, the marks beside it come to %s", best.name, p.cell.Text, shortNumber(best.expected[i]))
		}
	}
	return true
}

// kByContents finds the column of K by what it holds: the K of the sequence's lines, but
// for a few where no judge's marks could be such, each of them where they could.
func (s *sheet) kByContents() {
	if s.layout.k > 0 {
		return
	}
	lines := s.linesBeneath()
	for column := 1; column <= min(s.width(), widest); column++ {
		if s.reads(column) || slices.Contains(s.layout.left, column) {
			continue
		}
		f := s.fitsK(lines, column)
		if f.agree >= 3 && (f.differ == 0 && f.whole || f.above && f.agree >= 3*f.differ) {
			s.layout.k = column
			return
		}
	}
}
