package stats

import (
	"fmt"
	"math"
	"slices"
)

// Series is one stratum of dated values: X (say, days) and Y, the same length,
// in any order.
type Series struct {
	X, Y []float64
}

// Slope is the result of [TheilSen] and [GilbertInterval].
type Slope struct {
	// Slope is the median slope, in units of Y for one unit of X.
	Slope float64
	// Interval lies around it with the probability Confidence, which is what the
	// interval achieves and seldom what was asked for.
	Interval   Interval
	Confidence float64
	// Pairs counts the slopes used; Dropped the pairs within a stratum at the
	// same X, which have no slope.
	Pairs, Dropped int
	// LowRank and HighRank are the places of the interval's ends among the
	// sorted slopes, from 1; whole numbers unless the interval is interpolated.
	LowRank, HighRank float64
	// Exact is false when the interval rests on the normal approximation.
	Exact bool
}

// rankSlack forgives the last digits when a tail is compared with (1-c)/2.
const rankSlack = 1e-12

// TheilSen estimates the size of a trend over pairs within strata.
//
//	slope = median of (y_j - y_i)/(x_j - x_i)
//
// The interval with the confidence asked for, 0 < c <= 0.999999, comes from the
// exact null of S without ties: with N pairs, k the smallest value with
// P(S >= k) <= (1-c)/2 and C = k-2, it runs from the slope of rank (N-C)/2 to
// that of rank N+1-(N-C)/2. If even the largest S is not rare enough it is the
// whole range of slopes. The confidence stated is 1 - 2 P(S >= k): with the
// whole range 66.7 % for three points, 91.7 % for four, 98.3 % for five.
//
// Pairs at the same X are dropped, each end moves out by half of them, rounded
// up, and the confidence stated for the ranks then used is that of the exact
// null with those X tied. Above [ExactPoints] points the interval is
// [GilbertInterval]'s.
//
// It fails with ErrTooFew when no stratum has two points, ErrNoSpread when all X
// within every stratum are equal, ErrShape for different lengths, and ErrRange
// for a confidence, a value or a slope out of range. With all Y equal the slope
// and both ends are 0.
//
// Sen 1968 and Hollander and Wolfe [memory] for estimate and interval; the
// estimate [published: sen-suites, Theil-Sen]; strata and the tied X [derived].
func TheilSen(confidence float64, strata ...Series) (Slope, error) {
	return ClusteredTheilSen(1, confidence, strata...)
}

// ClusteredTheilSen is [TheilSen] for values that are alike within clusters: the
// interval is that of [ClusteredMannKendall] with the design effect given, at
// least 1; the slope is the same. It fails as TheilSen does, and with ErrRange
// for a design effect below 1. [derived].
func ClusteredTheilSen(designEffect, confidence float64, strata ...Series) (Slope, error) {
	if err := checkDesignEffect(designEffect); err != nil {
		return Slope{}, err
	}
	slopes, shape, err := pairSlopes(confidence, strata)
	if err != nil {
		return Slope{}, err
	}
	shape.spread = math.Sqrt(designEffect)
	if shape.points > ExactPoints {
		return gilbert(designEffect, confidence, strata, slopes, shape), nil
	}
	low, achieved := shape.exactRank(confidence)
	high := slopes.count() + 1 - low
	return Slope{
		Slope:      medianSlope(slopes),
		Interval:   Interval{slopes.at(low), slopes.at(high)},
		Confidence: achieved,
		Pairs:      slopes.count(),
		Dropped:    shape.dropped,
		LowRank:    float64(low),
		HighRank:   float64(high),
		Exact:      true,
	}, nil
}

// GilbertInterval is the slope of [ClusteredTheilSen] with the large-sample
// interval: with C = z sqrt(d Var S), Var S corrected for ties in Y and d the
// design effect, and N slopes, it runs between the ranks (N-C)/2 and (N+C)/2 + 1,
// interpolated and kept within 1..N. The confidence stated is the one asked for.
// It fails as ClusteredTheilSen does.
//
// Gilbert 1987 [memory]; its numbers [published: epa-2009, p. 17-33, example 17-6]
// [derived: envstats, kendallTrendTest].
func GilbertInterval(designEffect, confidence float64, strata ...Series) (Slope, error) {
	if err := checkDesignEffect(designEffect); err != nil {
		return Slope{}, err
	}
	slopes, shape, err := pairSlopes(confidence, strata)
	if err != nil {
		return Slope{}, err
	}
	return gilbert(designEffect, confidence, strata, slopes, shape), nil
}

