package stats

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat/combin"
)

// Beyond exactArrangements a permutation test takes sampledArrangements of them
// at random, from a fixed seed so that the same data give the same answer.
const (
	exactArrangements   = 200_000
	sampledArrangements = 20_000
)

// Permutation is the result of a permutation test.
type Permutation struct {
	// Difference is the difference of the means.
	Difference float64
	// Greater is the share of arrangements with a difference at least as large as
	// seen, Less at least as small, TwoSided at least as far from 0. Each is at
	// least 1/Arrangements.
	Greater, Less, TwoSided float64
	// Arrangements counts those looked at, the one seen among them; Exact tells
	// whether they are all there are.
	Arrangements int
	Exact        bool
}

// Shift is an interval for a difference and the confidence it achieves.
type Shift struct {
	Interval   Interval
	Confidence float64
}

// TwoSample tests whether a and b differ in mean: the share of all C(n, len(a))
// splits of the pooled values whose difference mean(a) - mean(b) is as extreme
// as seen. Up to 200 000 splits (10 and 10 values) are enumerated; beyond that
// 20 000 are drawn and p = (hits + 1)/(20 000 + 1). Sums are compared with a
// slack of 1e-9 of the largest deviation, or 1e-13 of the largest value.
//
// With all values equal every p is 1. It fails with ErrTooFew when a side is
// empty and ErrRange for values out of range. Sources: derived; computed by R
// exactRankTests and SciPy permutation_test.
func TwoSample(a, b []float64) (Permutation, error) {
	if err := checkSides(a, b); err != nil {
		return Permutation{}, err
	}
	pooled := centred(append(slices.Clone(a), b...))
	seen := 0.0
	for _, v := range pooled[:len(a)] {
		seen += v
	}
	c := newCounter(seen, pooled, math.Max(maxAbs(a), maxAbs(b)))
	exact := eachSplit(len(pooled), len(a), func(chosen []int) {
		sum := 0.0
		for _, i := range chosen {
			sum += pooled[i]
		}
		c.count(sum)
	})
	return c.result(difference(a, b), exact), nil
}

// TwoSampleShift bounds the difference mean(a) - mean(b) by the shifts that
// [TwoSample] would not reject. Exchanging m values of a for m of b turns the
// order at the shift D = mean(those of a) - mean(those of b); with the T-1 values
// D sorted and r = max(1, floor((1-c)/2 T)), the interval runs from the r-th
// lowest to the r-th highest and achieves 1 - 2r/T. It fails as TwoSample, and
// with ErrRange for a confidence outside 0..0.999999. Source: derived.
func TwoSampleShift(a, b []float64, confidence float64) (Shift, error) {
	if err := checkSides(a, b); err != nil {
		return Shift{}, err
	}
	if err := checkConfidence(confidence); err != nil {
		return Shift{}, err
	}
	pooled := append(slices.Clone(a), b...)
	total := 0.0
	for _, v := range a {
		total += v
	}
	var shifts []float64
	eachSplit(len(pooled), len(a), func(chosen []int) {
		exchanged, sum := 0, 0.0
		for _, i := range chosen {
			sum += pooled[i]
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

// SmallestSplitP is the smallest one-sided p of [TwoSample] with na and nb
// values, 1/C(na+nb, na), if all splits are enumerated. Counts below 0 count as
// 0. Source: derived.
func SmallestSplitP(na, nb int) float64 {
	na, nb = max(0, na), max(0, nb)
	return oneOf(na+nb, na)
}

func checkSides(a, b []float64) error {
	if len(a) == 0 || len(b) == 0 {
		return tooFew(min(len(a), len(b)), 1)
	}
	return checkValues(a, b)
}

// centred takes the mean off, so that sums of values far from 0 keep the digits
// that tell them apart.
func centred(x []float64) []float64 {
	centreOn0(x)
	return x
}

func difference(a, b []float64) float64 { return mean(a) - mean(b) }

// counter counts arrangements against the sum seen.
type counter struct {
	seen, slack                 float64
	all, greater, less, further int
}

// newCounter takes the sum seen, the values summed, and the largest size of the
// values before they were centred, whose last digits are noise.
func newCounter(seen float64, values []float64, size float64) *counter {
	return &counter{seen: seen, slack: math.Max(1e-9*maxAbs(values), 1e-13*size)}
}

func (c *counter) count(sum float64) {
	c.all++
	if sum >= c.seen-c.slack {
		c.greater++
	}
	if sum <= c.seen+c.slack {
		c.less++
	}
	if math.Abs(sum) >= math.Abs(c.seen)-c.slack {
		c.further++
	}
}

// result turns counts into shares. An enumeration has met the arrangement seen;
// a sample has not, and counts it in.
func (c *counter) result(difference float64, exact bool) Permutation {
	seen := 0
	if !exact {
		seen = 1
	}
	all := float64(c.all + seen)
	return Permutation{
		Difference:   difference,
		Greater:      float64(c.greater+seen) / all,
		Less:         float64(c.less+seen) / all,
		TwoSided:     float64(c.further+seen) / all,
		Arrangements: c.all + seen,
		Exact:        exact,
	}
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

// eachSplit visits the choices of k out of n, all of them if there are not too
// many, and reports whether it did.
func eachSplit(n, k int, visit func(chosen []int)) (exact bool) {
	chosen := make([]int, k)
	if oneOf(n, k)*exactArrangements >= 1 {
		splits := combin.NewCombinationGenerator(n, k)
		for splits.Next() {
			splits.Combination(chosen)
			visit(chosen)
		}
		return true
	}
	random := newRandom()
	places := make([]int, n)
	for i := range places {
		places[i] = i
	}
	for range sampledArrangements {
		for i := range k {
			j := i + random.IntN(n-i)
			places[i], places[j] = places[j], places[i]
		}
		copy(chosen, places)
		visit(chosen)
	}
	return false
}

func newRandom() *rand.Rand { return rand.New(rand.NewPCG(1, 1)) }
