package sheetimport

import (
	"fmt"
	"slices"

	"boxbook/scoring"
)

// chosen is the sheet to read of those that have a layout: as it stands, or turned round.
// Where figures and judges are both numbers what the sheet holds settles it, or it is asked.
func chosen(found, sheets []*sheet) *sheet {
	best := found[0]
	switch {
	case len(found) == 2 && found[0].numbered() && found[1].numbered():
		settled := false
		if best, settled = settledOf(found[0], found[1]); !settled {
			found[0].askTurned(found[1])
			return found[0]
		}
	case len(found) == 2:
		best = mostNamed(found[0], found[1])
	case best.numbered() && best.headsFigures(sheets):
		sheets[0].layout = layout{}
		sheets[0].noHeadings()
		return sheets[0]
	}
	best.settle()
	return best
}

// mostNamed is the one in which more of the sequence's lines are found, the first where
// as many are.
func mostNamed(first, second *sheet) *sheet {
	if second.lines() > first.lines() {
		return second
	}
	return first
}

// numbered reports whether the judges' headings are numbers, which could be those of
// figures.
func (s *sheet) numbered() bool {
	row := s.headingRow()
	return len(s.layout.judges) > 1 && !slices.ContainsFunc(s.layout.judges, func(j judgeColumn) bool {
		line, ok := lineOf(row.Cell(j.column))
		return !ok || line.Kind != scoring.Figure
	})
}

// headsFigures reports whether what was taken for the judges' headings, turned round,
// names more of the sequence's lines than the column that was taken for the figures'.
func (s *sheet) headsFigures(sheets []*sheet) bool {
	return slices.ContainsFunc(sheets, func(other *sheet) bool {
		return other != s && other.countLines(0, s.headingRow().Number) > s.lines()
	})
}

// settledOf is that of two readings which the sheet's contents speak for, from what is
// surest on: the K of the sequence, a word for positioning or judges, all of the figures, as
// many judges as the panel has, and where no line may be missing more of them. It
// reports false where nothing does.
func settledOf(first, second *sheet) (*sheet, bool) {
	for _, speaks := range []func(*sheet) bool{
		(*sheet).hasItsK,
		(*sheet).namesPositioning,
		(*sheet).headsJudges,
		(*sheet).namesAllFigures,
		func(s *sheet) bool { return s.o.Panel != nil && len(s.layout.judges) == len(s.o.Panel) },
	} {
		switch one, other := speaks(first), speaks(second); {
		case one && !other:
			return first, true
		case other && !one:
			return second, true
		}
	}
	return mostNamed(first, second), !first.o.Partial && first.lines() != second.lines()
}

// hasItsK reports whether a column has the K of the sequence's lines.
func (s *sheet) hasItsK() bool {
	s.kByContents()
	f := s.fitsK(s.linesBeneath(), s.layout.k)
	return s.layout.k > 0 && f.agree >= 2 && f.agree >= 3*f.differ
}

// namesPositioning reports whether a weighted line stands among the figures, which no
// judge is called.
func (s *sheet) namesPositioning() bool {
	return slices.ContainsFunc(s.linesBeneath(), func(r lineRow) bool { return s.o.Lines[r.line].Kind != scoring.Figure })
}

// headsJudges reports whether a word for judges stands in the corner, above those of a sheet
// with a row a judge.
func (s *sheet) headsJudges() bool {
	return s.isTurned && says(s.headingRow().Cell(s.layout.figure), judgeHeadings)
}

// namesAllFigures reports whether every figure has a row.
func (s *sheet) namesAllFigures() bool {
	seen := map[int]bool{}
	for _, r := range s.linesBeneath() {
		if s.o.Lines[r.line].Kind == scoring.Figure {
			seen[r.line] = true
		}
	}
	return len(seen) == s.figures()
}

// askTurned asks whether the rows are figures or judges, with the flags for either.
func (s *sheet) askTurned(turned *sheet) {
	s.eitherWay = true
	row := s.headingRow()
	s.problem(s.layout.figure, max(row.Number, 1),
		fmt.Sprintf("where each row is a figure: --columns %s; where each row is a judge: --columns %s", s.asGiven().flag(), turned.asGiven().flag()),
		"the numbers in %s and in %s can both be those of the figures", s.rowName(max(row.Number, 1)), s.columnName(s.layout.figure))
}

// asGiven are the columns of a layout as they are given.
func (s *sheet) asGiven() Columns {
	c := Columns{Figure: bare(s.columnName(s.layout.figure)), Judges: s.columnSpans(s.layout.judges), Leave: s.leave}
	if s.layout.k > 0 {
		c.K = bare(s.columnName(s.layout.k))
	}
	return c
}
