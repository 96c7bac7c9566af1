package sheetimport

import (
	"fmt"
	"slices"
	"strconv"

	"boxbook/report/display"
	"boxbook/scoring"
)

// findTenths settles whether the sheet's grades lack their point: 85 for 8.5.
// They do where at least half of its numbers are such that nothing else could be
// meant by them. A whole number to 10 is that grade; but where nothing else has
// its point, nobody can know of a 10 whether it is 10 or 1.0, nor of a 5.
func (s *sheet) findTenths(cells []place) {
	without, numbers, grades := 0, 0, false
	for _, p := range cells {
		value, decimals, ok := number(p.cell)
		switch {
		case !ok:
			continue
		case isTenths(p.cell):
			without++
		case decimals > 0 || value != 0 && value != 5 && value != 10:
			grades = true
		}
		numbers++
	}
	s.tenths = without > 0 && 2*without >= numbers
	if !s.tenths {
		s.foldAboveTen(cells)
		return
	}
	var doubt []place
	for _, p := range cells {
		text := plain(p.cell.Text)
		if text == "10" || text == "5" && !grades {
			doubt = append(doubt, p)
		}
	}
	s.tellTenths(without, doubt)
}

// isTenths reports whether a cell is a grade without its point.
func isTenths(c Cell) bool {
	text := plain(c.Text)
	n, err := strconv.Atoi(text)
	return (c.Kind == Text || c.Kind == Number) && isDigits(text) && err == nil && n >= 15 && n <= 100 && n%5 == 0
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
	once, plainly := "1.0", "10.0"
	if plain(p.cell.Text) == "5" {
		once, plainly = "0.5", "5.0"
	}
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
	s.problem(above[0].cell.Column, above[0].row, "type the point: "+tenthsOf(above[0].cell).String()+" for "+plain(above[0].cell.Text),
		"%d marks are above 10, where others have their point: %s", len(above), listed(names))
}

// tenthsOf is the grade that a number without its point means.
func tenthsOf(c Cell) scoring.Mark {
	n, _ := strconv.Atoi(plain(c.Text)) // as isTenths has it
	return scoring.GradeOf(n / 5)
}
