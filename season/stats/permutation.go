package stats

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat/combin"
)

// Beyond exactSplits a permutation takes sampledSplits at random, from a fixed
// seed so that the same data give the same answer.
const (
	exactSplits   = 200_000
	sampledSplits = 20_000
)

// Shift is an interval for a difference and the confidence it achieves.
type Shift struct {
	Interval   Interval
	Confidence float64
}

// TwoSampleShift bounds the difference mean(a) - mean(b) by the shifts that a
// permutation test would not reject, which asks in what share of the splits of all
// values into as many it is as large. A split that exchanges m values of A for m
// of B turns the order at the shift D = (sum of those of A - sum of those of
// B)/m; with the T-1 values D sorted and r = max(1, floor((1-c)/2 T)), the
// interval runs from the r-th lowest to the r-th highest and achieves 1 - 2r/T. Up
// to 200 000 splits (10 and 10 values) are enumerated, beyond that 20 000 drawn.
// It fails with ErrTooFew for an empty side, and ErrRange for values out of range
// or a confidence outside 0..0.999999. [derived].
func TwoSampleShift(a, b []float64, confidence float64) (Shift, error) {
	if err := checkValues(a, b); err != nil {
		return Shift{}, err
	}
	if err := checkConfidence(confidence); err != nil {
		return Shift{}, err
	}
	if len(a) == 0 || len(b) == 0 {
		return Shift{}, tooFew(0, 1)
	}
	values := slices.Concat(a, b)
	total := floats.Sum(a)
	var shifts []float64
	eachSplit(len(a), len(b), func(chosen []int) {
		exchanged, sum := 0, 0.0
		for _, i := range chosen {
			sum += values[i]
			if i >= len(a) {
				exchanged++
			}
		}
		if exchanged > 0 {
			shifts = append(shifts, (total-sum)/float64(exchanged))
		}
	})
	return shiftOf(shifts, confidence), nil
}

// shiftOf reads the interval off the exchange values.
func shiftOf(shifts []float64, confidence float64) Shift {
	slices.Sort(shifts)
	all := float64(len(shifts) + 1)
	r := max(1, int(math.Floor((1-confidence)/2*all+rankSlack)))
	r = min(r, (len(shifts)+1)/2)
	return Shift{
		Interval:   Interval{shifts[r-1], shifts[len(shifts)-r]},
		Confidence: math.Max(0, 1-2*float64(r)/all),
	}
}

// eachSplit visits the choices of a out of a + b values, as their places: all of
// them if there are not too many. It reports whether it did.
func eachSplit(a, b int, visit func(chosen []int)) (exact bool) {
	if oneOf(a+b, a)*exactSplits >= 1 {
		chosen := make([]int, a)
		splits := combin.NewCombinationGenerator(a+b, a)
		for splits.Next() {
			visit(splits.Combination(chosen))
		}
		return true
	}
	random := newRandom()
	for range sampledSplits {
		visit(random.Perm(a + b)[:a])
	}
	return false
}

func newRandom() *rand.Rand { return rand.New(rand.NewPCG(1, 1)) }
