package sheetimport

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"boxbook/report/display"
)

// countLines counts the sequence's lines that a column names from a row on.
func (s *sheet) countLines(from, column int) int {
	seen, n := make([]bool, len(s.o.Lines)), 0
	for _, row := range s.Rows[min(from, len(s.Rows)):min(len(s.Rows), from+10*headingRows)] {
		if line, ok := s.lineOf(row.Cell(column)); ok {
			if i := s.index(line); i >= 0 && !seen[i] {
				seen[i] = true
				n++
			}
		}
	}
	return n
}

// guessed is the column that names most lines of the whole sheet.
func (s *sheet) guessed() int {
	if s.guess == 0 {
		s.guess = s.mostLines(0, widest)
	}
	return s.guess
}

// mostLines is the column up to another one that names most of the sequence's
// lines, 0 where none names any.
func (s *sheet) mostLines(from, upTo int) int {
	best, most := 0, 0
	for column := 1; column <= min(s.width(), upTo, widest); column++ {
		if n := s.countLines(from, column); n > most {
			best, most = column, n
		}
	}
	return best
}

// wideByContents finds a row a figure by what the columns hold: the figures by
// their numbers or labels, the judges by marks beneath what could be a seat or
// a name.
func (s *sheet) wideByContents() bool {
	figure := s.guessed()
	if figure == 0 || s.countLines(0, figure) < min(2, len(s.o.Lines)) {
		return false
	}
	first := slices.IndexFunc(s.Rows, func(r Row) bool { return s.begins(r.Cell(figure)) })
	for i := first - 1; i >= max(0, first-3); i-- {
		s.layout = layout{headings: i, first: i + 1, figure: figure}
		s.layout.left, _ = columnFinder{s.width(), s.Rows[i], false}.spans(s.o.Columns.Leave)
		s.layout.extras(s.Rows[i])
		s.kByContents()
		if s.nameMarkColumns(s.markColumns(true)) {
			return true
		}
	}
	return false
}

// markColumns are the columns that hold marks beneath the headings, in most of
// the rows of figures.
func (s *sheet) markColumns(headed bool) []judgeColumn {
	rows := s.figuresBeneath(s.layout.headings, s.layout.figure)
	var found []judgeColumn
	for column := 1; column <= min(s.width(), widest); column++ {
		if s.reads(column) || slices.Contains(s.layout.left, column) || headed && s.headingRow().Cell(column).Kind == Empty {
			continue
		}
		if s.mostlyMarks(rows, column) && !s.numbersLines(rows, column) {
			found = append(found, judgeColumn{column: column})
		}
	}
	return withoutMeans(found, rows, s.leftMarks(rows, s.layout.left))
}

// mostlyMarks reports whether most rows have a mark in a column.
func (s *sheet) mostlyMarks(rows []Row, column int) bool {
	n := 0
	for _, row := range rows {
		if s.plainly(row.Cell(column)) {
			n++
		}
	}
	return n > 0 && 2*n >= len(rows)
}

// numbersLines reports whether a column numbers the figures that another one names:
// each of its cells is the number of its row's line.
func (s *sheet) numbersLines(rows []Row, column int) bool {
	n := 0
	for _, row := range rows {
		cell := row.Cell(column)
		if cell.Kind == Empty {
			continue
		}
		own, numbered := lineOf(cell)
		if line, named := s.lineOf(row.Cell(s.layout.figure)); !numbered || !named || own.Kind != line.Kind || own.Figure != line.Figure {
			return false
		}
		n++
	}
	return n >= 3
}

