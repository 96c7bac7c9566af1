package stats

import (
	"fmt"
	"math"
	"sort"
)

// BenjaminiHochberg turns m p-values into q-values, in the order given:
//
//	q_(i) = min_{j >= i} m p_(j)/j, at most 1
//
// Calling those with q <= level keeps the expected share of false calls at the
// level. Leave out tests that could not have fired with any data: they only
// dilute the rest. No values give none. It fails with ErrRange for a p outside
// 0..1. Benjamini and Hochberg 1995 [published: bh-suites, table 1] [derived: r,
// p.adjust; statsmodels, fdr_bh].
func BenjaminiHochberg(p []float64) ([]float64, error) {
	if err := checkProbabilities(p); err != nil {
		return nil, err
	}
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return p[order[a]] < p[order[b]] })
	q := make([]float64, len(p))
	least := 1.0
	for rank := len(p); rank >= 1; rank-- {
		i := order[rank-1]
		// The ratio first: it is at least 1, so that q never rounds below p.
		least = math.Min(least, p[i]*(float64(len(p))/float64(rank)))
		q[i] = least
	}
	return q, nil
}

func checkProbabilities(p []float64) error {
	for _, v := range p {
		if !(v >= 0 && v <= 1) {
			return fmt.Errorf("%w: p = %g", ErrRange, v)
		}
	}
	return nil
}
