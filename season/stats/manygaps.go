package stats

import (
	"math"
	"slices"
)

// gapTerms are the terms of the series of erf that are summed: with arguments up
// to gapReach the next is below 1e-9 of the sum.
const (
	gapTerms = 8
	gapReach = 0.5
)

// powerSums are the sums of the odd powers 1, 3, 5 ... of all distances, in the
// unit of the span: as many points as there may be need no list of their pairs.
type powerSums [gapTerms]float64

// changeOfMany is [DetectableChange] of more pairs than are listed; false where
// they are few, or a change so large that the series does not hold. So many
// points show a small one.
func changeOfMany(alpha float64, strata []Series) (float64, bool) {
	pairs, low, high := 0, math.Inf(1), math.Inf(-1)
	for _, s := range strata {
		if checkSameLength(len(s.X), len(s.Y)) != nil || checkValues(s.X, s.Y) != nil {
			return 0, false
		}
		if len(s.X) > 1 {
			pairs += pairCount(len(s.X))
			low, high = min(low, slices.Min(s.X)), max(high, slices.Max(s.X))
		}
	}
	if pairs <= manyPairs || high <= low {
		return 0, false
	}
	critical, ok := criticalS(alpha, strata)
	sums, most := gapPowers(strata, high-low), 2*gapReach
	if !ok || sums.expected(most) < float64(critical) {
		return 0, false
	}
	return bisect(sums.expected, float64(critical), most), true
}

// expected is the expected S under a change c: the sum of erf(c dx/2), dx in the
// unit of the span, term by term.
//
//	erf(z) = 2/sqrt(pi) (z - z^3/3 + z^5/10 - z^7/42 + ...)
func (p powerSums) expected(c float64) float64 {
	sum, factorial, z := 0.0, 1.0, c/2
	power := z
	for k, of := range p {
		if k > 0 {
			factorial *= -float64(k)
			power *= z * z
		}
		sum += of * power / (factorial * float64(2*k+1))
	}
	return 2 / math.SqrtPi * sum
}

// gapPowers are the sums of the distances within strata: of x_i <= x_j in order,
// (x_j - x_i)^p is expanded into powers of x_j and the sums so far of those of x_i.
func gapPowers(strata []Series, span float64) powerSums {
	var out powerSums
	for _, s := range strata {
		if len(s.X) < 2 {
			continue
		}
		x := sorted(s.X)
		first, last := x[0], x[len(x)-1]
		half := (last - first) / 2
		if half == 0 {
			continue
		}
		var own powerSums
		var before [2 * gapTerms]float64
		for _, each := range x {
			own.addTo((each-first-half)/half, &before)
		}
		for k := range out {
			out[k] += own[k] * math.Pow(half/span, float64(2*k+1))
		}
	}
	return out
}

// addTo adds the distances of a point, from -1 to 1, to all before it, whose sums of
// powers are given, and enters it there.
func (p *powerSums) addTo(x float64, before *[2 * gapTerms]float64) {
	powers := [2 * gapTerms]float64{1}
	for i := 1; i < len(powers); i++ {
		powers[i] = powers[i-1] * x
	}
	for k := range p {
		degree, binomial, sign := 2*k+1, 1.0, 1.0
		for i := 0; i <= degree; i++ {
			p[k] += sign * binomial * powers[degree-i] * before[i]
			sign, binomial = -sign, binomial*float64(degree-i)/float64(i+1)
		}
	}
	for i := range before {
		before[i] += powers[i]
	}
}
