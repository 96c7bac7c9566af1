package season

import (
	"math/big"
	"slices"

	"boxbook/scoring"
)

// PercentDoubt says why a printed total may be a percent that was typed as points.
type PercentDoubt int

// Why it may be one: it is the percent that the marks make, or near it; there is no mark,
// and as points it would be hardly any.
const (
	NoPercentDoubt PercentDoubt = iota
	PercentOfMarks
	NearPercentOfMarks
	FewPoints
)

// What makes a total a likely percent [house choice]: of points that are no more than half
// of those that the marks make it lies within nearPercent of the marks' percent; where there
// is no mark, it is a usual percent that as points would be below fewPercent.
const (
	nearPercent  = 10
	usualPercent = 30
	fewPercent   = 20
)

// PercentDoubt tells whether the printed total, at most 100 and out of the sequence's
// maximum, is likelier a percent.
func (f *Flight) PercentDoubt() PercentDoubt {
	o, hundred := f.Official, scoring.Decimal{Units: 100}
	if o == nil || o.Maximum == nil || f.Void != nil || f.Programme == Practice || o.Points.Cmp(hundred) > 0 || o.Maximum.Cmp(hundred) <= 0 {
		return NoPercentDoubt
	}
	own := f.Maximum()
	if own == 0 || o.Maximum.Rat().Cmp(big.NewRat(int64(own), 1)) != 0 {
		return NoPercentDoubt
	}
	points := o.Points.Rat()
	if f.HasMarks() {
		if total := f.Total(); total.Decided() {
			return percentOf(total, o.Points)
		}
	}
	inPoints := func(total scoring.Decimal) bool { return total.Cmp(hundred) > 0 }
	if points.Cmp(big.NewRat(usualPercent, 1)) < 0 || o.Percent().Cmp(big.NewRat(fewPercent, 1)) >= 0 || slices.ContainsFunc(f.Field, inPoints) {
		return NoPercentDoubt
	}
	return FewPoints
}

// percentOf holds a printed total against the percent that marks make.
func percentOf(total scoring.Total, printed scoring.Decimal) PercentDoubt {
	points, percent := printed.Rat(), total.Percent()
	apart := new(big.Rat).Sub(percent, points)
	switch twice := new(big.Rat).Add(points, points); {
	case !printed.Positive() || twice.Cmp(total.Points()) > 0 || apart.Abs(apart).Cmp(big.NewRat(nearPercent, 1)) > 0:
		return NoPercentDoubt
	case scoring.Agrees(percent, printed):
		return PercentOfMarks
	default:
		return NearPercentOfMarks
	}
}
