package sheetimport

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/scoring"
)

// account goes through everything that is not read: a column is known to hold no
// marks, left out as was said, or an error, since one passed over in silence
// could be a judge's. Titles and lines at the foot are named.
func (s *sheet) account() {
	var passed, compared, including, unknown []unread
	var open []string
	columns := s.columnsUnread()
	for _, c := range columns {
		switch {
		case s.known(c):
			switch w, derived := s.derived[c.cell.Column]; {
			case w.left && w.judge < 0:
				including = append(including, c)
			case derived && !w.left:
				compared = append(compared, c)
			default:
				passed = append(passed, c)
			}
		case s.remarks(c):
			s.besides[c.cell.Column] = true
		default:
			open = append(open, s.leavable(c.cell.Column))
			unknown = append(unknown, c)
		}
	}
	if s.halvedByCommas(unknown) {
		s.problem(unknown[0].cell.Column, unknown[0].row, "save it with semicolons between the columns, or with points in the marks",
			"commas stand between the columns and in the marks too (7,5 is read as 7 and 5)")
		unknown = nil
	}
	for _, c := range unknown {
		s.problem(c.cell.Column, c.row, s.leaveHint(open), "%s, %s, is neither a judge's column nor a known one, and no column is skipped",
			s.columnName(c.cell.Column), s.holding(c))
	}
	s.checkBlocks(columns)
	if n := len(compared); n > 0 {
		s.note("", "compared with the marks: %s %s", s.columnsWord(n), listed(s.named(compared)))
	}
	if len(including) > 0 { // they are named with whose marks they include
		passed = slices.DeleteFunc(passed, func(c unread) bool { return s.isLeftJudge(c.cell.Column) })
	}
	if n := len(passed); n > 0 {
		s.note("", "not read: %s %s", s.columnsWord(n), listed(s.named(passed)))
	}
	s.tellFinal()
	s.tellLeft(s.named(including))
	s.tellBesides(columns)
}

// named names columns by their letters and what heads them.
func (s *sheet) named(columns []unread) []string {
	names := make([]string, len(columns))
	for i, c := range columns {
		names[i] = bare(s.columnName(c.cell.Column)) + " " + quoted(c.cell.Text)
	}
	return names
}

