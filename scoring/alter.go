package scoring

import "slices"

// EveryJudge stands for a judge where a mark is meant from all of them.
const EveryJudge = -1

// WithMark is the sheet with another mark on a line, from one judge of the panel
// or from EveryJudge; on a figure that was flown several times in each of its
// rows. The sheet itself stays as it is.
func (s Sheet) WithMark(line, judge int, mark Mark) Sheet {
	return s.changed(func(at int, row []Mark) []Mark {
		for j := range row {
			if at == line && (judge == EveryJudge || judge == j) {
				row[j] = mark
			}
		}
		return row
	})
}

// WithoutJudge is the sheet as a panel without that judge would have left it.
func (s Sheet) WithoutJudge(judge int) Sheet {
	out := s.changed(func(_ int, row []Mark) []Mark { return slices.Delete(row, judge, judge+1) })
	out.Judges--
	return out
}

// WithoutZeros is the sheet with every hard and perception zero taken as not
// seen, so that the other marks of the row say what it counts. A grade of 0.0 is
// a grade.
func (s Sheet) WithoutZeros() Sheet {
	return s.changed(func(_ int, row []Mark) []Mark {
		for j, m := range row {
			if m.FigureOnly() {
				row[j] = Mark{Kind: NotSeen}
			}
		}
		return row
	})
}

// WithoutPenalties is the sheet with nothing taken off.
func (s Sheet) WithoutPenalties() Sheet {
	s.Penalties = nil
	return s
}

// changed is the sheet with every row of marks as change leaves a copy of it;
// at is the row's line.
func (s Sheet) changed(change func(at int, row []Mark) []Mark) Sheet {
	s.Lines = slices.Clone(s.Lines)
	for at := range s.Lines {
		line := &s.Lines[at]
		line.Marks = change(at, slices.Clone(line.Marks))
		line.Again = slices.Clone(line.Again)
		for i, row := range line.Again {
			line.Again[i] = change(at, slices.Clone(row))
		}
	}
	return s
}
