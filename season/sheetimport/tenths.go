package sheetimport

import (
	"fmt"
	"slices"

	"boxbook/report/display"
	"boxbook/scoring"
)

// findTenths settles whether the sheet's grades lack their point: 85 for 8.5.
// They do where at least half of its numbers are such that nothing else could be
// meant by them, or where none has its point. A whole number to 10 is that grade, but
// for those in doubt.
func (s *sheet) findTenths(cells []place) {
	var counted scoring.Tenths
	for _, p := range cells {
		if value, decimals, ok := number(p.cell); ok {
			counted.Count(tenthsText(p.cell), value, decimals)
		}
	}
	if counted.Below > 0 {
		s.note("", "%s 05: read as 0.5", display.Counted(counted.Below, "mark is", "marks are"))
	}
	without := counted.Without
	s.tenths = without > 0 && (2*without >= counted.Numbers || counted.Points == 0)
	if !s.tenths {
		s.foldAboveTen(cells)
		return
	}
	var doubt []place
	for _, p := range cells {
		if counted.InDoubt(plain(p.cell.Text)) {
			doubt = append(doubt, p)
		}
	}
	s.tellTenths(without, doubt)
}

// isTenths reports whether a cell is a grade above 1.0 without its point.
func isTenths(c Cell) bool {
	_, ok := withoutPoint(c)
	return ok && !beginsWithZero(c)
}

// beginsWithZero reports whether a cell is a grade below 1.0 without its point, 05: it
// can be no other, whatever the others are.
func beginsWithZero(c Cell) bool {
	_, ok := withoutPoint(c)
	return ok && plain(c.Text)[0] == '0'
}

// tenthsText is the number of a cell where it may lack its point, else "".
func tenthsText(c Cell) string {
	if _, ok := withoutPoint(c); !ok {
		return ""
	}
	return plain(c.Text)
}

// withoutPoint is the grade of a cell that lacks its point.
func withoutPoint(c Cell) (scoring.Mark, bool) {
	if c.Kind != Text && c.Kind != Number {
		return scoring.Mark{}, false
	}
	return scoring.WithoutPoint(plain(c.Text))
}

// tellTenths says how the marks are read, and asks about those in doubt.
func (s *sheet) tellTenths(without int, doubt []place) {
	s.note("", "%s the point: 65 is read as 6.5", display.Counted(without, "mark lacks", "marks lack"))
	if len(doubt) == 0 {
		return
	}
	p := doubt[0]
	also := ""
	if n := len(doubt) - 1; n > 0 {
		also = fmt.Sprintf(" (and %d more such)", n)
	}
	once, plainly := scoring.EitherGrade(plain(p.cell.Text))
	for _, d := range doubt {
		s.doubtful[s.cellName(d.cell.Column, d.row)] = true
	}
	s.problem(p.cell.Column, p.row, "type "+once+" or "+plainly+" in the sheet, as text", "%s among marks without their point%s: %s or %s?", plain(p.cell.Text), also, once, plainly)
}

// foldAboveTen reports several numbers above 10 among marks that have their
// point as one.
func (s *sheet) foldAboveTen(cells []place) {
	above := slices.DeleteFunc(slices.Clone(cells), func(p place) bool { return !isTenths(p.cell) })
	if len(above) < 2 {
		return
	}
	var names []string
	for _, p := range above {
		name := s.cellName(p.cell.Column, p.row)
		names = append(names, name)
		s.doubtful[name] = true
	}
	meant, _ := withoutPoint(above[0].cell)
	s.problem(above[0].cell.Column, above[0].row, "type the point: "+meant.String()+" for "+plain(above[0].cell.Text),
		"%d marks are above 10, where others have their point: %s", len(above), listed(names))
}