// halvedByCommas reports whether the rows of figures have more cells than the sheet
// has judges, and as many of them can be the tenths of marks with a comma, which
// divides the columns as well: a 0 or a 5 behind a number.
func (s *sheet) halvedByCommas(unknown []unread) bool {
	judges := len(s.layout.judges)
	if len(unknown) == 0 || judges == 0 || s.layout.long() || s.isTurned || slices.ContainsFunc(unknown, func(u unread) bool { return u.heading }) {
		return false
	}
	halved := false
	for _, r := range s.block.rows {
		cells, tenths, tenth := 0, 0, true
		for column := s.layout.judges[0].column; s.Rows[r.at].Cell(column).Kind != Empty; column++ {
			text := s.Rows[r.at].Cell(column).Text
			tenth = !tenth && (text == "0" || text == "5")
			if cells++; tenth {
				tenths++
			}
		}
		if cells < judges || cells-tenths > judges {
			return false
		}
		halved = halved || cells > judges
	}
	return halved
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
			s.problem(area.Left, area.Top, s.leaveHint([]string{s.leavable(column)}), "the merged cells %s leave nothing of %s, which could be a judge's", s.areaName(area), s.columnName(column))
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

// table are the rows in which a column stands: those of headings and of lines.
func (s *sheet) table() (rows []int) {
	if s.layout.long() {
		for i := max(s.layout.headings, 0); i < len(s.Rows); i++ {
			rows = append(rows, i)
		}
		return rows
	}
	first := len(s.Rows)
	if len(s.block.rows) > 0 {
		first = s.block.rows[0].at
		for _, r := range s.block.rows {
			first = min(first, r.at)
		}
	}
	for i := max(s.layout.headings, 0); i < len(s.Rows); i++ {
		if i < first || s.block.has(i) {
			rows = append(rows, i)
		}
	}
	return rows
}

// columnsUnread lists the columns of the table that hold something and are not
// read.
func (s *sheet) columnsUnread() []unread {
	seen := map[int]bool{}
	var list []unread
	for _, i := range s.table() {
		row := s.Rows[i]
		for _, c := range row.Cells {
			if seen[c.Column] || s.reads(c.Column) {
				continue
			}
			seen[c.Column] = true
			u := unread{c, row.Number, s.isHeading(i)}
			if above, ok := s.headingAbove(c.Column); ok && !u.heading {
				u = above
			}
			list = append(list, u)
		}
	}
	slices.SortFunc(list, func(a, b unread) int { return cmp.Compare(a.cell.Column, b.cell.Column) })
	return list
}

// isHeading reports whether a row is one of headings: the first, or one beneath
// it above the figures.
func (s *sheet) isHeading(i int) bool {
	return s.layout.headings >= 0 && (i == s.layout.headings || !s.layout.long() && len(s.block.rows) > 0 && i < s.block.rows[0].at && !s.hasLine(i))
}

func (s *sheet) hasLine(i int) bool { return s.lineNamed(s.Rows[i]) >= 0 }

// headingAbove is a column's heading in the row above that of the judges, where
// headings have two.
func (s *sheet) headingAbove(column int) (unread, bool) {
	i := s.layout.headings - 1
	if i < 0 || s.Rows[i].Number != s.Rows[i+1].Number-1 || s.layout.long() {
		return unread{}, false
	}
	cell := s.Rows[i].Cell(column)
	return unread{cell, s.Rows[i].Number, true}, cell.Kind == Text
}

// known reports whether a column was said to be left out, or has a heading that
// says that it holds no marks.
func (s *sheet) known(c unread) bool {
	switch {
	case slices.Contains(s.layout.left, c.cell.Column):
		return true
	case slices.Contains(s.layout.names, c.cell.Column):
		return true
	case !s.layout.long() && s.ownNumbers(c.cell.Column):
		return true
	case !s.layout.long() && s.workedOut(c.cell.Column):
		return true
	case !s.layout.long() && s.words(c.cell.Column):
		return true
	case !c.heading:
		return false
	case !s.layout.long() && says(c.cell, pointsWords) && s.otherPoints(c):
		return true
	case says(c.cell, figureHeadings):
		return !s.marksBeneath(c.cell.Column)
	case says(c.cell, workedOutHeadings), headsK(c.cell):
		return true
	default:
		return c.cell.Kind == Text && namesNoJudge(c.cell.Text) && (s.layout.long() || !s.allMarks(c.cell.Column))
	}
}

// ownNumbers reports whether a column numbers the figures once more, whatever
// stands there for positioning.
func (s *sheet) ownNumbers(column int) bool {
	n := 0
	for _, r := range s.block.rows {
		c := s.Rows[r.at].Cell(column)
		line := s.o.Lines[r.line]
		if line.Kind != scoring.Figure || c.Kind == Empty {
			continue
		}
		if own, ok := lineOf(c); !ok || own.Kind != line.Kind || own.Figure != line.Figure {
			return false
		}
		n++
	}
	return n >= 3 && 2*n >= len(s.block.rows)
}

// words reports whether a column describes the figures in words: each has some,
// and most have others.
func (s *sheet) words(column int) bool {
	seen, figures := map[string]bool{}, 0
	for _, r := range s.block.rows {
		c := s.Rows[r.at].Cell(column)
		if s.o.Lines[r.line].Kind != scoring.Figure && c.Kind == Empty {
			continue
		}
		if c.Kind != Text || len([]rune(c.Text)) < 4 || strings.ContainsAny(c.Text, "0123456789½") || s.plainly(c) {
			return false
		}
		seen[folded(c.Text)] = true
		figures++
	}
	return figures >= 3 && 2*len(seen) > figures
}

// remarks reports whether a column has remarks of several words beside some of
// the figures, and no heading: nobody's marks. Of a sheet that was turned it is
// a row of titles too.
func (s *sheet) remarks(u unread) bool {
	column := u.cell.Column
	if _, name := s.o.judgeNamed(u.cell.Text); s.isTurned && !name && !slices.ContainsFunc(s.block.rows, func(r lineRow) bool { return s.Rows[r.at].Cell(column).Kind != Empty }) {
		return true // a title above a row a judge, a line beneath: no marks in it
	}
	n := 0
	for _, i := range s.table() {
		c := s.Rows[i].Cell(column)
		if c.Kind == Empty {
			continue
		}
		if c.Kind != Text || len(strings.Fields(c.Text)) < 3 || s.isHeading(i) {
			return false
		}
		n++
	}
	return n > 0 && 2*n < len(s.block.rows)
}

// isOfficial reports whether a cell is that of the printed total, which is read.
func (s *sheet) isOfficial(column, row int) bool {
	worksheet, cell, named := strings.Cut(s.o.Official, "!")
	if !named {
		worksheet, cell = s.Name, s.o.Official
	}
	return s.o.Official != "" && worksheet == s.Name && cell == s.cellName(column, row)
}

// tellBesides names the cells outside the table: titles, remarks beside it, and
// what stands beneath.
func (s *sheet) tellBesides(columns []unread) {
	var cells []string
	inTable := map[int]bool{}
	for _, i := range s.table() {
		inTable[i] = true
	}
	for i, row := range s.Rows {
		total := s.totals[row.Number] || slices.ContainsFunc(row.Cells, func(c Cell) bool { return s.compared[s.cellName(c.Column, row.Number)] })
		if s.skippedRows[row.Number] && !s.totals[row.Number] || s.complained[row.Number] && !inTable[i] || slices.Contains(s.beneath, row.Number) || s.layout.long() && i > s.layout.headings {
			continue
		}
		for _, c := range row.Cells {
			beside := s.besides[c.Column] || !inTable[i] && !s.headingOf(columns, i, c) && !(s.headingsAgain(row) && s.hasMarks(row))
			if s.compared[s.cellName(c.Column, row.Number)] || total && s.ofTotal(c) {
				continue
			}
			if beside && !s.isOfficial(c.Column, row.Number) && !(s.isJudges(c.Column) && i > s.layout.headings && s.complained[row.Number]) {
				cells = append(cells, s.cellName(c.Column, row.Number)+" "+quoted(c.Text))
			}
		}
	}
	if n := len(cells); n > 0 {
		s.note("", "not read: titles, and what stands outside the table: %s", listed(cells))
	}
}

// ofTotal reports whether a cell of a row of totals says what that is, or is a judge's that
// was compared.
func (s *sheet) ofTotal(c Cell) bool {
	if c.Kind != Text || s.isNumber(c) {
		return s.isJudges(c.Column)
	}
	before := slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return c.Column < j.column }) &&
		!slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return c.Column >= j.column })
	return before || !strings.ContainsAny(c.Text, "0123456789") && s.has(Row{Cells: []Cell{c}}, slices.Concat(sumWords, netWords, otherWords, totalWords))
}

