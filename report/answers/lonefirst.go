package answers

import (
	"math"
	"slices"
)

// backWithin is how near to what the rest of the panel suggests a lone grade must come
// to be back among them, in grades.
const backWithin = 1.0

// loneFirst puts the explanations that bring a lone grade back to its panel first
// among those that fit as well as the first.
func loneFirst(said []Explanation, flags []Flag) {
	slices.SortStableFunc(said[:alikeFirst(said)], func(a, b Explanation) int {
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
