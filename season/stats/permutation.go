package stats

import (
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/floats"
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

// Split is one stratum of two samples to be compared: values are exchanged
// within a stratum only.
type Split struct{ A, B []float64 }

// StratifiedTwoSample tests whether A and B differ in mean within strata. With
// a and b values in a stratum, the difference is the mean of the strata's
// mean(A) - mean(B) weighted by a b/(a+b), and p the share of arrangements, all
// C(a+b, a) splits of every stratum combined, in which it is as extreme as seen.
// Up to 200 000 arrangements (10 and 10 values) are enumerated; beyond that
// 20 000 are drawn and p = (hits + 1)/(20 000 + 1). Sums are compared with a
// slack of 1e-9 of the largest deviation, or 1e-13 of the largest value.
//
// Strata with an empty side count for nothing. With all values equal every p is
// 1. It fails with ErrTooFew when no stratum has both sides and ErrRange for
// values out of range. Sources: derived; with one stratum computed by R
// exactRankTests and SciPy permutation_test.
func StratifiedTwoSample(strata ...Split) (Permutation, error) {
	strata, err := bothSided(strata)
	if err != nil {
		return Permutation{}, err
	}
	var values []float64
	seen, size, weights := 0.0, 0.0, 0.0
	for _, s := range strata {
		pooled := centred(slices.Concat(s.A, s.B))
		seen += floats.Sum(pooled[:len(s.A)])
		size = max(size, maxAbs(s.A), maxAbs(s.B))
		weights += s.weight()
		values = append(values, pooled...)
	}
	c := newCounter(seen, values, size)
	exact := eachSplit(strata, func(chosen []int) {
		sum := 0.0
		for _, i := range chosen {
			sum += values[i]
		}
		c.count(sum)
	})
	return c.result(seen/weights, exact), nil
}

// TwoSampleShift bounds the difference mean(a) - mean(b): it is
// [StratifiedShift] with one stratum.
func TwoSampleShift(a, b []float64, confidence float64) (Shift, error) {
	return StratifiedShift(confidence, Split{a, b})
}

// StratifiedShift bounds the difference of [StratifiedTwoSample] by the shifts
// that it would not reject. An arrangement that exchanges m values of A for m of
// B turns the order at the shift D = (sum of those of A - sum of those of B)/m;
// with the T-1 values D sorted and r = max(1, floor((1-c)/2 T)), the interval
// runs from the r-th lowest to the r-th highest and achieves 1 - 2r/T. It fails
// as StratifiedTwoSample, and with ErrRange for a confidence outside
// 0..0.999999. Source: derived.
func StratifiedShift(confidence float64, strata ...Split) (Shift, error) {
	strata, err := bothSided(strata)
	if err != nil {
		return Shift{}, err
	}
	if err := checkConfidence(confidence); err != nil {
		return Shift{}, err
	}
	var values []float64
	var first []bool // of each value: it is one of A
	total := 0.0
	for _, s := range strata {
		total += floats.Sum(s.A)
		values = slices.Concat(values, s.A, s.B)
		first = slices.Concat(first, slices.Repeat([]bool{true}, len(s.A)), make([]bool, len(s.B)))
	}
	var shifts []float64
	eachSplit(strata, func(chosen []int) {
		exchanged, sum := 0, 0.0
		for _, i := range chosen {
			sum += values[i]
			if !first[i] {
				exchanged++
			}
		}
		if exchanged > 0 {
			shifts = append(shifts, (total-sum)/float64(exchanged))
		}
	})
	return shiftOf(shifts, confidence), nil
}

// SmallestSplitP is the smallest one-sided p of [StratifiedTwoSample] with
// strata of the given numbers of values, 1/C(a+b, a) multiplied, if all
// arrangements are enumerated. Counts below 0 count as 0. Source: derived.
func SmallestSplitP(sizes ...[2]int) float64 {
	p := 1.0
	for _, n := range sizes {
		a, b := max(0, n[0]), max(0, n[1])
		p *= oneOf(a+b, a)
	}
	return p
}

// weight is a b/(a+b): by how much the stratum's difference counts.
func (s Split) weight() float64 {
	a, b := float64(len(s.A)), float64(len(s.B))
	return a * b / (a + b)
}

// bothSided keeps the strata that have both sides.
func bothSided(strata []Split) ([]Split, error) {
	var kept []Split
	for _, s := range strata {
		if err := checkValues(s.A, s.B); err != nil {
			return nil, err
		}
		if len(s.A) > 0 && len(s.B) > 0 {
			kept = append(kept, s)
		}
	}
	if len(kept) == 0 {
		return nil, tooFew(0, 1)
	}
	return kept, nil
}

// centred takes the mean off, so that sums of values far from 0 keep the digits
// that tell them apart.
func centred(x []float64) []float64 {
	centreOn0(x)
	return x
}

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

// eachSplit visits the choices of len(A) out of the values of each stratum, as
// places among all values (A before B, stratum by stratum): all of them combined
// if there are not too many. It reports whether it did.
func eachSplit(strata []Split, visit func(chosen []int)) (exact bool) {
	sizes := make([][2]int, len(strata))
	all := 0
	for i, s := range strata {
		sizes[i] = [2]int{len(s.A), len(s.B)}
		all += len(s.A)
	}
	chosen := make([]int, all)
	if SmallestSplitP(sizes...)*exactArrangements >= 1 {
		everySplit(sizes, 0, chosen, 0, func() { visit(chosen) })
		return true
	}
	random := newRandom()
	for range sampledArrangements {
		from, at := 0, 0
		for _, n := range sizes {
			places := random.Perm(n[0] + n[1])
			for i := range n[0] {
				chosen[at+i] = from + places[i]
			}
			from, at = from+n[0]+n[1], at+n[0]
		}
		visit(chosen)
	}
	return false
}

// everySplit chooses from the strata left, whose values begin at a place and
// whose choices begin at another.
func everySplit(sizes [][2]int, from int, chosen []int, at int, visit func()) {
	if len(sizes) == 0 {
		visit()
		return
	}
	k, n := sizes[0][0], sizes[0][0]+sizes[0][1]
	mine := chosen[at : at+k]
	splits := combin.NewCombinationGenerator(n, k)
	for splits.Next() {
		splits.Combination(mine)
		for i := range mine {
			mine[i] += from
		}
		everySplit(sizes[1:], from+n, chosen, at+k, visit)
	}
}

func newRandom() *rand.Rand { return rand.New(rand.NewPCG(1, 1)) }
