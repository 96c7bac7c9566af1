package stats

import "fmt"

// FisherWithin is [Fisher] of several tables a b / c d together, each by itself: the
// chance that the first cells sum to so little or less where the margins of every
// table stay as they are,
//
//	Less = P(A1 + A2 + ... <= a1 + a2 + ...), each A hypergeometric
//
// A table of one possible cell adds nothing: what stands on one side alone is held
// against nothing. Less is 1 for no table. It fails with ErrRange for a table that
// [Fisher] refuses so. The exact conditional test of R's mantelhaen.test
// [derived: r, mantelhaen.test].
func FisherWithin(tables ...[4]int) (less float64, err error) {
	sums := []float64{1} // the chance of each sum beyond the least there can be
	beyond := 0
	for _, t := range tables {
		probs, low, err := firstCells(t[0], t[1], t[2], t[3])
		if err != nil {
			return 0, fmt.Errorf("table %v: %w", t, err)
		}
		beyond += t[0] - low
		longer := make([]float64, len(sums)+len(probs)-1)
		for i, p := range sums {
			for j, q := range probs {
				longer[i+j] += p * q
			}
		}
		sums = longer
	}
	return sumTo(sums, beyond), nil
}
