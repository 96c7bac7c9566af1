package sheetimport

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"
	"boxbook/scoring"
)

// block is what the rows of a wide sheet are: those of the sequence's lines, by
// index, and where the rows beneath the table begin.
type block struct {
	rows []lineRow
	at   map[int]bool // the same rows
	end  int
}

// add adds a row of a line.
func (b *block) add(at, line int) {
	b.rows = append(b.rows, lineRow{at, line})
	b.at[at] = true
}

// lineRow is a row of the sheet and the line of the sequence that it is.
type lineRow struct {
	at, line int
}

// has reports whether a row is a line's.
func (b block) has(at int) bool { return b.at[at] }

// findBlock finds the rows of lines. The table ends where rows are left free
// after every line was there: what stands beneath is another table.
func (s *sheet) findBlock() {
	s.block = block{end: len(s.Rows), at: map[int]bool{}}
	seen := map[int]bool{}
	for i := s.layout.first; i < len(s.Rows); i++ {
		if i > s.layout.first && len(seen) == len(s.o.Lines) && s.Rows[i].Number > s.Rows[i-1].Number+1 {
			s.block.end = i
			break
		}
		if line := s.lineNamed(s.Rows[i]); line >= 0 {
			seen[line] = true
			s.block.add(i, line)
		}
	}
	s.findWeighted(seen)
}

// lineNamed is the line that a row names, -1 where it names none: by the number
// or the label in the figures' column, or where that names none beside it.
func (s *sheet) lineNamed(row Row) int {
	for _, column := range append([]int{s.layout.figure}, s.layout.names...) {
		if line, ok := s.lineOf(row.Cell(column)); ok {
			if i := s.index(line); i >= 0 {
				return i
			}
		}
		if row.Cell(column).Kind == Number {
			break // a figure that the sequence lacks
		}
	}
	return -1
}

// findNames finds the columns that name the lines beside the figures' column: by
// the ledger's labels, or positioning in words. One that names other lines than
// the numbers do is none.
func (s *sheet) findNames() {
	s.layout.names = nil
	agree, differ := map[int]int{}, map[int]int{}
	for _, row := range s.Rows[min(s.layout.first, len(s.Rows)):] {
		own, numbered := s.lineOf(row.Cell(s.layout.figure))
		for _, c := range row.Cells {
			headed := says(s.headingRow().Cell(c.Column), figureHeadings)
			if !headed && (c.Kind != Text || isDigits(c.Text)) || s.reads(c.Column) || slices.Contains(s.layout.left, c.Column) {
				continue
			}
			line, ok := s.lineOf(c)
			switch {
			case !ok || s.index(line) < 0:
			case numbered && s.index(own) >= 0 && own != line:
				differ[c.Column]++
			default:
				agree[c.Column]++
			}
		}
	}
	for column := 1; column <= min(s.width(), widest); column++ {
		if agree[column] > differ[column] {
			s.layout.names = append(s.layout.names, column)
		}
	}
}

// findWeighted finds the row of the weighted line by its K where nothing names
// it in a language that is known: the one row with a mark of each judge.
func (s *sheet) findWeighted(seen map[int]bool) {
	var open, rows []int
	for i, line := range s.o.Lines {
		if line.Kind != scoring.Figure && !seen[i] {
			open = append(open, i)
		}
	}
	if len(open) != 1 || s.layout.k == 0 {
		return
	}
	for i := s.layout.first; i < s.block.end; i++ {
		k, _, ok := number(s.Rows[i].Cell(s.layout.k))
		if ok && int(k) == s.o.Lines[open[0]].K && !s.block.has(i) && s.marked(s.Rows[i]) && !isDigits(plain(s.Rows[i].Cell(s.layout.figure).Text)) {
			rows = append(rows, i)
		}
	}
	if len(rows) == 1 {
		row := s.Rows[rows[0]]
		s.note(s.cellName(s.layout.figure, row.Number), "%s is read as %s, by its K of %d", s.called(row), s.o.Lines[open[0]].Name(), s.o.Lines[open[0]].K)
		s.block.add(rows[0], open[0])
	}
}

// called is what a row is called: the first text to the left of the marks.
func (s *sheet) called(row Row) string {
	for _, c := range row.Cells {
		if c.Kind == Text && !s.isJudges(c.Column) {
			return quoted(c.Text)
		}
	}
	return s.rowName(row.Number)
}

// marked reports whether every judge's cell of a row is a mark.
func (s *sheet) marked(row Row) bool {
	return len(s.layout.judges) > 0 && !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return !s.plainly(row.Cell(j.column)) })
}

// plainly reports whether a cell is a mark as it stands, or one without its
// point.
func (s *sheet) plainly(c Cell) bool {
	if c.Kind == Empty {
		return false
	}
	if _, problem, _ := s.mark(c); problem == "" {
		return true
	}
	value, _, ok := number(c)
	return ok && !strings.Contains(c.Text, "%") && mayBeGrade(value)
}

