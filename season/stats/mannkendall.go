package stats

import (
	"math"
	"slices"
	"sync"
)

// ExactPoints is the largest number of points, over all strata, for which the
// Mann-Kendall null is worked out exactly; above it stands the normal
// approximation.
const ExactPoints = 60

// TrendTest is the result of [MannKendall].
type TrendTest struct {
	// Points counts the values in strata of at least two; Pairs the pairs within
	// strata; Untied the pairs whose two values differ, which is also the largest
	// size S can have.
	Points, Pairs, Untied int
	// S is the number of rising pairs less the number of falling ones.
	S int
	// VarS is the variance of S when the order is chance, corrected for ties; Z
	// is (S - sgn S)/sqrt(VarS), 0 when VarS is 0; NormalP its two-sided
	// probability.
	VarS, Z, NormalP float64
	// Upper is P(S' >= S) and Lower P(S' <= S) when the order is chance; P, the
	// verdict's two-sided probability, is min(1, 2 min(Upper, Lower)). They are
	// exact when Exact is true (at most ExactPoints points), else normal with
	// continuity correction.
	Upper, Lower, P float64
	Exact           bool
	// Smallest is the smallest P that these values could give in any order: what
	// the test cannot go below.
	Smallest float64
	// Tau is S/sqrt(Pairs Untied), Kendall's tau-b, from -1 to 1; 0 when nothing
	// differs.
	Tau float64
}

// MannKendall tests for a monotone trend. Each stratum lists its values in the
// order of time, no two at the same time; pairs are formed within a stratum
// only, and strata of fewer than two values count for nothing.
//
//	S     = sum over strata of sum_{i<j} sgn(y_j - y_i)
//	Var S = sum over strata of [n(n-1)(2n+5) - sum_g t_g(t_g-1)(2t_g+5)]/18
//
// t_g being the sizes of groups of equal values. The exact null: the number I of
// inversions of a random arrangement of a multiset has the generating function
// [n]_q!/prod_g [t_g]_q!, S = Untied - 2I, and strata convolve. It is exact with
// ties, which printed tables are not.
//
// With all values equal S = 0 and every P = 1. It fails with ErrTooFew when no
// stratum has two values and with ErrRange for values that are not finite.
//
// Test and variance: [published: epa-2009, p. 17-33, example 17-6; epa-g9s,
// p. 109]. The exact null with ties: [derived], without any: [derived: r,
// cor.test].
func MannKendall(strata ...[]float64) (TrendTest, error) {
	return ClusteredMannKendall(1, strata...)
}

// ClusteredMannKendall is [MannKendall] for values that are alike within
// clusters: the variance of S is larger by the design effect given (see
// [TrendDesignEffect]), so every probability is that of S over its square root,
// interpolated in the logarithm between the sizes that S can have. With a design
// effect of 1 it is MannKendall itself. It fails as that does, and with ErrRange
// for a design effect below 1. [derived].
func ClusteredMannKendall(designEffect float64, strata ...[]float64) (TrendTest, error) {
	if err := checkDesignEffect(designEffect); err != nil {
		return TrendTest{}, err
	}
	if err := checkValues(strata...); err != nil {
		return TrendTest{}, err
	}
	var r TrendTest
	var groups [][]int
	for _, y := range strata {
		if len(y) < 2 {
			continue
		}
		g := tieSizes(y)
		groups = append(groups, g)
		r.Points += len(y)
		r.Pairs += pairCount(len(y))
		r.S += concordance(y)
	}
	if len(groups) == 0 {
		return TrendTest{}, tooFew(longest(strata), 2)
	}
	null := newKendallNull(groups)
	r.Exact = null.exact()
	r.Untied = null.untied
	null.spread = math.Sqrt(designEffect)
	r.VarS = null.variance * designEffect
	r.Upper, r.Lower = null.upper(r.S), null.upper(-r.S)
	r.P = math.Min(1, 2*math.Min(r.Upper, r.Lower))
	r.Smallest = math.Min(1, 2*null.upper(r.Untied))
	r.Z, r.NormalP = null.normal(r.S)
	if r.Untied > 0 {
		r.Tau = float64(r.S) / math.Sqrt(float64(r.Pairs)*float64(r.Untied))
	}
	return r, nil
}

