package sheetimport

import (
	"math"
	"slices"
	"strings"
)

// longByHeadings looks for the headings of a row a mark.
func (s *sheet) longByHeadings() bool {
	return s.underSome(s.longHeadings)
}

// wideByHeadings looks for the headings of a row a figure.
func (s *sheet) wideByHeadings() bool {
	return s.underSome(s.wideHeadings)
}

// underSome tries the rows that may be headings, from the top.
func (s *sheet) underSome(try func(i int, left []int) bool) bool {
	for i := range min(headingRows, len(s.Rows)) {
		left, _ := columnFinder{s.width(), s.Rows[i], false}.spans(s.o.Columns.Leave)
		if try(i, left) {
			return true
		}
	}
	return false
}

// noHeadings reports a sheet of which no layout is known.
func (s *sheet) noHeadings() {
	hint := s.columnsHint()
	if turned := newSheet(s.Grid, s.o, true); !s.isTurned && strings.Contains(hint, noColumn) {
		if other := turned.columnsHint(); !strings.Contains(other, noColumn) {
			hint = other
		}
	}
	for _, row := range s.Rows[:min(headingRows, len(s.Rows))] {
		for _, c := range row.Cells {
			if says(c, figureHeadings) && len(row.Cells) > 1 {
				s.problem(c.Column, row.Number, hint, "these headings name no judge%s", ofPanel(s.o.Panel))
				return
			}
		}
	}
	s.problemOf(hint, "no row of headings: none names a column of figures and judges%s", ofPanel(s.o.Panel))
}

// noColumn stands for a column where none is known.
const noColumn = "COLUMN"

// columnsHint says which columns to give: those that name the figures and that hold
// marks, as many as the panel has judges; where the sheet has no such columns none is named.
func (s *sheet) columnsHint() string {
	columns := Columns{Figure: noColumn, Judges: []string{noColumn + "-" + noColumn}, Leave: s.leave}
	figure := s.guessed()
	first := slices.IndexFunc(s.Rows, func(r Row) bool { return figure > 0 && s.begins(r.Cell(figure)) })
	if first >= 0 {
		s.layout = layout{headings: first - 1, first: first, figure: figure}
		s.layout.extras(s.headingRow())
		s.layout.left, _ = columnFinder{s.width(), s.headingRow(), false}.spans(s.o.Columns.Leave)
		s.kByContents()
		if judges := s.markColumns(false); len(judges) > 0 && (s.o.Panel == nil || len(judges) == len(s.o.Panel)) {
			columns.Figure, columns.Judges = bare(s.columnName(figure)), s.columnSpans(judges)
		}
		s.layout = layout{}
	}
	return "give the columns: --columns " + columns.flag()
}

// columnSpans names columns as judges= takes them: C-G, or C and E-G.
func (s *sheet) columnSpans(judges []judgeColumn) (spans []string) {
	for from := 0; from < len(judges); {
		to := from
		for to+1 < len(judges) && judges[to+1].column == judges[to].column+1 {
			to++
		}
		name := bare(s.columnName(judges[from].column))
		if to > from {
			name += "-" + bare(s.columnName(judges[to].column))
		}
		spans, from = append(spans, name), to+1
	}
	return spans
}

func ofPanel(panel []string) string {
	if panel == nil {
		return ""
	}
	return " of the panel (" + listed(panel) + ")"
}

// heading finds the first column with one of these headings.
func heading(row Row, headings []string) int {
	for _, c := range row.Cells {
		if says(c, headings) {
			return c.Column
		}
	}
	return 0
}

// longHeadings reports whether a row heads a long sheet; left are columns that
// are left out.
func (s *sheet) longHeadings(i int, left []int) bool {
	row := s.Rows[i]
	l := layout{
		headings: i, first: i + 1, figure: s.figureHeading(i), judge: heading(row, judgeHeadings),
		mark: heading(row, markHeadings), left: left,
	}
	if l.figure == 0 || l.judge == 0 || l.mark == 0 {
		return false
	}
	l.extras(row)
	s.layout = l
	return true
}

// wideHeadings reports whether a row heads a wide sheet: it has a column of
// figures and one of a judge at least. Where the panel is known and two of it
// stand there, the figures' column may have no heading that is known.
func (s *sheet) wideHeadings(i int, left []int) bool {
	row := s.Rows[i]
	l := layout{headings: i, first: i + 1, figure: s.figureHeading(i), left: left}
	beneath := s.figuresBeneath(i, l.figure)
	if l.figure == 0 && s.o.Panel != nil {
		beneath = s.figuresBeneath(i, s.guessed())
	}
	for _, c := range row.Cells[:min(widest, len(row.Cells))] {
		if c.Column == l.figure || c.Kind == Failure || c.Kind == Unsolved || slices.Contains(left, c.Column) {
			continue
		}
		name, ok := s.judge(c.Text)
		if !ok && s.mostlyMarks(beneath, c.Column) {
			name, ok = namedWithin(s.o.Panel, c.Text)
		}
		if ok && (s.o.Panel != nil || likeMarks(beneath, c.Column)) {
			l.judges = append(l.judges, judgeColumn{c.Column, name})
		}
	}
	if l.figure == 0 && s.o.Panel != nil && len(l.judges) > 1 {
		l.figure = s.mostLines(i+1, l.judges[0].column-1)
	}
	if l.figure == 0 {
		return false
	}
	s.layout = l
	s.withoutK()
	if s.o.Panel == nil {
		s.layout.judges = withoutMeans(s.layout.judges, beneath, s.leftMarks(beneath, left))
	}
	s.layout.extras(row)
	return len(s.layout.judges) > 0
}

