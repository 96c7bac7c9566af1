package stats

import (
	"math"
	"slices"
	"sort"

	"gonum.org/v1/gonum/floats"
)

// What stands here is asked by no command. It checks what is: by another way to
// the same number, or by a published number that rests on the package's parts.
// Its arguments are those of the tests, so nothing is refused.

// Contains reports whether the value lies in the interval, ends included.
func (i Interval) Contains(x float64) bool { return i.Low <= x && x <= i.High }

// standardErrors are Sigma sqrt[(X'WX)^-1_jj] of each coefficient.
func standardErrors(f *Fit) []float64 {
	se := make([]float64, len(f.Coef))
	for j := range se {
		axis := make([]float64, len(f.Coef))
		axis[j] = 1
		se[j] = f.Sigma * math.Sqrt(f.spread(axis))
	}
	return se
}

// coefInterval is Coef[j] -+ t SE[j], t with DF degrees of freedom.
func coefInterval(f *Fit, j int, confidence float64) Interval {
	half := studentCritical(confidence, f.DF) * standardErrors(f)[j]
	return Interval{f.Coef[j] - half, f.Coef[j] + half}
}

// residuals are y - fitted, unweighted.
func residuals(f *Fit, x [][]float64, y []float64) []float64 {
	r := make([]float64, len(y))
	for i, row := range x {
		r[i] = y[i] - f.at(row)
	}
	return r
}

// leverages are the diagonal of the hat matrix.
func leverages(f *Fit, x [][]float64, w []float64) []float64 {
	h := make([]float64, len(x))
	for i, row := range x {
		h[i] = f.weight(w, i) * f.spread(row)
	}
	return h
}

// onLine are the rows of [Line]: a constant and x.
func onLine(x []float64) [][]float64 {
	rows := make([][]float64, len(x))
	for i, v := range x {
		rows[i] = []float64{1, v}
	}
	return rows
}

// weightedMedian is the value at which the weights of the sorted values add up
// to half of all; when they reach exactly half between two values, the mean of
// the two. With weights w_i w_j |x_j - x_i| on pair slopes it is the estimator of
// Jaeckel, Sievers and Scholz [memory]. No exact interval goes with a weighted
// median of slopes, which is why [TheilSen] has no weights.
func weightedMedian(x, w []float64) float64 {
	order := make([]int, len(x))
	total := 0.0
	for i := range order {
		order[i] = i
		total += w[i]
	}
	sort.SliceStable(order, func(a, b int) bool { return x[order[a]] < x[order[b]] })
	// Weights rarely add up to exactly half in floating point.
	slack := 1e-12 * total
	reached := 0.0
	for k, i := range order {
		reached += w[i]
		if math.Abs(reached-total/2) <= slack && k+1 < len(order) {
			return x[i]/2 + x[order[k+1]]/2
		}
		if reached > total/2 {
			return x[i]
		}
	}
	return x[order[len(order)-1]]
}

// conoverIntercept is median(y) - slope median(x), the intercept of the US EPA
// Unified Guidance 2009 [published: epa-2009, p. 17-33, example 17-6]; Conover's
// [memory].
func conoverIntercept(s Series, slope float64) float64 {
	mx, _ := Median(s.X)
	my, _ := Median(s.Y)
	return my - slope*mx
}

// jointIntercept is median(y - slope x). [published:
// sen-suites, Theil-Sen].
func jointIntercept(s Series, slope float64) float64 {
	rest := make([]float64, len(s.X))
	for i, x := range s.X {
		rest[i] = s.Y[i] - slope*x
	}
	m, _ := Median(rest)
	return m
}

// bonferroni multiplies each of m p-values by m, at most 1: what
// [BenjaminiHochberg] cannot exceed. [derived].
func bonferroni(p []float64) []float64 {
	adjusted := make([]float64, len(p))
	for i, v := range p {
		adjusted[i] = math.Min(1, v*float64(len(p)))
	}
	return adjusted
}

// ruleOfThree is 3/n, the usual words for [NoneUpper] at 95 %. [derived].
func ruleOfThree(n int) float64 { return 3 / float64(n) }

// grubbs finds the value furthest from the mean and its distance in standard
// deviations, max|x - mean|/sd. [published: nist-handbook,
// 1.3.5.17.1].
func grubbs(x []float64) (index int, g float64) {
	m := mean(x)
	sd := math.Sqrt(sumSquares(x, m) / float64(len(x)-1))
	for i, v := range x {
		if d := math.Abs(v-m) / sd; d > g {
			index, g = i, d
		}
	}
	return index, g
}

// grubbsCritical is what the distance exceeds with probability alpha when n
// values are normal: with t the upper alpha/n point of Student's t on n-2 degrees
// of freedom (alpha/2n when two-sided), (n-1)/sqrt(n) sqrt(t^2/(n-2+t^2))
// [published: nist-handbook, 1.3.5.17.1].
func grubbsCritical(n int, alpha float64, twoSided bool) float64 {
	tail := alpha / float64(n)
	if twoSided {
		tail /= 2
	}
	t := studentUpperPoint(tail, n-2)
	f := float64(n)
	return (f - 1) / math.Sqrt(f) * math.Sqrt(t*t/(f-2+t*t))
}