// isJudges reports whether a column is one of a judge's marks.
func (s *sheet) isJudges(column int) bool {
	return slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return j.column == column })
}

// readWide reads a row a figure.
func (s *sheet) readWide() {
	s.findBlock()
	s.findTenths(s.wideMarks())
	s.findEmptyJudges()
	first := map[int]int{} // row of each line
	for _, r := range s.block.rows {
		row := s.Rows[r.at]
		if before, twice := first[r.line]; twice && !s.flownAgain(before, r.at) {
			s.twice = append(s.twice, doubled{r.line, s.Rows[before].Number, row.Number})
			continue
		}
		s.checkK(row, r.line)
		entries := s.readRow(row, r.line)
		if _, again := first[r.line]; again {
			s.out.Again[r.line] = append(s.out.Again[r.line], entries)
			continue
		}
		first[r.line] = r.at
		s.out.Rows[r.line] = entries
	}
	s.tellAgain()
	s.checkLabels()
	s.readOthers()
}

// checkLabels reports a row whose number is one figure's and whose label another's.
func (s *sheet) checkLabels() {
	for _, r := range s.block.rows {
		row := s.Rows[r.at]
		for _, column := range s.layout.names {
			cell := row.Cell(column)
			if line, ok := s.lineOf(cell); ok && s.index(line) >= 0 && s.index(line) != r.line {
				s.problem(column, row.Number, "one of them is mistyped; "+s.leaving(s.cellName(column, row.Number))+" leaves it unread",
					"%s is the ledger's label of %s, beside the number of %s", described(cell), line.Name(), s.o.Lines[r.line].Name())
			}
		}
	}
}

// tellAgain says which figures were flown several times.
func (s *sheet) tellAgain() {
	for i, again := range s.out.Again {
		if n := len(again); n > 0 {
			s.note("", "%s has %d rows: flown so many times", s.o.Lines[i].Name(), n+1)
		}
	}
}

// readRow reads the marks of one line.
func (s *sheet) readRow(row Row, line int) []Entry {
	entries := make([]Entry, len(s.out.Panel))
	for _, j := range s.layout.judges {
		if at := slices.Index(s.out.Panel, j.name); at >= 0 {
			entries[at] = s.entry(row, j.column, line)
		}
	}
	return entries
}

// flownAgain reports whether a second row of a figure is one flown again: in
// practice, in one table. Beneath headings or free rows it is another flight's.
func (s *sheet) flownAgain(before, at int) bool {
	if !s.o.Partial {
		return false
	}
	if s.breaks == nil {
		s.breaks = make([]int, len(s.Rows))
		for i := 1; i < len(s.Rows); i++ {
			s.breaks[i] = s.breaks[i-1]
			if s.Rows[i].Number > s.Rows[i-1].Number+1 || !s.block.has(i) {
				s.breaks[i]++
			}
		}
	}
	return s.breaks[before] == s.breaks[at]
}

// wideMarks are the cells of marks.
func (s *sheet) wideMarks() []place {
	var cells []place
	for _, r := range s.block.rows {
		for _, j := range s.layout.judges {
			if c := s.Rows[r.at].Cell(j.column); c.Kind != Empty {
				cells = append(cells, place{c, s.Rows[r.at].Number})
			}
		}
	}
	return cells
}

// place is a cell and its row.
type place struct {
	cell Cell
	row  int
}

// findEmptyJudges reports judges without any mark once, not for each figure.
func (s *sheet) findEmptyJudges() {
	if len(s.block.rows) < 2 {
		return
	}
	for _, j := range s.layout.judges {
		if j.name == "" || slices.ContainsFunc(s.block.rows, func(r lineRow) bool { return s.Rows[r.at].Cell(j.column).Kind != Empty || s.inMerged(j.column, r.at) }) {
			continue
		}
		s.empty = append(s.empty, j.column)
		s.problem(j.column, s.Rows[s.block.rows[0].at].Number, "type - for marks that are not on the sheet", "judge %s has no mark in %s", j.name, display.Plural(len(s.block.rows), "the only row", fmt.Sprintf("any of %d rows", len(s.block.rows))))
	}
}

func (s *sheet) inMerged(column, at int) bool {
	_, hidden := s.hidden(column, s.Rows[at].Number)
	return hidden
}

// hasMarks reports whether a row has anything in a judge's column.
func (s *sheet) hasMarks(row Row) bool {
	return slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return row.Cell(j.column).Kind != Empty })
}

