package sheetimport

import (
	"fmt"
	"math"
	"slices"

	"boxbook/report/display"
)

// doubtJudges looks through the columns taken for judges' where nobody knows the judges.
// One that has the K of every line is the K, and one that has points is compared with the
// marks later; where a column may be the K, a mean or another number as well as a judge's
// marks, it is asked about.
func (s *sheet) doubtJudges() {
	row := s.headingRow()
	numbered := !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool {
		_, ok := seatOf(row.Cell(j.column))
		return !ok
	})
	if numbered {
		return
	}
	s.kByContents()
	lines, all := s.linesBeneath(), slices.Clone(s.layout.judges)
	lines = lines[:min(len(lines), headingRows)]
	for i, j := range all {
		others := slices.DeleteFunc(slices.Clone(s.layout.judges), func(other judgeColumn) bool { return other == j })
		f := s.fitsK(lines, j.column)
		switch question := s.question(lines, f, j, others, i == len(all)-1); {
		case question == "" || s.vouched(lines, append(others[:len(others):len(others)], j), others):
		case question == isPoints:
			s.drop(j) // compared with the marks once they are read
		case f.whole && (f.differ == 0 && f.agree >= 3 || f.beyond && mostly(f.agree, f.differ)) && s.layout.k == 0 && len(others) > 0:
			s.layout.k = j.column
			s.drop(j)
			s.note("", "%s, %s, is the K: it has that of %s in %s", s.columnName(j.column), described(row.Cell(j.column)), s.o.Sequence, display.Counted(f.agree, "row", "rows"))
		default:
			s.ask(j, all, f.whole, question)
		}
	}
}

// isPoints stands for a question that needs no answer: points are no judge's marks.
const isPoints = "points"

// question says what else than a judge's marks a column may be, "" where nothing.
func (s *sheet) question(lines []lineRow, f kFit, j judgeColumn, others []judgeColumn, last bool) string {
	rows := func(agree, differ int) string {
		return fmt.Sprintf("in %d of %s", agree, display.Counted(agree+differ, "row", "rows"))
	}
	switch {
	case f.whole && (f.agree > 0 && f.differ == 0 || s.layout.k == 0 && mostly(f.agree, f.differ)):
		return "has the K of " + s.o.Sequence + " " + rows(f.agree, f.differ) + ": the K, or a judge's marks?"
	case s.points(lines, j.column, others):
		return isPoints
	case f.whole && s.otherNumbers(lines, j.column, others):
		return "has whole numbers alone, unlike the marks beside it: a judge's marks, the K or something else?"
	}
	agree, differ := s.meanInHalves(lines, j.column, others)
	const many = 6 // rows in which no judge has it by chance
	if last && (len(others) > 1 && mostly(agree, differ) || agree >= 4 && differ == 0) || len(others) > 1 && agree >= many && differ == 0 {
		return "has the mean of the others, rounded to halves, " + rows(agree, differ) + ": a mean, or a judge's marks?"
	}
	return ""
}

// drop takes a column out of the judges'.
func (s *sheet) drop(j judgeColumn) {
	s.layout.judges = slices.DeleteFunc(s.layout.judges, func(other judgeColumn) bool { return other == j })
}

// ask reports a column that may be a judge's, with the flags for each way to read it.
func (s *sheet) ask(j judgeColumn, all []judgeColumn, mayBeK bool, question string) {
	s.drop(j)
	isK := func(c judgeColumn) bool { return c.column == s.layout.k }
	judges := Columns{Figure: bare(s.columnName(s.layout.figure)), Leave: s.leave}
	if slices.ContainsFunc(all, isK) { // found by what it holds: its heading does not say so
		judges.K = bare(s.columnName(s.layout.k))
		all = slices.DeleteFunc(slices.Clone(all), isK)
	}
	judges.Judges = s.columnSpans(all)
	hint := "where it is a judge's: --columns " + judges.flag() + "; where it is none: " + s.leaving(s.leavable(j.column))
	if others := s.layout.judges; mayBeK && len(others) > 0 {
		judges.K, judges.Judges = bare(s.columnName(j.column)), s.columnSpans(others)
		hint += "; where it is the K: --columns " + judges.flag()
	}
	s.strangers = append(s.strangers, j.column)
	s.problem(j.column, max(s.headingRow().Number, 1), hint, "%s, %s, %s", s.columnName(j.column), described(s.headingRow().Cell(j.column)), question)
}

// linesBeneath are the rows beneath the headings that name a line.
func (s *sheet) linesBeneath() (rows []lineRow) {
	for i := min(s.layout.first, len(s.Rows)); i < len(s.Rows); i++ {
		if line := s.lineNamed(s.Rows[i]); line >= 0 {
			rows = append(rows, lineRow{i, line})
		}
	}
	return rows
}

// kFit is how the numbers of a column are the K of the lines.
type kFit struct {
	agree, differ int
	whole         bool // whole numbers and nothing else
	above         bool // one is above every grade
	beyond        bool // one can be no mark, not even without its point
}

