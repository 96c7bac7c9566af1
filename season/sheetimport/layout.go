package sheetimport

import (
	"slices"
	"strings"

	"boxbook/report/display"
)

// layOutByColumns uses the columns that a person gave.
func (s *sheet) layOutByColumns() bool {
	width := s.width()
	l, what := columnFinder{width: width}.all(s.o.Columns)
	for i := 0; what != "" && i < min(headingRows, len(s.Rows)); i++ {
		if found, missing := (columnFinder{width, s.Rows[i]}).all(s.o.Columns); missing == "" {
			l, what = found, ""
			l.first = i + 1
		}
	}
	if what != "" {
		s.noColumn(what)
		return false
	}
	for l.first < len(s.Rows) && !s.begins(s.Rows[l.first].Cell(l.figure)) {
		l.first++
	}
	if l.first == len(s.Rows) {
		s.problemOf("", "column %s has no figure of %s", ColumnName(l.figure), s.o.Sequence)
		return false
	}
	if l.headings = l.first - 1; l.headings >= 0 {
		l.extras(s.Rows[l.headings])
	}
	s.layout = l
	if l.long() {
		return s.setJudges(nil)
	}
	return s.nameJudges()
}

// noColumn reports a column that was given and is not there.
func (s *sheet) noColumn(what string) {
	s.problemOf("", "no column %s: it is neither a heading nor letters from A to %s", quoted(what), ColumnName(max(s.width(), 1)))
}

// extras finds the columns that are read beside the marks, by their headings.
func (l *layout) extras(headings Row) {
	free := func(column int) bool { return !l.marks(column) && !slices.Contains(l.left, column) }
	if k := heading(headings, kHeadings); free(k) {
		l.k = k
	}
	if flight := heading(headings, flightHeadings); l.long() && free(flight) {
		l.flight = flight // a row a figure is one flight's
	}
}

// marks reports whether a column holds marks, or says whose they are.
func (l *layout) marks(column int) bool {
	return column == l.figure || column == l.judge || column == l.mark ||
		slices.ContainsFunc(l.judges, func(j judgeColumn) bool { return j.column == column })
}

// begins reports whether a cell of the figure column is a line of the sequence.
func (s *sheet) begins(c Cell) bool {
	line, ok := lineOf(c)
	return ok && s.index(line) >= 0
}

// nameJudges names the columns that were given: by their headings, or in the
// panel's order where the headings name nobody.
func (s *sheet) nameJudges() bool {
	var headings Row
	if s.layout.headings >= 0 {
		headings = s.Rows[s.layout.headings]
	}
	named := 0
	for i, j := range s.layout.judges {
		cell := headings.Cell(j.column)
		name, ok := s.judge(cell.Text)
		if ok {
			s.layout.judges[i].name = name
			named++
		}
	}
	switch {
	case named > 0:
		for _, j := range s.layout.judges {
			if j.name == "" {
				s.stranger(headings.Cell(j.column), headings.Number)
			}
		}
	case s.o.Panel == nil:
		s.problemOf("name them with --panel, in the order of the columns", "no heading names the judges")
		return false
	case len(s.layout.judges) != len(s.o.Panel):
		s.problemOf("", "%s for a panel of %d (%s)", display.Counted(len(s.layout.judges), "column of marks", "columns of marks"), len(s.o.Panel), listed(s.o.Panel))
		return false
	default:
		var order []string
		for i, name := range s.o.Panel {
			s.layout.judges[i].name = name
			order = append(order, ColumnName(s.layout.judges[i].column)+" "+name)
		}
		s.note("", "no heading names the judges, so the columns are in the order of the panel: %s", listed(order))
	}
	return s.setJudges(s.layout.judges)
}

// judge names the judge that a text means: one of the panel, or where there is
// no panel yet whoever it names.
func (s *sheet) judge(text string) (string, bool) {
	if s.o.Panel != nil {
		return onPanel(s.o.Panel, text)
	}
	if name, ok := onPanel(s.out.Panel, text); ok {
		return name, true
	}
	return judgeNamed(text)
}

// stranger reports a judge who is not on the panel.
func (s *sheet) stranger(c Cell, row int) {
	if s.o.Panel == nil || c.Kind == Empty {
		s.problem(c.Column, row, "", "%s names no judge", described(c))
		return
	}
	s.problem(c.Column, row, "another panel is given with --panel", "judge %s is not on the panel (%s)", described(c), listed(s.o.Panel))
}

