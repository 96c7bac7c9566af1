package answers

import (
	"cmp"
	"math"
	"slices"

	"boxbook/report"
)

// backWithin is how near to what the rest of the panel suggests a lone grade must come
// to be back among them, in grades.
const backWithin = 1.0

// aloneBy is how far beyond all the others of its row a grade stands alone there, in
// grades, where leastOthers others were given: enough to look at it first, and not to
// flag it.
const (
	aloneBy     = 1.5
	leastOthers = 3
)

// Alone are the grades that stand alone: those that are flagged, and those that do in
// their row.
func (d Flight) Alone() []Flag {
	alone := slices.Clone(d.Flags)
	for _, figure := range d.Figures {
		if len(figure.Rows) > 0 {
			continue
		}
		for _, j := range aloneInRow(figure) {
			alone = append(alone, Flag{Figure: figure.Number, Judge: d.Judges[j].Name, Mark: figure.Marks[j], Fitted: othersMean(figure, j)})
		}
	}
	return alone
}

// aloneInRow are the judges, by their place, whose grade lies far beyond all the others
// of its row: the lowest or the highest.
func aloneInRow(figure Figure) []int {
	var graded []int
	for j, cell := range figure.Cells {
		if cell.Grade.Known() {
			graded = append(graded, j)
		}
	}
	if len(graded) <= leastOthers {
		return nil
	}
	grade := func(at int) float64 { return figure.Cells[graded[at]].Grade.Float64() }
	slices.SortStableFunc(graded, func(a, b int) int {
		return cmp.Compare(figure.Cells[a].Grade.Float64(), figure.Cells[b].Grade.Float64())
	})
	var alone []int
	last := len(graded) - 1
	if grade(0) <= grade(1)-aloneBy {
		alone = append(alone, graded[0])
	}
	if grade(last) >= grade(last-1)+aloneBy {
		alone = append(alone, graded[last])
	}
	slices.Sort(alone)
	return alone
}

// othersMean is the mean grade of a row without one judge's.
func othersMean(figure Figure, judge int) report.Number {
	sum, others := 0.0, 0
	for j, cell := range figure.Cells {
		if j != judge && cell.Grade.Known() {
			sum, others = sum+cell.Grade.Float64(), others+1
		}
	}
	return report.Float(sum / float64(others))
}

// loneFirst puts the explanations that bring a lone grade back to its panel first: of
// single misread marks as likely as the first, by whatever step, and of the others
// among those that fit as well as the first.
func loneFirst(said []Explanation, flags []Flag) {
	slices.SortStableFunc(said[:marksFirst(said)], func(a, b Explanation) int {
		back, other := a.BroughtBack(flags) != "", b.BroughtBack(flags) != ""
		switch {
		case back == other:
			return 0
		case back:
			return -1
		default:
			return 1
		}
	})
}

// marksFirst counts the single misread marks that stand first, as likely one as the
// other; where others do, those that fit as well as the first.
func marksFirst(all []Explanation) int {
	n := 0
	for n < len(all) && all[n].Kind == ExplainedByMark && all[n].Unlikely == all[0].Unlikely && all[n].Contradicts == all[0].Contradicts {
		n++
	}
	return max(n, alikeFirst(all))
}

// Alike counts the explanations that fit as well as the first, which it counts too: of
// one kind, by as large a slip.
func (o *Official) Alike() int { return alikeFirst(o.Explanations) }

func alikeFirst(all []Explanation) int {
	n := 0
	for n < len(all) && fitsAlike(all[0], all[n]) {
		n++
	}
	return n
}

// fitsAlike reports whether two explanations are of one kind and take as large a
// slip.
func fitsAlike(a, b Explanation) bool {
	if a.Kind != b.Kind || a.Unlikely != b.Unlikely || a.Contradicts != b.Contradicts {
		return false
	}
	switch a.Kind {
	case ExplainedByMark:
		return a.Step == b.Step || a.Step == -b.Step
	case ExplainedByRows:
		return a.AllSheets == b.AllSheets
	case ExplainedByK:
		return a.K-a.WasK == b.K-b.WasK || a.K-a.WasK == b.WasK-b.K
	default:
		return a.Kind == ExplainedBySwapK || a.Kind == ExplainedByMarks || a.Kind == ExplainedByJudge || a.Kind == ExplainedByZero || a.Kind == ExplainedByFigure
	}
}

// BroughtBack names the judge whose lone grade one misread mark would bring back to
// the panel; "" where it brings none back.
func (e Explanation) BroughtBack(flags []Flag) string {
	if e.Kind != ExplainedByMark || e.Figure == 0 {
		return ""
	}
	for _, cell := range e.Cells {
		for _, flag := range flags {
			if cell.Judge == flag.Judge && cell.Figure == flag.Figure && cell.WouldGrade.Known() &&
				math.Abs(cell.WouldGrade.Float64()-flag.Fitted.Float64()) <= backWithin {
				return cell.Judge
			}
		}
	}
	return ""
}