// SmallestTrendP is the smallest two-sided p that [MannKendall] can reach with
// strata of the given sizes and no ties, min(1, 2/prod n_h!): 0.333 for three
// points, 0.083 for four, 0.0167 for five. Sizes below 2 count for nothing; with
// none left it is 1. Beyond about 170 points it underflows to 0. [derived].
func SmallestTrendP(sizes ...int) float64 {
	p := 2.0
	for _, n := range sizes {
		for k := 2; k <= n && p > 0; k++ {
			p /= float64(k)
		}
	}
	return math.Min(1, p)
}

// SmallestClusteredTrendP is [SmallestTrendP] for [ClusteredMannKendall] with the
// given design effect, at least 1.
func SmallestClusteredTrendP(designEffect float64, sizes ...int) float64 {
	if designEffect <= 1 {
		return SmallestTrendP(sizes...)
	}
	var strata [][]int
	for _, n := range sizes {
		if n > 1 {
			strata = append(strata, singles(n))
		}
	}
	null := newKendallNull(strata)
	null.spread = math.Sqrt(designEffect)
	return math.Min(1, 2*null.upper(null.untied))
}

func longest(lists [][]float64) int {
	n := 0
	for _, l := range lists {
		n = max(n, len(l))
	}
	return n
}

func pairCount(n int) int { return n * (n - 1) / 2 }

// concordance is the sum of the signs of all later minus earlier values: the pairs
// that are not equal, less twice those that fall.
func concordance(y []float64) int {
	s := pairCount(len(y))
	for _, t := range tieSizes(y) {
		s -= pairCount(t)
	}
	return s - 2*fallingPairs(slices.Clone(y), make([]float64, len(y)))
}

// fallingPairs counts the pairs of which the earlier is the larger, by merging. It
// sorts the values, with room for as many.
func fallingPairs(y, room []float64) int {
	if len(y) < fewToMerge {
		return fallingByInsertion(y)
	}
	middle := len(y) / 2
	n := fallingPairs(y[:middle], room) + fallingPairs(y[middle:], room)
	left, right := room[:copy(room, y[:middle])], y[middle:]
	if left[middle-1] <= right[0] {
		return n
	}
	for i := range y {
		if len(left) == 0 {
			break
		}
		if len(right) == 0 || left[0] <= right[0] {
			y[i], left = left[0], left[1:]
		} else {
			n += len(left)
			y[i], right = right[0], right[1:]
		}
	}
	return n
}

// fewToMerge are so few values that an insertion is quicker.
const fewToMerge = 16

func fallingByInsertion(y []float64) int {
	n := 0
	for i := 1; i < len(y); i++ {
		v, j := y[i], i
		for ; j > 0 && y[j-1] > v; j-- {
			y[j] = y[j-1]
		}
		y[j] = v
		n += i - j
	}
	return n
}

// tieSizes lists the sizes of the groups of equal values, in order of value.
func tieSizes(y []float64) []int {
	s := slices.Clone(y)
	slices.Sort(s)
	var sizes []int
	for i, v := range s {
		if i > 0 && v == s[i-1] {
			sizes[len(sizes)-1]++
		} else {
			sizes = append(sizes, 1)
		}
	}
	return sizes
}

// singles is the tie structure of n values that all differ.
func singles(n int) []int {
	g := make([]int, n)
	for i := range g {
		g[i] = 1
	}
	return g
}

// kendallNull is the distribution of S when the order within strata is chance.
type kendallNull struct {
	points   int
	untied   int
	variance float64
	// probs[i] is the chance of i inversions, S = untied - 2i; nil above
	// ExactPoints.
	probs []float64
	// spread is by how much S varies more than by chance of order alone: the root
	// of the design effect, 1 for independent values.
	spread float64
}