// layOutByHeadings looks for the row of headings.
func (s *sheet) layOutByHeadings() bool {
	for i := range min(headingRows, len(s.Rows)) {
		left, missing := columnFinder{s.width(), s.Rows[i]}.spans(s.o.Columns.Leave)
		found := s.longHeadings(i, left) || s.wideHeadings(i, left)
		if found && missing != "" {
			s.noColumn(missing)
			return false
		}
		if found && s.layout.long() {
			return s.setJudges(nil)
		}
		if found {
			s.otherJudges()
			return s.setJudges(s.layout.judges)
		}
	}
	for _, row := range s.Rows[:min(headingRows, len(s.Rows))] {
		for _, c := range row.Cells {
			if says(c, figureHeadings) && len(row.Cells) > 1 {
				s.problem(c.Column, row.Number, "give the columns: --columns figure=A,judges=C-G", "these headings name no judge%s", ofPanel(s.o.Panel))
				return false
			}
		}
	}
	s.problemOf("give the columns: --columns figure=A,judges=C-G", "no row of headings: none names a column of figures and judges%s", ofPanel(s.o.Panel))
	return false
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
		headings: i, first: i + 1, figure: heading(row, figureHeadings), judge: heading(row, judgeHeadings),
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
// stand there, the figures' column may have no heading.
func (s *sheet) wideHeadings(i int, left []int) bool {
	row := s.Rows[i]
	l := layout{headings: i, first: i + 1, figure: heading(row, figureHeadings), left: left}
	beneath := s.figuresBeneath(i, l.figure)
	for _, c := range row.Cells[:min(widest, len(row.Cells))] {
		if c.Column == l.figure || c.Kind == Failure || c.Kind == Unsolved || slices.Contains(left, c.Column) {
			continue
		}
		name, ok := s.judge(c.Text)
		if ok && (s.o.Panel != nil || likeMarks(beneath, c.Column)) {
			l.judges = append(l.judges, judgeColumn{c.Column, name})
		}
	}
	if l.figure == 0 && s.o.Panel != nil && len(l.judges) > 1 {
		l.figure = s.figuresLeftOf(i, l.judges[0].column)
	}
	if l.figure == 0 || len(l.judges) == 0 {
		return false
	}
	l.extras(row)
	s.layout = l
	return true
}

// figuresLeftOf finds the first column before another one that has a figure
// beneath row i.
func (s *sheet) figuresLeftOf(i, column int) int {
	for _, row := range s.Rows[i+1 : min(len(s.Rows), i+1+headingRows)] {
		for _, c := range row.Cells {
			if c.Column < column && s.begins(c) {
				return c.Column
			}
		}
	}
	return 0
}

// otherJudges reports the columns that look like a judge's and are none of the
// panel's: to leave one out would lose marks.
func (s *sheet) otherJudges() {
	if s.o.Panel == nil {
		return
	}
	row := s.Rows[s.layout.headings]
	beneath := s.figuresBeneath(s.layout.headings, s.layout.figure)
	for _, c := range row.Cells[:min(widest, len(row.Cells))] {
		if c.Column == s.layout.k || s.layout.marks(c.Column) || slices.Contains(s.layout.left, c.Column) {
			continue
		}
		if _, ok := judgeNamed(c.Text); ok && likeMarks(beneath, c.Column) {
			s.strangers = append(s.strangers, c.Column)
			s.stranger(c, row.Number)
		}
	}
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

// setJudges settles the panel, and reports judges twice or not at all.
func (s *sheet) setJudges(columns []judgeColumn) bool {
	s.out.Panel = slices.Clone(s.o.Panel)
	if s.layout.long() {
		return true
	}
	if len(columns) > mostJudges {
		s.problemOf("give the columns: --columns figure=A,judges=C-G", "more than %d columns of judges' marks", mostJudges)
		return false
	}
	headings := 1
	if s.layout.headings >= 0 {
		headings = s.Rows[s.layout.headings].Number
	}
	first := map[string]int{}
	for i, j := range columns {
		if j.name == "" {
			continue
		}
		if before, twice := first[j.name]; twice {
			s.problem(j.column, headings, "", "judge %s has a second column, the first is %s", j.name, ColumnName(before))
			columns[i].name = ""
			continue
		}
		first[j.name] = j.column
		if s.o.Panel == nil {
			s.out.Panel = append(s.out.Panel, j.name)
		}
	}
	for _, name := range s.o.Panel {
		if first[name] == 0 {
			s.absent(name, "column")
		}
	}
	s.tellPanel()
	return true
}

// absent reports a judge of the panel who has nothing on the sheet.
func (s *sheet) absent(name, what string) {
	var rest []string
	for _, other := range s.o.Panel {
		if other != name {
			rest = append(rest, other)
		}
	}
	s.problemOf("where the sheet is not to hand: --panel \""+strings.Join(rest, " ")+" missing "+name+"\"", "judge %s of the panel has no %s", name, what)
}

// tellPanel says that the judges are the sheet's.
func (s *sheet) tellPanel() {
	if s.o.Panel == nil && len(s.out.Panel) > 0 {
		s.note("", "the judges are those of the sheet: %s", strings.Join(s.out.Panel, " "))
	}
}
