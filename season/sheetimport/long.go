package sheetimport

import (
	"slices"
)

// readLong reads a row a mark.
func (s *sheet) readLong() {
	rows := s.Rows[min(s.layout.first, len(s.Rows)):]
	rows, ok := s.oneFlight(rows)
	if !ok {
		return
	}
	s.findTenths(s.longMarks(rows))
	at := map[[2]int]int{} // row of each line and judge
	strange := map[string]bool{}
	for _, row := range rows {
		if s.blank(row) {
			continue
		}
		if s.longTotal(row) {
			continue
		}
		i := s.lineAt(row)
		judge := s.seat(row, strange)
		if i < 0 || judge < 0 {
			continue
		}
		if before, twice := at[[2]int{i, judge}]; twice {
			s.problem(s.layout.mark, row.Number, "", "%s has a second mark from judge %s, the first is in %s", s.o.Lines[i].Name(), s.out.Panel[judge], s.rowName(before))
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

// longMarks are the cells of marks.
func (s *sheet) longMarks(rows []Row) []place {
	var cells []place
	for _, row := range rows {
		if c := row.Cell(s.layout.mark); c.Kind != Empty {
			cells = append(cells, place{c, row.Number})
		}
	}
	return cells
}

// longTotal reports a row that says that it sums up, with nobody's mark.
func (s *sheet) longTotal(row Row) bool {
	c := row.Cell(s.layout.figure)
	if c.Kind != Text || !saysTotal(c) || s.plainly(row.Cell(s.layout.mark)) {
		return false
	}
	s.skip(row)
	return true
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
			s.problem(s.layout.flight, row.Number, "", "an empty cell names no flight, though there is a mark beside it")
		}
	}
	if !slices.Contains(names, s.o.Flight) {
		for i, name := range names {
			names[i] = quoted(name)
		}
		s.problem(s.layout.flight, s.headingRow().Number, "the rows are chosen by --date, --pilot and --programme", "the sheet has several flights: %s", listed(names))
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