// withoutK leaves a column out of the judges' that is headed K and has that of every
// line: a judge of the ledger may be called K too.
func (s *sheet) withoutK() {
	row := s.headingRow()
	if !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return headsK(row.Cell(j.column)) }) {
		return
	}
	lines := s.linesBeneath()
	s.layout.judges = slices.DeleteFunc(s.layout.judges, func(j judgeColumn) bool {
		f := s.fitsK(lines, j.column)
		isK := headsK(row.Cell(j.column)) && f.whole && f.agree >= 3 && f.differ == 0
		if isK && s.layout.k == 0 {
			s.layout.k = j.column
		}
		return isK
	})
}

// figureHeading is the column that row i heads as one of figures; of several the
// one that has most lines beneath.
func (s *sheet) figureHeading(i int) int {
	best, most := 0, -1
	for _, c := range s.Rows[i].Cells {
		if !s.headsLines(c) {
			continue
		}
		if n := s.countLines(i+1, c.Column); n > most {
			best, most = c.Column, n
		}
	}
	return best
}

// headsLines reports whether a cell heads a column of figures by a word for them. Where it
// is a judge's name as well, NO or Nr, no column may name more of the sequence's lines.
func (s *sheet) headsLines(c Cell) bool {
	if !says(c, figureHeadings) {
		return false
	}
	panel := s.o.Panel
	if panel == nil {
		panel = s.o.Known
	}
	_, judge := onPanel(panel, c.Text)
	return !judge || c.Column == s.guessed()
}

// withoutMeans leaves columns out that are the mean of the others, but for a row that
// is mistyped, or of them and of those that were left out: where nobody knows the judges a
// heading of another language may name one.
func withoutMeans(judges []judgeColumn, rows []Row, left []int) []judgeColumn {
	return slices.DeleteFunc(slices.Clone(judges), func(j judgeColumn) bool {
		var others []int
		for _, other := range judges {
			if other != j {
				others = append(others, other.column)
			}
		}
		return isMean(j.column, others, rows) || len(left) > 0 && isMean(j.column, slices.Concat(others, left), rows)
	})
}

// isMean reports whether a column is the mean of others.
func isMean(column int, others []int, rows []Row) bool {
	agree, differ, beyond := 0, 0, false
	for _, row := range rows {
		value, decimals, ok := number(row.Cell(column))
		sum, n := 0.0, 0
		for _, other := range others {
			if mark, _, read := number(row.Cell(other)); read {
				sum, n = sum+mark, n+1
			}
		}
		if !ok || n < len(others) || n == 0 {
			continue
		}
		beyond = beyond || !mayBeGrade(value)
		if math.Abs(value-sum/float64(n)) > unitOf(decimals) {
			differ++
		} else {
			agree++
		}
	}
	return mostly(agree, differ) && beyond
}

// mostly reports whether numbers agree with what they are compared with but for a few
// slips: of a quarter of the rows at most, or of one.
func mostly(agree, differ int) bool { return agree >= 2 && differ <= max(1, (agree+differ)/4) }

// leftMarks are those of the columns that were left out that hold marks and nothing else.
func (s *sheet) leftMarks(rows []Row, left []int) []int {
	return slices.DeleteFunc(slices.Clone(left), func(column int) bool {
		return !s.mostlyMarks(rows, column) || slices.ContainsFunc(rows, func(r Row) bool { return r.Cell(column).Kind != Empty && !s.plainly(r.Cell(column)) })
	})
}

// figuresBeneath are the rows of figures beneath row i, as far as headings are
// judged by what stands beneath them.
func (s *sheet) figuresBeneath(i, figure int) []Row {
	var rows []Row
	for _, row := range s.Rows[i+1 : min(len(s.Rows), i+1+headingRows)] {
		if figure > 0 && s.begins(row.Cell(figure)) {
			rows = append(rows, row)
		}
	}
	return rows
}

// likeMarks reports whether a column has something like marks in at least half
// of the rows.
func likeMarks(rows []Row, column int) bool {
	marks := 0
	for _, row := range rows {
		if likeMark(row.Cell(column)) {
			marks++
		}
	}
	return marks > 0 && 2*marks >= len(rows)
}

// likeMark reports whether a cell could have been meant as a mark.
func likeMark(c Cell) bool {
	switch c.Kind {
	case Empty, Truth, Failure:
		return false
	case Date, Unsolved:
		return true
	}
	text := strings.ToUpper(plainMark(c.Text))
	if slices.Contains([]string{"HZ", "CHZ", "PZ", "AV", "A", "-", "–", "—"}, text) || dateText(c.Text) {
		return true
	}
	whole, _, _ := strings.Cut(strings.ReplaceAll(text, ",", "."), ".")
	return isDigits(whole) && len(whole) <= 2 && strings.Trim(text, "0123456789.,") == ""
}