// paired is the test of [TwoSample] for differences of pairs: the share of all
// 2^n patterns of signs whose mean is as extreme as seen. [derived] (Fisher 1935,
// section 21 [memory]).
func paired(differences []float64) Permutation {
	sum := func(flipped []bool) float64 {
		total := 0.0
		for i, d := range differences {
			if flipped[i] {
				d = -d
			}
			total += d
		}
		return total
	}
	c := newCounter(sum(make([]bool, len(differences))), differences, 0)
	eachPattern(len(differences), func(flipped []bool) { c.count(sum(flipped)) })
	return c.result(mean(differences), true)
}

// pairedShift is the interval of [TwoSampleShift] for differences of pairs: the
// means of all their subsets stand for the exchanges. [derived].
func pairedShift(differences []float64, confidence float64) Shift {
	var shifts []float64
	eachPattern(len(differences), func(flipped []bool) {
		n, sum := 0, 0.0
		for i, d := range differences {
			if flipped[i] {
				n++
				sum += d
			}
		}
		if n > 0 {
			shifts = append(shifts, sum/float64(n))
		}
	})
	return shiftOf(shifts, confidence)
}

// eachPattern visits all patterns of n signs.
func eachPattern(n int, visit func(flipped []bool)) {
	flipped := make([]bool, n)
	for pattern := range 1 << n {
		for i := range flipped {
			flipped[i] = pattern>>i&1 == 1
		}
		visit(flipped)
	}
}

// mannWhitney is [TwoSample] on the midranks of the pooled values. [derived:
// scipy, mannwhitneyu].
func mannWhitney(a, b []float64) (Permutation, error) {
	ranks := midranks(append(slices.Clone(a), b...))
	return TwoSample(ranks[:len(a)], ranks[len(a):])
}

// midranks are the places 1..n of the values in sorted order, equal values
// sharing the mean of theirs. [derived].
func midranks(x []float64) []float64 {
	s := sorted(x)
	ranks := make([]float64, len(x))
	for i, v := range x {
		first, _ := slices.BinarySearch(s, v)
		last := first
		for last < len(s) && s[last] == v {
			last++
		}
		ranks[i] = float64(first+1+last) / 2
	}
	return ranks
}

// derSimonianLaird is the closed-form estimate of what [PauleMandel] solves for:
//
//	max(0, (Q(0) - (k-1))/(sum 1/v - sum 1/v^2/sum 1/v))
//
// DerSimonian and Laird 1986 [memory] [derived: metafor, rma].
func derSimonianLaird(y, v []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, variance := range v {
		sum += 1 / variance
		squares += 1 / (variance * variance)
	}
	excess := spreadAbout(y, v, 0) - float64(len(y)-1)
	return math.Max(0, excess/(sum-squares/sum))
}

// restrictedML estimates the same variance by restricted maximum likelihood, with
// the iteration
//
//	t = max(0, sum w^2 [(y_i - mean_t)^2 - v_i]/sum w^2 + 1/sum w)
//
// started at derSimonianLaird's answer. [memory] [derived: metafor, rma].
func restrictedML(y, v []float64) float64 {
	t := derSimonianLaird(y, v)
	for range 10_000 {
		m, weight := commonMean(y, v, t)
		top, bottom := 0.0, 0.0
		for i := range y {
			w := 1 / (v[i] + t) / weight
			top += w * w * ((y[i]-m)*(y[i]-m) - v[i])
			bottom += w * w
		}
		next := math.Max(0, top/bottom+1/weight)
		if math.Abs(next-t) <= 1e-14*t {
			return next
		}
		t = next
	}
	return t
}

// jamesStein shrinks k means of one known variance towards their mean by the
// factor c = 1 - (k-3) variance/sum (y - mean)^2, not below 0: the case of equal
// variances. c = 0.212 for the baseball averages of Efron and Morris 1977
// [published: efron-morris-1977, c].
func jamesStein(y []float64, variance float64) (c float64, shrunken []float64) {
	m := mean(y)
	c = math.Max(0, 1-float64(len(y)-3)*variance/sumSquares(y, m))
	for _, v := range y {
		shrunken = append(shrunken, m+c*(v-m))
	}
	return c, shrunken
}

// Permutation is the result of a permutation test: the difference of the means,
// the share of arrangements with one at least as large, as small, as far from 0.
type Permutation struct {
	Difference              float64
	Greater, Less, TwoSided float64
	Arrangements            int
	Exact                   bool
}

// TwoSample is the test that [TwoSampleShift] turns into an interval. Sums are
// compared with a slack of 1e-9 of the largest deviation, or 1e-13 of the largest
// value.
func TwoSample(a, b []float64) (Permutation, error) {
	if err := checkValues(a, b); err != nil {
		return Permutation{}, err
	}
	if len(a) == 0 || len(b) == 0 {
		return Permutation{}, tooFew(0, 1)
	}
	values := slices.Concat(a, b)
	centreOn0(values)
	c := newCounter(floats.Sum(values[:len(a)]), values, max(maxAbs(a), maxAbs(b)))
	exact := eachSplit(len(a), len(b), func(chosen []int) {
		sum := 0.0
		for _, i := range chosen {
			sum += values[i]
		}
		c.count(sum)
	})
	weight := float64(len(a)*len(b)) / float64(len(a)+len(b))
	return c.result(c.seen/weight, exact), nil
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