// newKendallNull takes the sizes of the groups of equal values of each stratum.
func newKendallNull(strata [][]int) kendallNull {
	d := kendallNull{spread: 1}
	for _, groups := range strata {
		n, untied, v := 0, 0, 0.0
		for _, t := range groups {
			n += t
			untied -= pairCount(t)
			v -= varianceTerm(t)
		}
		d.points += n
		d.untied += untied + pairCount(n)
		d.variance += (v + varianceTerm(n)) / 18
	}
	if d.points > ExactPoints {
		return d
	}
	d.probs = []float64{1}
	for _, groups := range strata {
		d.probs = convolve(d.probs, inversionProbs(groups))
	}
	return d
}

func varianceTerm(n int) float64 {
	f := float64(n)
	return f * (f - 1) * (2*f + 5)
}

func (d kendallNull) exact() bool { return d.probs != nil }

// upper is P(S >= s). The null is symmetric, with ties too, because every
// Gaussian binomial reads the same backwards; so P(S <= s) is upper(-s).
func (d kendallNull) upper(s int) float64 {
	switch {
	case d.untied == 0 || s <= -d.untied:
		return 1
	case s > d.untied:
		return 0
	case d.exact() && d.spread == 1:
		return sumTo(d.probs, (d.untied-s)/2)
	case d.exact():
		return d.between((float64(d.untied) - float64(s)/d.spread) / 2)
	}
	return normalUpper((float64(s) - 1) / (math.Sqrt(d.variance) * d.spread))
}

// between is the chance of at most so many inversions, interpolated in the
// logarithm between whole numbers of them.
func (d kendallNull) between(inversions float64) float64 {
	whole, part := math.Modf(inversions)
	below, above := sumTo(d.probs, int(whole)), sumTo(d.probs, int(whole)+1)
	return math.Min(1, math.Exp((1-part)*math.Log(below)+part*math.Log(above)))
}

// normal gives the continuity-corrected Z of s and its two-sided probability.
func (d kendallNull) normal(s int) (z, p float64) {
	if s == 0 { // always so when nothing differs and the variance is 0
		return 0, 1
	}
	z = (math.Abs(float64(s)) - 1) / (math.Sqrt(d.variance) * d.spread)
	p = math.Min(1, 2*normalUpper(z))
	return math.Copysign(z, float64(s)), p
}

// inversionProbs is the distribution of the number of inversions of a random
// arrangement of a multiset: a product of Gaussian binomials, one for each group
// joining those before it.
func inversionProbs(groups []int) []float64 {
	if slices.Max(groups) > 1 {
		return mixedInversionProbs(groups)
	}
	n := len(groups)
	if known, ok := untiedProbs.Load(n); ok {
		return known.([]float64)
	}
	probs := mixedInversionProbs(groups)
	untiedProbs.Store(n, probs)
	return probs
}

// untiedProbs keeps the distributions without ties, by the number of values: at
// most [ExactPoints] of them, asked for by every group of every season. Nobody
// writes to one.
var untiedProbs sync.Map

func mixedInversionProbs(groups []int) []float64 {
	probs := []float64{1}
	n := 0
	for _, t := range groups {
		n += t
		probs = convolve(probs, gaussianBinomial(n, t))
	}
	return probs
}

// gaussianBinomial lists the coefficients of [n choose k]_q divided by their
// total. The recurrence [n,k] = [n-1,k-1] + q^k [n-1,k] becomes one between
// probabilities with the weights k/n and (n-k)/n: sums of positive terms only,
// and no counts, which overflow a float64 at n = 171.
func gaussianBinomial(n, k int) []float64 {
	k = min(k, n-k)
	rows := make([][]float64, k+1)
	rows[0] = []float64{1}
	for m := 1; m <= n; m++ {
		for j := min(m, k); j >= 1; j-- {
			next := make([]float64, j*(m-j)+1)
			for i, p := range rows[j-1] {
				next[i] += p * float64(j) / float64(m)
			}
			for i, p := range rows[j] {
				next[i+j] += p * float64(m-j) / float64(m)
			}
			rows[j] = next
		}
	}
	return rows[k]
}

// convolve is the distribution of the sum of two independent counts.
func convolve(a, b []float64) []float64 {
	c := make([]float64, len(a)+len(b)-1)
	for i, p := range a {
		for j, q := range b {
			c[i+j] += p * q
		}
	}
	return c
}
