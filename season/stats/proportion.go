package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Jeffreys is the weight the Jeffreys prior puts on either side, a = b = 1/2.
const Jeffreys = 0.5

// Wilson bounds a proportion seen as k of n: with z the normal quantile and
// p = k/n,
//
//	[ p + z^2/2n -+ z sqrt(p(1-p)/n + z^2/4n^2) ]/(1 + z^2/n)
//
// within 0..1, the low end exactly 0 when k = 0 and the high end exactly 1 when
// k = n. It fails with ErrTooFew for n = 0, ErrShape for k > n, ErrRange for
// counts below 0 or above a million, or a confidence outside 0..0.999999.
// [published: newcombe-suites, table I] [derived: r, binom.test; scipy,
// binomtest].
func Wilson(k, n int, confidence float64) (Interval, error) {
	if err := checkTrials(k, n, confidence); err != nil {
		return Interval{}, err
	}
	z := -normalQuantile((1 - confidence) / 2)
	size := float64(n)
	p := float64(k) / size
	middle := (p + z*z/(2*size)) / (1 + z*z/size)
	half := z * math.Sqrt(p*(1-p)/size+z*z/(4*size*size)) / (1 + z*z/size)
	return endsOf(k, n, Interval{middle - half, middle + half}), nil
}

// ClopperPearson bounds a proportion seen as k of n so that it covers at least
// as often as stated: the (1-c)/2 quantile of Beta(k, n-k+1) and the (1+c)/2
// quantile of Beta(k+1, n-k); 0 below for k = 0, 1 above for k = n. It fails as
// [Wilson]. [derived: r, binom.test; scipy,
// binomtest].
func ClopperPearson(k, n int, confidence float64) (Interval, error) {
	if err := checkTrials(k, n, confidence); err != nil {
		return Interval{}, err
	}
	tail := (1 - confidence) / 2
	hits, misses := float64(k), float64(n-k)
	i := Interval{0, 1}
	if k > 0 {
		i.Low = distuv.Beta{Alpha: hits, Beta: misses + 1}.Quantile(tail)
	}
	if k < n {
		// Read from the other side, where a small tail keeps its digits.
		i.High = 1 - distuv.Beta{Alpha: misses, Beta: hits + 1}.Quantile(tail)
	}
	return i, nil
}

// AtLeastOne is the probability of at least one success in the next trials after
// k of n, under a beta-binomial with prior weights a = b = prior ([Jeffreys], or
// 1 for the uniform prior):
//
//	1 - prod_{i<next} (B + i)/(A + B + i),  A = k + a, B = n - k + b
//
// within 0..1; 0 when next is 0. n may be 0. It fails with ErrShape for k > n,
// ErrRange for counts below 0 or above a million or a prior not above 0. Sources:
// [derived: r, lbeta].
func AtLeastOne(k, n, next int, prior float64) (float64, error) {
	if err := checkCounts(k, n, next); err != nil {
		return 0, err
	}
	if k > n {
		return 0, fmt.Errorf("%w: %d of %d", ErrShape, k, n)
	}
	if err := checkPositive([]float64{prior}); err != nil {
		return 0, err
	}
	a, b := float64(k)+prior, float64(n-k)+prior
	logNone := 0.0
	for i := range next {
		logNone += math.Log1p(-a / (a + b + float64(i)))
	}
	return -math.Expm1(logNone), nil
}

// NoneUpper bounds from above the chance of something never seen in n trials:
// 1 - (1-c)^(1/n), c the one-sided confidence. It fails with ErrTooFew for n = 0
// and ErrRange as [Wilson] does. [derived].
func NoneUpper(n int, confidence float64) (float64, error) {
	if err := checkTrials(0, n, confidence); err != nil {
		return 0, err
	}
	return -math.Expm1(math.Log1p(-confidence) / float64(n)), nil
}

func checkTrials(k, n int, confidence float64) error {
	if err := checkCounts(k, n); err != nil {
		return err
	}
	if n == 0 {
		return tooFew(n, 1)
	}
	if k > n {
		return fmt.Errorf("%w: %d of %d", ErrShape, k, n)
	}
	return checkConfidence(confidence)
}

// endsOf sets the end that is 0 or 1 by algebra but not by rounding.
func endsOf(k, n int, i Interval) Interval {
	i = i.Clip(0, 1)
	if k == 0 {
		i.Low = 0
	}
	if k == n {
		i.High = 1
	}
	return i
}