func (s *sheet) isNumber(c Cell) bool {
	_, _, ok := number(c)
	return ok
}

// headingOf reports whether a cell above the judges' names is a column's heading.
func (s *sheet) headingOf(columns []unread, i int, c Cell) bool {
	return slices.ContainsFunc(columns, func(u unread) bool { return u.row == s.Rows[i].Number && u.cell.Column == c.Column })
}

// allMarks reports whether every figure has a mark in a column, so that it may be
// a judge's whatever its heading: a Page of 7.5, 8 and 7 is no page. In a list of
// figure, judge and mark no column is a judge's.
func (s *sheet) allMarks(column int) bool {
	figures := 0
	for _, row := range s.Rows[s.layout.first:] {
		if line, ok := s.lineOf(row.Cell(s.layout.figure)); !ok || line.Kind != scoring.Figure {
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
		line, _ := s.lineOf(row.Cell(s.layout.figure))
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
			return fmt.Sprintf("with %s beneath the merged cells %s", described(c.cell), s.areaName(area))
		}
	}
	return "with " + described(c.cell)
}

// leaveHint says what to do about columns that nobody reads.
func (s *sheet) leaveHint(columns []string) string {
	return "put the judge's name at the head of a judge's column; leave out any other with " + s.leaving(columns...)
}

// leaving is the flag that leaves more out than was given, which it keeps.
func (s *sheet) leaving(more ...string) string {
	given := s.o.Columns
	given.Leave = slices.Concat(s.leave, more)
	return "--columns " + given.flag()
}

// flag gives the columns as a flag's value, in quotation marks where it has
// spaces.
func (c Columns) flag() string {
	if text := c.String(); !strings.Contains(text, " ") {
		return text
	}
	return `"` + c.String() + `"`
}
