package sheetimport

import (
	"slices"
	"strings"

	"boxbook/report/display"
)

// layOutByColumns uses the columns that a person gave.
func (s *sheet) layOutByColumns() bool {
	width := s.width()
	l, what := columnFinder{width: width, turned: s.isTurned}.all(s.o.Columns)
	for i := 0; what != "" && i < min(headingRows, len(s.Rows)); i++ {
		if found, missing := (columnFinder{width, s.Rows[i], s.isTurned}).all(s.o.Columns); missing == "" {
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
		s.problemOf("", "%s has no figure of %s", s.columnName(l.figure), s.o.Sequence)
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
	if at := slices.IndexFunc(headings.Cells, headsK); at >= 0 && l.k == 0 && free(headings.Cells[at].Column) {
		l.k = headings.Cells[at].Column
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

// begins reports whether a cell of the figure column is a line of the sequence,
// by its number or its label.
func (s *sheet) begins(c Cell) bool {
	line, ok := s.lineOf(c)
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
	case s.o.inBook && len(s.o.Panel) == 1 && len(s.layout.judges) == 1:
		s.layout.judges[0].name = s.o.Panel[0] // whose worksheet it is
	case s.o.Panel == nil:
		s.problemOf("name them with --panel, in the order of the columns", "no heading names the judges")
		return false
	case len(s.layout.judges) != len(s.o.Panel):
		s.problemOf("", "%s for a panel of %d (%s)", display.Counted(len(s.layout.judges), "column of marks", "columns of marks"), len(s.o.Panel), listed(s.o.Panel))
		return false
	default:
		names := s.ownNames(headings)
		if names != nil && s.o.PanelOf != "" {
			s.problem(s.layout.judges[0].column, headings.Number,
				"name the judges in the order of these: --panel \""+strings.TrimSpace(strings.Repeat("NAME ", len(names)))+"\", or write the panel's names at the heads",
				"the heads name others than the panel (%s): %s", listed(s.o.Panel), listed(names))
			return false
		}
		var order []string
		for i, name := range s.o.Panel {
			s.layout.judges[i].name = name
			head := bare(s.columnName(s.layout.judges[i].column))
			if names != nil {
				head += " " + quoted(names[i])
			}
			order = append(order, head+" "+name)
		}
		said := "no heading names the judges, so the columns are in the order of the panel: %s"
		if names != nil {
			said = "the columns are in the order of --panel, which the heads do not name: %s"
		}
		s.note("", said, listed(order))
	}
	return s.setJudges(s.layout.judges)
}
