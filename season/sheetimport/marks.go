package sheetimport

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"boxbook/scoring"
)

// readWide reads a row a figure.
func (s *sheet) readWide() {
	lines := map[int]int{} // row of each line
	for _, row := range s.Rows[min(s.layout.first, len(s.Rows)):] {
		if !s.hasMarks(row) || s.passed(row) {
			continue
		}
		i := s.lineAt(row)
		if i < 0 {
			continue
		}
		if before, twice := lines[i]; twice {
			s.problem(s.layout.figure, row.Number, "", "%s has a second row, the first is row %d", s.o.Lines[i].Name(), before)
			continue
		}
		lines[i] = row.Number
		s.out.Rows[i] = make([]Entry, len(s.out.Panel))
		for _, j := range s.layout.judges {
			if at := slices.Index(s.out.Panel, j.name); at >= 0 {
				s.out.Rows[i][at] = s.entry(row, j.column, i)
			}
		}
	}
}

// hasMarks reports whether a row has anything in a judge's column, or is a
// figure of the sequence.
func (s *sheet) hasMarks(row Row) bool {
	if s.begins(row.Cell(s.layout.figure)) {
		return true
	}
	return slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool { return row.Cell(j.column).Kind != Empty })
}

// passed reports rows that are no line and mean to be none: totals, and the
// headings once more on a second page.
func (s *sheet) passed(row Row) bool {
	cell := row.Cell(s.layout.figure)
	switch {
	case cell.Kind != Text:
		return false
	case slices.Contains(totalWords, firstWord(cell)):
		s.skipped = append(s.skipped, fmt.Sprintf("%d %s", row.Number, quoted(cell.Text)))
		return true
	case s.layout.headings < 0 || !says(cell, figureHeadings):
		return false
	}
	headings := s.Rows[s.layout.headings]
	return !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool {
		return headings.Cell(j.column).Text != row.Cell(j.column).Text
	})
}

// readLong reads a row a mark.
func (s *sheet) readLong() {
	rows := s.Rows[min(s.layout.first, len(s.Rows)):]
	rows, ok := s.oneFlight(rows)
	if !ok {
		return
	}
	at := map[[2]int]int{} // row of each line and judge
	strange := map[string]bool{}
	for _, row := range rows {
		if s.blank(row) {
			continue
		}
		i := s.lineAt(row)
		judge := s.seat(row, strange)
		if i < 0 || judge < 0 {
			continue
		}
		if before, twice := at[[2]int{i, judge}]; twice {
			s.problem(s.layout.mark, row.Number, "", "%s has a second mark from judge %s, the first is in row %d", s.o.Lines[i].Name(), s.out.Panel[judge], before)
			continue
		}
		at[[2]int{i, judge}] = row.Number
		if missing := judge + 1 - len(s.out.Rows[i]); missing > 0 {
			s.out.Rows[i] = append(s.out.Rows[i], make([]Entry, missing)...)
		}
		s.out.Rows[i][judge] = s.entry(row, s.layout.mark, i)
	}
	s.tellPanel()
	s.fillLong(at)
}

// blank reports whether a row of a long sheet holds nothing that is read.
func (s *sheet) blank(row Row) bool {
	return row.Cell(s.layout.figure).Kind == Empty && row.Cell(s.layout.judge).Kind == Empty && row.Cell(s.layout.mark).Kind == Empty
}

// seat is the place on the panel of a row's judge, -1 where there is none.
func (s *sheet) seat(row Row, strange map[string]bool) int {
	cell := row.Cell(s.layout.judge)
	name, ok := "", false
	if cell.Kind == Text || cell.Kind == Number {
		name, ok = s.judge(cell.Text)
	}
	switch {
	case !ok && strange[cell.Text]:
		return -1
	case !ok:
		strange[cell.Text] = true
		cell.Column = s.layout.judge
		s.stranger(cell, row.Number)
		return -1
	}
	i := slices.Index(s.out.Panel, name)
	if i < 0 && len(s.out.Panel) < mostJudges {
		i = len(s.out.Panel)
		s.out.Panel = append(s.out.Panel, name)
	} else if i < 0 {
		s.problem(s.layout.judge, row.Number, "", "more than %d judges", mostJudges)
	}
	return i
}

// fillLong gives every row the panel's length, and reports marks that are not
// there.
func (s *sheet) fillLong(at map[[2]int]int) {
	lines := 0
	without := make([][]int, len(s.out.Panel)) // by judge, the lines without a mark
	for i, row := range s.out.Rows {
		if row == nil {
			continue
		}
		lines++
		s.out.Rows[i] = append(row, make([]Entry, len(s.out.Panel)-len(row))...)
		for j := range s.out.Panel {
			if at[[2]int{i, j}] == 0 {
				without[j] = append(without[j], i)
			}
		}
	}
	for j, missing := range without {
		if len(missing) == lines && lines > 0 {
			s.absent(s.out.Panel[j], "mark")
			continue
		}
		for _, i := range missing {
			s.problemOf("", "%s has no mark from judge %s", s.o.Lines[i].Name(), s.out.Panel[j])
		}
	}
}