// readOthers accounts for the rows that are no line's: totals, headings once
// more, another table beneath, and what is an error.
func (s *sheet) readOthers() {
	if s.anotherFlight() {
		return
	}
	for i := s.layout.first; i < len(s.Rows); i++ {
		row := s.Rows[i]
		switch {
		case s.block.has(i):
		case !s.hasMarks(row) && i < s.block.end && s.numberedBeyond(row):
			s.lineAt(row)
		case !s.hasMarks(row), s.headingsAgain(row):
		case s.beneathHeadings(i), s.total(row):
		case i >= s.block.end && !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return s.plainly(row.Cell(j.column)) }):
			s.beneath = append(s.beneath, row.Number)
		default:
			s.lineAt(row)
		}
	}
	if n := len(s.beneath); n > 0 {
		var rows []string
		for _, row := range s.beneath {
			rows = append(rows, bare(s.rowName(row)))
		}
		s.note("", "not read: another table beneath, %s %s", s.rowsWord(n), listed(rows))
	}
}

// numberedBeyond reports whether a row without marks is numbered as a figure
// that the sequence lacks, among the figures.
func (s *sheet) numberedBeyond(row Row) bool {
	_, ok := lineOf(row.Cell(s.layout.figure))
	return ok && len(row.Cells) > 1 && s.o.Lines != nil && slices.ContainsFunc(s.block.rows, func(r lineRow) bool { return s.Rows[r.at].Number > row.Number })
}

// anotherFlight reports marks of figures beneath a table that had them all: the
// sheet of another flight.
func (s *sheet) anotherFlight() bool {
	var rows []int
	for i := s.block.end; i < len(s.Rows); i++ {
		if s.lineNamed(s.Rows[i]) >= 0 && slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return s.plainly(s.Rows[i].Cell(j.column)) }) {
			rows = append(rows, s.Rows[i].Number)
		}
	}
	if len(rows) == 0 {
		return false
	}
	s.another = true
	for _, row := range s.Rows[s.block.end:] {
		s.skippedRows[row.Number] = true
	}
	last, above := s.Rows[len(s.Rows)-1].Number, s.Rows[s.block.end-1].Number
	s.problem(s.layout.figure, rows[0], fmt.Sprintf("leave one out: %s for the second, %s for the first", s.leaving(s.spanOf(s.Rows[s.block.end].Number, last)), strings.TrimPrefix(s.leaving(s.spanOf(1, above)), "--columns ")),
		"from %s on the sheet has marks of the same figures once more: another flight", s.rowName(rows[0]))
	return true
}

// spanOf names rows as --columns takes them: 16:28, of a sheet that was turned
// C:D.
func (s *sheet) spanOf(from, to int) string {
	return bare(s.rowName(from)) + ":" + bare(s.rowName(to))
}

// beneathHeadings reports a second row of headings: above the figures, and with
// nothing like a mark.
func (s *sheet) beneathHeadings(at int) bool {
	if len(s.block.rows) == 0 || at > s.block.rows[0].at {
		return false
	}
	return !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return likeMark(s.Rows[at].Cell(j.column)) })
}

// headingsAgain reports the headings once more, on a second page.
func (s *sheet) headingsAgain(row Row) bool {
	if s.layout.headings < 0 {
		return false
	}
	headings := s.Rows[s.layout.headings]
	return !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool {
		return headings.Cell(j.column).Text != row.Cell(j.column).Text
	})
}

// doubled is a second row of a line.
type doubled struct{ line, before, row int }

// secondRows are the second rows as leave= takes them: all between the first and the last
// where none of the first rows is among them.
func (s *sheet) secondRows() string {
	from, to := s.twice[0].row, s.twice[len(s.twice)-1].row
	among := slices.ContainsFunc(s.block.rows, func(r lineRow) bool {
		row := s.Rows[r.at].Number
		return row >= from && row <= to && !slices.ContainsFunc(s.twice, func(d doubled) bool { return d.row == row })
	})
	if !among {
		return s.spanOf(from, to)
	}
	spans := make([]string, len(s.twice))
	for i, d := range s.twice {
		spans[i] = s.spanOf(d.row, d.row)
	}
	return strings.Join(spans, "+")
}

// tellTwice reports lines with a second row: one message where many have, or
// where the one is another line that is missing.
func (s *sheet) tellTwice() {
	if len(s.twice) == 0 {
		return
	}
	first := s.twice[0]
	name := s.o.Lines[first.line].Name()
	if len(s.twice) >= 3 {
		s.problem(s.layout.figure, first.row, "leave the rows of one out: "+s.leaving(s.secondRows()),
			"%s and %d more lines have a second row from here on, the first is %s: another flight?", name, len(s.twice)-1, s.rowName(first.before))
		return
	}
	missing := s.without()
	for _, d := range s.twice {
		also := ""
		if len(s.twice) == 1 && len(missing) == 1 && !s.o.Partial {
			also = ", and " + s.o.Lines[missing[0]].Name() + " has none"
			s.saidMissing = true
		}
		s.problem(s.layout.figure, d.row, "", "%s has a second row, the first is %s%s", s.o.Lines[d.line].Name(), s.rowName(d.before), also)
	}
}
