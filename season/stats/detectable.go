package stats

import (
	"fmt"
	"math"
	"slices"
)

// DetectableChange is the change over the span of all X, in standard deviations
// of one value about its line, that the exact two-sided test of [MannKendall] at
// alpha would be expected to show: the c at which
//
//	sum over pairs within strata of 2 Phi(c dx/(span sqrt 2)) - 1
//
// reaches the smallest S whose two-sided probability without ties is at most
// alpha. Pairs at the same X add nothing.
//
// It fails with ErrTooFew when no stratum has two points or no S is rare enough,
// ErrNoSpread when all X within the strata are equal or the pairs at different X
// are no more than the S asked for, ErrShape for different lengths, and ErrRange for
// an alpha outside 0 to 1 or values that are not finite. [derived].
func DetectableChange(alpha float64, strata ...Series) (float64, error) {
	if !(alpha > 0 && alpha < 1) {
		return 0, fmt.Errorf("%w: alpha %g", ErrRange, alpha)
	}
	if change, ok := changeOfMany(alpha, strata); ok {
		return change, nil
	}
	gaps, span, err := pairGaps(strata)
	if err != nil {
		return 0, err
	}
	critical, ok := criticalS(alpha, strata)
	if !ok {
		return 0, tooFew(len(gaps), 2)
	}
	if critical >= len(gaps) { // no finite change makes every pair certain
		return 0, ErrNoSpread
	}
	expected := func(c float64) float64 { return expectedS(gaps, span, c) }
	high := 1.0
	for expected(high) < float64(critical) {
		if high *= 2; high > mostDetectable {
			return 0, ErrNoSpread
		}
	}
	return bisect(expected, float64(critical), high), nil
}

// expectedS is the expected S under a change c over the span.
func expectedS(gaps []float64, span, c float64) float64 {
	sum := 0.0
	for _, dx := range gaps {
		sum += math.Erf(c * dx / (2 * span))
	}
	return sum
}

// mostDetectable is the change in standard deviations beyond which a test is
// said to show none: only pairs that lie next to each other are then missing.
const mostDetectable = 1e6

// bisect finds where a rising function from 0 to high reaches a value.
func bisect(of func(float64) float64, value, high float64) float64 {
	low := 0.0
	for range 200 {
		middle := (low + high) / 2
		if middle <= low || middle >= high { // nothing lies between them
			break
		}
		if of(middle) < value {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// pairGaps lists the distances in X of all pairs within strata that have one,
// and the span of the X of strata with pairs.
func pairGaps(strata []Series) (gaps []float64, span float64, err error) {
	low, high, longest := math.Inf(1), math.Inf(-1), 0
	for _, s := range strata {
		if err := checkSameLength(len(s.X), len(s.Y)); err != nil {
			return nil, 0, err
		}
		if err := checkValues(s.X, s.Y); err != nil {
			return nil, 0, err
		}
		longest = max(longest, len(s.X))
		if len(s.X) < 2 {
			continue
		}
		low, high = min(low, slices.Min(s.X)), max(high, slices.Max(s.X))
		for j, b := range s.X {
			for _, a := range s.X[:j] {
				if a != b {
					gaps = append(gaps, math.Abs(b-a))
				}
			}
		}
	}
	if longest < 2 {
		return nil, 0, tooFew(longest, 2)
	}
	if len(gaps) == 0 {
		return nil, 0, ErrNoSpread
	}
	return gaps, high - low, nil
}

// criticalS is the smallest S whose two-sided probability is at most alpha, all
// values different; false where none is.
func criticalS(alpha float64, strata []Series) (int, bool) {
	var groups [][]int
	for _, s := range strata {
		if len(s.X) > 1 {
			groups = append(groups, singles(len(s.X)))
		}
	}
	null := newKendallNull(groups)
	for s := null.untied % 2; s <= null.untied; s += 2 {
		if 2*null.upper(s) <= alpha+rankSlack {
			return s, true
		}
	}
	return 0, false
}
