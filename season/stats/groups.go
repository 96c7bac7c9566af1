package stats

import (
	"fmt"
	"math"
)

// WeightedMean is sum w x/sum w with the number of equal weights that would
// average as well, (sum w)^2/sum w^2. x and w have the same length, w > 0. ok is
// false for no values, different lengths or numbers out of range. The variance
// of the mean is that of one value divided by effective. Source: derived.
func WeightedMean(x, w []float64) (m, effective float64, ok bool) {
	if len(x) == 0 || len(x) != len(w) || checkValues(x) != nil || checkPositive(w) != nil {
		return 0, 0, false
	}
	total := 0.0
	for _, v := range w {
		total += v
	}
	for i, v := range x {
		m += v * (w[i] / total)
	}
	return m, effectiveSize(w), true
}

// PooledVariance is one variance for all groups, sum (x - group mean)^2/df with
// df = values - groups. A group's own variance is itself noise when it has fewer
// than five values; this is what [Shrink] wants, divided by each group's
// effective number. Groups of one add a mean but no spread; empty groups count
// for nothing. It fails with ErrTooFew when df < 1 and ErrRange for values out of
// range. Equal values give 0. Source: derived.
func PooledVariance(groups [][]float64) (variance float64, df int, err error) {
	if err := checkValues(groups...); err != nil {
		return 0, 0, err
	}
	squares := 0.0
	for _, g := range groups {
		if len(g) == 0 {
			continue
		}
		squares += sumSquares(g, mean(g))
		df += len(g) - 1
	}
	if df < 1 {
		return 0, 0, fmt.Errorf("%w: no group has two", ErrTooFew)
	}
	return squares / float64(df), df, nil
}

// AgainstRest compares each of k means y with the plain mean of the others:
// t = (y_i - rest)/sqrt(v_i + sum_{j != i} v_j/(k-1)^2), two-sided p on df
// degrees of freedom, those of the pooled variance in v. It fails with ErrTooFew
// for fewer than two means or df < 1, ErrShape for different lengths, ErrRange
// for values out of range or v not above 0. Source: derived.
func AgainstRest(y, v []float64, df int) ([]float64, error) {
	if err := checkMeans(y, v); err != nil {
		return nil, err
	}
	if df < 1 {
		return nil, tooFew(df, 1)
	}
	others := float64(len(y) - 1)
	p := make([]float64, len(y))
	for i := range y {
		rest, variance := 0.0, v[i]
		for j := range y {
			if j != i {
				rest += y[j] / others
				variance += v[j] / others / others
			}
		}
		p[i] = studentTwoSided((y[i]-rest)/math.Sqrt(variance), df)
	}
	return p, nil
}