// gilbert is [GilbertInterval] over slopes that are known.
func gilbert(designEffect, confidence float64, strata []Series, slopes slopeRanks, shape slopeShape) Slope {
	variance := 0.0
	for _, s := range strata {
		v := varianceTerm(len(s.Y))
		for _, t := range tieSizes(s.Y) {
			v -= varianceTerm(t)
		}
		variance += v / 18
	}
	n := float64(slopes.count())
	c := -normalQuantile((1-confidence)/2) * math.Sqrt(math.Max(0, designEffect*variance))
	low := math.Max(1, (n-c)/2)
	high := math.Min(n, (n+c)/2+1)
	return Slope{
		Slope:      medianSlope(slopes),
		Interval:   Interval{slopeAt(slopes, low), slopeAt(slopes, high)},
		Confidence: confidence,
		Pairs:      slopes.count(),
		Dropped:    shape.dropped,
		LowRank:    low,
		HighRank:   high,
	}
}

// slopeShape is what the interval needs to know of the strata besides slopes.
type slopeShape struct {
	points, pairs, dropped int
	// sizes and tiedX are the strata's points: as if no X were equal, and in
	// groups of equal X.
	sizes, tiedX [][]int
	// spread is that of [kendallNull].
	spread float64
}

// pairSlopes are the slopes of all pairs within strata.
func pairSlopes(confidence float64, strata []Series) (slopeRanks, slopeShape, error) {
	shape := slopeShape{spread: 1}
	if err := checkConfidence(confidence); err != nil {
		return nil, shape, err
	}
	for _, s := range strata {
		if err := checkSameLength(len(s.X), len(s.Y)); err != nil {
			return nil, shape, err
		}
		if err := checkValues(s.X, s.Y); err != nil {
			return nil, shape, err
		}
		if len(s.X) < 2 {
			continue
		}
		shape.points += len(s.X)
		shape.pairs += pairCount(len(s.X))
		shape.sizes = append(shape.sizes, singles(len(s.X)))
		shape.tiedX = append(shape.tiedX, tieSizes(s.X))
		for _, t := range tieSizes(s.X) {
			shape.dropped += pairCount(t)
		}
	}
	switch {
	case shape.pairs == 0:
		return nil, shape, tooFew(1, 2)
	case shape.pairs == shape.dropped:
		return nil, shape, fmt.Errorf("%w: no two points of a stratum at different x", ErrNoSpread)
	case shape.pairs > manyPairs:
		counted := newCountedSlopes(strata, shape.pairs-shape.dropped)
		return counted, shape, checkValues([]float64{counted.most})
	}
	slopes, err := listSlopes(strata)
	return slopes, shape, err
}

// listSlopes lists and sorts them.
func listSlopes(strata []Series) (listedSlopes, error) {
	var slopes []float64
	for _, s := range strata {
		slopes = appendSlopes(slopes, s)
	}
	if err := checkValues(slopes); err != nil {
		return nil, err
	}
	slices.Sort(slopes)
	return slopes, nil
}

func appendSlopes(slopes []float64, s Series) []float64 {
	for j := range s.X {
		for i := range j {
			if dx := s.X[j] - s.X[i]; dx != 0 {
				slopes = append(slopes, (s.Y[j]-s.Y[i])/dx)
			}
		}
	}
	return slopes
}

// exactRank gives the lower rank of the interval and the confidence it achieves.
func (s slopeShape) exactRank(confidence float64) (low int, achieved float64) {
	null := newKendallNull(s.sizes)
	null.spread = s.spread
	tail := (1-confidence)/2 + rankSlack
	low = 1
	if null.upper(s.pairs) <= tail {
		k := s.pairs
		for k-2 >= 0 && null.upper(k-2) <= tail {
			k -= 2
		}
		low = (s.pairs-(k-2))/2 - (s.dropped+1)/2
		low = max(low, 1)
	}
	// The interval of ranks low..N+1-low is left when S reaches N - 2 low + 2.
	kept := s.pairs - s.dropped
	tied := null
	if s.dropped > 0 {
		tied = newKendallNull(s.tiedX)
		tied.spread = s.spread
	}
	return low, math.Max(0, 1-2*tied.upper(kept-2*low+2))
}