// seat is a heading that numbers a judge: 3, Judge 3, Richter Nr. 3.
var seat = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(?:\pL[\pL. -]*)?[ #]*(\d{1,2})\.?$`) })

// seatOf is the number of a seat.
func seatOf(c Cell) (int, bool) {
	if c.Kind != Text && c.Kind != Number {
		return 0, false
	}
	parts := seat().FindStringSubmatch(plain(c.Text))
	if parts == nil {
		return 0, false
	}
	n, err := strconv.Atoi(parts[1])
	return n, err == nil
}

// nameMarkColumns names columns of marks by their headings: seats from 1 on, or
// where nobody knows the judges the names that stand there.
func (s *sheet) nameMarkColumns(columns []judgeColumn) bool {
	if len(columns) == 0 {
		return false
	}
	columns = s.seatsAmong(columns)
	numbers := s.seatNumbers(columns)
	if numbers == nil || s.o.Panel == nil && slices.Max(numbers) > len(columns) {
		return s.o.Panel == nil && s.nameByHeadings(columns)
	}
	s.layout.judges, s.seats = columns, s.o.Panel != nil
	order := slices.Sorted(slices.Values(numbers))
	for i, n := range numbers {
		if at := slices.Index(order, n); !s.seats {
			columns[i].name = "J" + strconv.Itoa(n)
		} else if at < len(s.o.Panel) {
			columns[i].name = s.o.Panel[at]
		}
	}
	return true
}

// seatNumbers are the numbers of the seats that head columns, nil where a heading has none
// or one comes twice.
func (s *sheet) seatNumbers(columns []judgeColumn) (numbers []int) {
	for _, j := range columns {
		n, ok := seatOf(s.headingRow().Cell(j.column))
		if !ok || n < 1 || slices.Contains(numbers, n) {
			return nil
		}
		numbers = append(numbers, n)
	}
	return numbers
}

// seatsAmong are the columns that number the seats, from 1 on where there is no panel,
// where at least two do: what else looks like marks, a mean of them say, is none of them.
func (s *sheet) seatsAmong(columns []judgeColumn) []judgeColumn {
	row, numbers, from := s.headingRow(), map[int]bool{}, 1
	var seats []judgeColumn
	for _, j := range columns {
		if n, ok := seatOf(row.Cell(j.column)); ok && !numbers[n] {
			numbers[n] = true
			seats = append(seats, j)
		}
	}
	if s.o.Panel != nil && len(seats) > 0 {
		from = slices.Min(slices.Collect(maps.Keys(numbers)))
	}
	for n := range len(seats) {
		if !numbers[n+from] {
			return columns
		}
	}
	if len(seats) < 2 {
		return columns
	}
	return seats
}

func (s *sheet) nameByHeadings(columns []judgeColumn) bool {
	row := s.headingRow()
	s.layout.judges = nil
	for _, j := range columns {
		if name, ok := s.o.judgeNamed(row.Cell(j.column).Text); ok {
			s.layout.judges = append(s.layout.judges, judgeColumn{j.column, name})
		}
	}
	return len(s.layout.judges) > 0
}

// takeSeats settles who sat where: in the order of the panel, which is said, so that
// a wrong order can be seen.
func (s *sheet) takeSeats() bool {
	row, n := s.headingRow(), len(s.layout.judges)
	first, numbers := s.layout.judges[0].column, s.seatNumbers(s.layout.judges)
	switch {
	case s.o.PanelOf != "" && (n != len(s.o.Panel) || slices.Max(numbers) > n):
		s.problem(first, row.Number, "give the judges in the order of the seats: --panel \"JUDGE1 JUDGE2 ...\"", "the headings number %s, from %s on, and the panel of %s has %s (%s)",
			display.Counted(n, "seat", "seats"), described(row.Cell(first)), s.o.PanelOf, display.Counted(len(s.o.Panel), "judge", "judges"), listed(s.o.Panel))
		return false
	case n != len(s.o.Panel):
		s.problem(first, row.Number, "give the judges in the order of the seats with --panel", "%s of seats for a panel of %d (%s)", display.Counted(n, "column", "columns"), len(s.o.Panel), listed(s.o.Panel))
		return false
	}
	var order []string
	inOrder := true
	for i, j := range s.layout.judges {
		order = append(order, bare(s.columnName(j.column))+" "+j.name)
		inOrder = inOrder && j.name == s.o.Panel[i]
	}
	if s.o.PanelOf != "" {
		said := strings.Join(s.o.Panel, " ")
		if !inOrder {
			said = listed(order)
		}
		s.note("", "judges as the panel of %s: %s; --panel gives another order", s.o.PanelOf, said)
		return true
	}
	s.note("", "the seats are in the order of the panel: %s", listed(order))
	return true
}

// longByContents finds a row a mark by what the columns hold: one names judges of
// the panel in most rows, one figures that come again and again, one marks.
func (s *sheet) longByContents() bool {
	if s.o.Panel == nil {
		return false
	}
	judge, most := 0, 0
	for column := 1; column <= min(s.width(), widest); column++ {
		if n, names := s.countJudges(column); names >= min(2, len(s.o.Panel)) && n > most {
			judge, most = column, n
		}
	}
	figure := s.guessed()
	if judge == 0 || figure == 0 || figure == judge || most < 2*s.countLines(0, figure) {
		return false
	}
	first := slices.IndexFunc(s.Rows, func(r Row) bool { return s.begins(r.Cell(figure)) && r.Cell(judge).Kind != Empty })
	if first < 0 {
		return false // the judges stand beside no figure
	}
	s.layout = layout{headings: first - 1, first: first, figure: figure, judge: judge, mark: -1}
	s.layout.left, _ = columnFinder{s.width(), s.headingRow(), false}.spans(s.o.Columns.Leave)
	s.kByContents()
	marks := s.markColumns(false)
	if len(marks) != 1 {
		return false
	}
	s.layout.mark = marks[0].column
	return true
}

// countJudges counts the cells of a column that name a judge of the panel, and
// how many judges they name.
func (s *sheet) countJudges(column int) (cells, judges int) {
	seen := map[string]bool{}
	for _, row := range s.Rows {
		c := row.Cell(column)
		if name, ok := onPanel(s.o.Panel, c.Text); ok && c.Kind != Empty {
			seen[name] = true
			cells++
		}
	}
	return cells, len(seen)
}

// loneColumn finds the column of marks on the sheet of one judge.
func (s *sheet) loneColumn() bool {
	figure := s.guessed()
	if figure == 0 || s.countLines(0, figure) < min(2, len(s.o.Lines)) {
		return false
	}
	first := slices.IndexFunc(s.Rows, func(r Row) bool { return s.begins(r.Cell(figure)) })
	s.layout = layout{headings: first - 1, first: first, figure: figure}
	s.layout.extras(s.headingRow())
	s.layout.left, _ = columnFinder{s.width(), s.headingRow(), false}.spans(s.o.Columns.Leave)
	s.kByContents()
	s.layout.judges = s.markColumns(false)
	return len(s.layout.judges) > 0 && s.figures() > 0
}
