package sheetimport

import (
	"math"
	"slices"
)

// otherPoints reports a column headed as points that is no K x mean: the points by the
// rules where those have it, else it is asked about. It reports false where nothing in it can
// be compared with the marks.
func (s *sheet) otherPoints(c unread) bool {
	column := c.cell.Column
	if slices.ContainsFunc(s.blockRows(), func(r Row) bool {
		_, _, ok := number(r.Cell(column))
		return !ok && r.Cell(column).Kind != Empty
	}) {
		return false
	}
	var agrees, differs bool
	for _, w := range s.workings() {
		f, _ := s.fits(column, w)
		agrees, differs = agrees || f.agree > 0 && len(f.wrong) == 0, differs || len(f.wrong) > 0
	}
	if s.pointsByRules(column) {
		s.derived[column] = working{name: pointsOfAll, judge: -1}
		return true
	}
	if agrees || !differs {
		return false
	}
	hint := "where it is none: " + s.leaving(s.leavable(column))
	if s.o.Panel == nil && s.mostlyMarks(s.blockRows(), column) {
		with := s.asGiven()
		judges := append(slices.Clone(s.layout.judges), judgeColumn{column: column})
		slices.SortFunc(judges, func(a, b judgeColumn) int { return a.column - b.column })
		with.Judges = s.columnSpans(judges)
		hint = "where it is a judge's: --columns " + with.flag() + "; " + hint
	}
	s.problem(column, c.row, hint, "%s, %s, is headed as points, and the marks do not come to them: a judge's marks, or points worked out otherwise?", s.columnName(column), described(c.cell))
	return true
}

// pointsByRules reports whether a column has the points of the lines as the rules of the
// contest have them, extremes dropped, say.
func (s *sheet) pointsByRules(column int) bool {
	score, ok := s.score()
	if !ok {
		return false
	}
	at, line := map[int]int{}, 0 // of each line its place among those that are there
	for i, row := range s.out.Rows {
		if row != nil {
			at[i] = line
			line++
		}
	}
	agree, unit := 0, s.shownUnit(column)
	for _, r := range s.block.rows {
		value, _, ok := number(s.Rows[r.at].Cell(column))
		place, there := at[r.line]
		if !ok || !there || score.Lines[place].Points == nil {
			continue
		}
		if points, _ := score.Lines[place].Points.Float64(); math.Abs(value-points) > unit {
			return false
		}
		agree++
	}
	return agree >= 2
}