func (s *sheet) fitsK(rows []lineRow, column int) kFit {
	f := kFit{whole: true}
	for _, r := range rows {
		cell := s.Rows[r.at].Cell(column)
		value, _, ok := number(cell)
		f.whole = f.whole && (cell.Kind == Empty || ok && value == math.Trunc(value))
		switch {
		case !ok:
			continue
		case value == float64(s.o.Lines[r.line].K):
			f.agree++
		default:
			f.differ++
		}
		f.above, f.beyond = f.above || value > 10, f.beyond || !mayBeGrade(value)
	}
	return f
}

// numbersOf are the numbers of columns in a row; false where one has none.
func (s *sheet) numbersOf(r lineRow, columns []judgeColumn) (values []float64, ok bool) {
	for _, j := range columns {
		value, _, read := number(s.Rows[r.at].Cell(j.column))
		if !read {
			return nil, false
		}
		values = append(values, value)
	}
	return values, len(values) > 0
}

// points reports whether a column is K x the mean of others in most rows, and more than
// a mark.
func (s *sheet) points(rows []lineRow, column int, others []judgeColumn) bool {
	agree, differ, above := 0, 0, false
	for _, r := range rows {
		value, decimals, ok := number(s.Rows[r.at].Cell(column))
		marks, known := s.numbersOf(r, others)
		if !ok || !known {
			continue
		}
		above = above || value > 10 && value > 1.5*slices.Max(marks)
		if math.Abs(value-float64(s.o.Lines[r.line].K)*meanOf(marks)) <= unitOf(decimals) {
			agree++
		} else {
			differ++
		}
	}
	return above && mostly(agree, differ)
}

// otherNumbers reports whether whole numbers are of another kind than the marks beside
// them: those have halves, and show a decimal in every cell or lie far off.
func (s *sheet) otherNumbers(rows []lineRow, column int, others []judgeColumn) bool {
	halves, decimals, n, off := false, true, 0, 0.0
	for _, r := range rows {
		cell := s.Rows[r.at].Cell(column)
		value, shown, ok := number(cell)
		decimals = decimals && (!ok || shown == 0)
		for _, j := range others {
			mark, shown, read := number(s.Rows[r.at].Cell(j.column))
			halves = halves || read && mark != math.Trunc(mark)
			decimals = decimals && (!read || shown > 0)
		}
		if marks, known := s.numbersOf(r, others); known && ok {
			off += math.Abs(value - meanOf(marks))
			n++
		}
	}
	const far = 2 // points, on average: no two judges are so far apart all through
	return halves && n > 0 && (decimals || off >= far*float64(n))
}

// meanInHalves counts the rows in which a column is the mean of others rounded to a half,
// those between two of them all up or all down; nothing where it has what is no number.
func (s *sheet) meanInHalves(rows []lineRow, column int, others []judgeColumn) (agree, differ int) {
	up, down, n := 0, 0, 0
	for _, r := range rows {
		marks, known := s.numbersOf(r, others)
		if !known {
			continue
		}
		value, _, ok := number(s.Rows[r.at].Cell(column))
		if !ok {
			return 0, 0
		}
		half := 0.5
		if slices.Max(marks) > 10 {
			half = 5 // marks without their point
		}
		n++
		if off := (value - meanOf(marks)) / half; math.Abs(off) < 0.499 {
			up, down = up+1, down+1
		} else if math.Abs(off-0.5) < 0.001 {
			up++
		} else if math.Abs(off+0.5) < 0.001 {
			down++
		}
	}
	return max(up, down), n - max(up, down)
}

// vouched reports whether a column that an office worked out, of means, points or sums,
// has a judge's marks in it.
func (s *sheet) vouched(rows []lineRow, all, others []judgeColumn) bool {
	with, without := s.meansBy(rows, all), s.meansBy(rows, others)
	for column := 1; column <= min(s.width(), widest) && len(others) > 0; column++ {
		if s.reads(column) || slices.Contains(s.layout.left, column) || slices.ContainsFunc(all, func(other judgeColumn) bool { return other.column == column }) {
			continue
		}
		for _, byK := range []bool{false, true} {
			for _, each := range []bool{false, true} {
				agree, differ := s.workedOf(rows, column, with, byK, each)
				if fewer, _ := s.workedOf(rows, column, without, byK, each); mostly(agree, differ) && agree >= fewer {
					return true
				}
			}
		}
	}
	return false
}

// meanBy is the mean of several columns in a row, and of how many; of none where one has
// no number.
type meanBy struct {
	mean float64
	of   int
}

func (s *sheet) meansBy(rows []lineRow, columns []judgeColumn) []meanBy {
	means := make([]meanBy, len(rows))
	for i, r := range rows {
		if values, known := s.numbersOf(r, columns); known {
			means[i] = meanBy{meanOf(values), len(values)}
		}
	}
	return means
}

// workedOf counts the rows in which a column has a mean, times K or the number of judges
// or both.
func (s *sheet) workedOf(rows []lineRow, column int, means []meanBy, byK, each bool) (agree, differ int) {
	for i, r := range rows {
		value, decimals, ok := number(s.Rows[r.at].Cell(column))
		if !ok || means[i].of == 0 {
			continue
		}
		expected := means[i].mean
		if byK {
			expected *= float64(s.o.Lines[r.line].K)
		}
		if each {
			expected *= float64(means[i].of)
		}
		if math.Abs(value-expected) <= unitOf(decimals) {
			agree++
		} else {
			differ++
		}
	}
	return agree, differ
}

// meanOf is the mean of numbers.
func meanOf(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
