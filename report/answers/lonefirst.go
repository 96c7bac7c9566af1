package answers

import (
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
		for j := range figure.Cells {
			flag, ok := aloneInRow(figure, j)
			if ok {
				flag.Judge = d.Judges[j].Name
				alone = append(alone, flag)
			}
		}
	}
	return alone
}

// aloneInRow is a judge's grade where it lies far beyond all the others of its row,
// with the mean of those.
func aloneInRow(figure Figure, judge int) (Flag, bool) {
	grade := figure.Cells[judge].Grade
	lowest, highest, sum, others := math.Inf(1), math.Inf(-1), 0.0, 0
	for j, cell := range figure.Cells {
		if j != judge && cell.Grade.Known() {
			value := cell.Grade.Float64()
			lowest, highest, sum, others = min(lowest, value), max(highest, value), sum+value, others+1
		}
	}
	if !grade.Known() || others < leastOthers || grade.Float64() > lowest-aloneBy && grade.Float64() < highest+aloneBy {
		return Flag{}, false
	}
	return Flag{Figure: figure.Number, Mark: figure.Marks[judge], Fitted: report.Float(sum / float64(others))}, true
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
		return a.Kind == ExplainedByMarks || a.Kind == ExplainedByJudge
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