// oneFlight keeps the rows of one flight where the sheet has a column of them.
func (s *sheet) oneFlight(rows []Row) ([]Row, bool) {
	if s.layout.flight == 0 {
		return rows, true
	}
	var names []string
	for _, row := range rows {
		if name := row.Cell(s.layout.flight).Text; name != "" && !slices.Contains(names, name) && len(names) < mostProblems {
			names = append(names, name)
		}
	}
	if len(names) < 2 {
		return rows, true
	}
	for _, row := range rows {
		if row.Cell(s.layout.flight).Kind == Empty && !s.blank(row) {
			s.problem(s.layout.flight, row.Number, "", "an empty cell names no flight, though a mark stands beside it")
		}
	}
	if !slices.Contains(names, s.o.Flight) {
		for i, name := range names {
			names[i] = quoted(name)
		}
		s.problem(s.layout.flight, s.Rows[s.layout.headings].Number, "the rows are chosen by --date, --pilot and --programme", "the sheet has several flights: %s", listed(names))
		return nil, false
	}
	var chosen []Row
	for _, row := range rows {
		if row.Cell(s.layout.flight).Text == s.o.Flight {
			chosen = append(chosen, row)
		}
	}
	return chosen, true
}

// entry reads one mark.
func (s *sheet) entry(row Row, column, line int) Entry {
	cell := row.Cell(column)
	if area, hidden := s.hidden(column, row.Number); hidden {
		s.problem(column, row.Number, "", "part of the merged cells %s: a mark belongs to one judge and one figure", area)
		return Entry{}
	}
	mark, problem, hint := s.mark(cell)
	if problem != "" {
		s.problem(column, row.Number, hint, "%s", problem)
		return Entry{}
	}
	if s.o.Lines[line].Kind != scoring.Figure && mark.FigureOnly() {
		s.problem(column, row.Number, "", "%s cannot stand in the %s line, which has grades, AV or -", mark, s.o.Lines[line].Name())
		return Entry{}
	}
	if cell.Formula {
		s.formulas = append(s.formulas, CellName(column, row.Number))
	}
	return Entry{mark, true}
}

// noMark says that a text is no mark.
const noMark = "%s is not a mark: a grade 0 to 10, HZ, CHZ, PZ, AV or -"

// mark reads a cell as a mark.
func (s *sheet) mark(c Cell) (mark scoring.Mark, problem, hint string) {
	switch {
	case c.Kind == Empty:
		return mark, "no mark", "type - for a mark that is not on the sheet"
	case c.Kind == Unsolved:
		return mark, "a formula without a stored value; nothing is calculated here", "save the file in a spreadsheet program, or type the mark"
	case c.Kind == Date:
		return mark, "a date, " + c.Text + ", where a mark is expected", dateHint(c.Text)
	case c.Kind == Text && dateText(c.Text):
		return mark, "a date, " + quoted(c.Text) + ", where a mark is expected", dateHint(c.Text)
	}
	text := plainMark(c.Text)
	if c.Kind == Truth || c.Kind == Failure || text == "" || strings.ContainsAny(text, "#\"") || len(strings.Fields(text)) != 1 {
		return mark, fmt.Sprintf(noMark, quoted(text)), ""
	}
	return s.o.ReadMark(text)
}

// dates are the ways in which spreadsheets write dates as text.
var dates = regexp.MustCompile(`(?i)^(?:(\d{4})-(\d\d)-(\d\d)|(\d{1,2})[./-](\d{1,2})[./-](?:\d{2}|\d{4})|(\d{1,2})[./](\d{1,2})\.|(\d{1,2})/(\d{1,2})|(\d{1,2})[. -]{1,2}([a-z]{3})[a-z]*\.?|([a-z]{3})[a-z]*[. -]{1,2}(\d{1,2}))$`)

// dateText reports whether a text is a date as spreadsheets write one.
func dateText(text string) bool { return len(text) <= 12 && dates.MatchString(text) }

// dateHint guesses the grade that became a date: 8.5 becomes the 8th of May
// where the day stands first, 8/5 the 5th of August where the month does. Half
// points leave nothing else.
func dateHint(text string) string {
	const asked = "was it %s? format the cells as text and type the marks again"
	if half, err := strconv.ParseFloat(text, 64); err == nil {
		return fmt.Sprintf(asked, strconv.FormatFloat(half, 'f', -1, 64))
	}
	day, month := dayAndMonth(text)
	switch {
	case month == 5 && day >= 1 && day <= 9:
		return fmt.Sprintf(asked, fmt.Sprintf("%d.5", day))
	case day == 5 && month >= 1 && month <= 9:
		return fmt.Sprintf(asked, fmt.Sprintf("%d.5", month))
	default:
		return ""
	}
}

// months are the first letters of month names, English and German.
var months = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}

func dayAndMonth(text string) (day, month int) {
	parts := dates.FindStringSubmatch(text)
	if parts == nil {
		return 0, 0
	}
	number := func(i int) int {
		n, err := strconv.Atoi(parts[i])
		if err != nil {
			return 0
		}
		return n
	}
	named := func(i int) int {
		return 1 + slices.Index(months, strings.NewReplacer("mai", "may", "okt", "oct", "dez", "dec").Replace(strings.ToLower(parts[i])))
	}
	switch {
	case parts[1] != "":
		return number(3), number(2)
	case parts[4] != "":
		return number(4), number(5)
	case parts[6] != "":
		return number(6), number(7)
	case parts[8] != "":
		return number(8), number(9)
	case parts[10] != "":
		return number(10), named(11)
	default:
		return number(13), named(12)
	}
}
