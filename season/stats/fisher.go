package stats

import "fmt"

// FisherTest holds the exact probabilities of a two-by-two table a b / c d with
// its margins fixed.
type FisherTest struct {
	// Less is P(A <= a), small when a is rarer than chance gives; Greater is
	// P(A >= a); TwoSided adds every table no likelier than the one seen.
	Less, Greater, TwoSided float64
}

// Fisher tests the table a b / c d. A is hypergeometric:
//
//	P(A = x) = C(a+b, x) C(c+d, a+c-x)/C(a+b+c+d, a+c)
//
// With one margin 0 only one table is possible and every p is 1. It fails with
// ErrTooFew when the table is empty and ErrRange for counts below 0 or a total
// above a million. Fisher's tea tasting [published: tea-tasting, distribution]
// [derived: r, fisher.test; scipy, fisher_exact].
func Fisher(a, b, c, d int) (FisherTest, error) {
	if err := checkCounts(a, b, c, d); err == nil && a+b+c+d == 0 {
		return FisherTest{}, fmt.Errorf("%w: an empty table", ErrTooFew)
	}
	probs, low, err := firstCells(a, b, c, d)
	if err != nil {
		return FisherTest{}, err
	}
	return FisherTest{
		Less:     sumTo(probs, a-low),
		Greater:  sumFrom(probs, a-low),
		TwoSided: sumNoLikelier(probs, a-low),
	}, nil
}

// firstCells are the chances of the first cell of a table with these margins, from
// low on.
func firstCells(a, b, c, d int) (probs []float64, low int, err error) {
	if err := checkCounts(a, b, c, d); err != nil {
		return nil, 0, err
	}
	total := a + b + c + d
	if err := checkCounts(total); err != nil {
		return nil, 0, err
	}
	first, second, column := a+b, c+d, a+c
	low, high := max(0, column-second), min(first, column)
	mode := int(int64(first+1) * int64(column+1) / int64(total+2)) // the product needs 64 bits, on any processor
	return fromRatios(low, high, mode, func(x int) float64 {
		return float64(first-x) * float64(column-x) /
			(float64(x+1) * float64(second-column+x+1))
	}), low, nil
}

// SmallestFisherP is the smallest one-sided p that [Fisher] can reach with rows
// of n1 and n2: all of one row against none of the other, 1/C(n1+n2, n1). Counts
// below 0 count as 0. [derived].
func SmallestFisherP(n1, n2 int) float64 {
	n1, n2 = max(0, n1), max(0, n2)
	return oneOf(n1+n2, n1)
}

// oneOf is 1/C(n, k), 0 <= k <= n.
func oneOf(n, k int) float64 {
	k = min(k, n-k)
	p := 1.0
	for i := 1; i <= k && p > 0; i++ {
		p *= float64(i) / float64(n-k+i)
	}
	return p
}
