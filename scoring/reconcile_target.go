package scoring

import "math/big"

// target is what points are held against: the printed total, or the printed percent of
// a maximum.
type target struct {
	printed Decimal
	percent bool
}

// targetOf tells a printed percent from printed points.
func targetOf(score Score, printed Printed) target {
	percent := printed.Maximum != nil && IsPercent(*printed.Maximum) && score.Maximum > 0 && score.Maximum != 100
	return target{printed: printed.Points, percent: percent}
}

// value is what is printed of points out of a maximum, before it is rounded.
func (t target) value(points *big.Rat, maximum int) *big.Rat {
	if !t.percent || maximum == 0 {
		return points
	}
	return new(big.Rat).Mul(points, big.NewRat(100, int64(maximum)))
}

// pointsOf are the points out of a maximum of which a value is printed.
func (t target) pointsOf(value *big.Rat, maximum int) *big.Rat {
	if !t.percent {
		return value
	}
	return new(big.Rat).Mul(value, big.NewRat(int64(maximum), 100))
}

// gives reports whether points out of a maximum are printed so.
func (t target) gives(points *big.Rat, maximum int) bool {
	return Agrees(t.value(points, maximum), t.printed)
}

// bounds are the points out of a maximum between which the printed value may have been
// rounded.
func (t target) bounds(maximum int) (from, to *big.Rat) {
	half := big.NewRat(1, 2*pow10(t.printed.Places))
	from, to = new(big.Rat).Sub(t.printed.Rat(), half), half.Add(half, t.printed.Rat())
	return t.pointsOf(from, maximum), t.pointsOf(to, maximum)
}
