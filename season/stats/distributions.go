package stats

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// normalUpper is P(Z >= z) of the standard normal; erfc keeps its digits in the
// far tail, where 1 - CDF would not.
func normalUpper(z float64) float64 { return 0.5 * math.Erfc(z/math.Sqrt2) }

func normalCDF(z float64) float64 { return normalUpper(-z) }

// normalQuantile gives the z with P(Z <= z) = p, 0 < p < 1.
func normalQuantile(p float64) float64 { return distuv.UnitNormal.Quantile(p) }

func studentCDF(t float64, df int) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.CDF(t)
}

// The finite sum of [student] is good to about 1e-15, absolute, and takes as long as
// there are degrees of freedom.
const (
	leastSummed = 1e-3
	mostSummed  = 500
)

// studentTwoSided is P(|T| >= |t|), taken from the lower tail so that small
// probabilities keep their digits.
func studentTwoSided(t float64, df int) float64 {
	if df <= mostSummed {
		if p := 2 * (student{df: df}).cdf(-math.Abs(t)); p >= leastSummed {
			return math.Min(1, p)
		}
	}
	return math.Min(1, 2*studentCDF(-math.Abs(t), df))
}

// studentCritical is the t that |T| exceeds with probability 1 - confidence,
// read from the lower tail for the same reason.
func studentCritical(confidence float64, df int) float64 {
	return studentUpperPoint((1-confidence)/2, df)
}

// studentUpperPoint is the t with P(T >= t) = tail.
func studentUpperPoint(tail float64, df int) float64 {
	return -distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)}.Quantile(tail)
}

// upperF is P(F >= ratio) of Fisher's F.
func upperF(ratio, df1, df2 float64) float64 {
	return distuv.F{D1: df1, D2: df2}.Survival(ratio)
}

// chiSquareQuantile is found by search, and kept: every judge of every flight asks
// for the same few.
func chiSquareQuantile(p float64, df int) float64 {
	asked := quantileAsked{p, df}
	if kept, known := chiSquares.Load(asked); known {
		return kept.(float64)
	}
	q := distuv.ChiSquared{K: float64(df)}.Quantile(p)
	chiSquares.Store(asked, q)
	return q
}

type quantileAsked struct {
	p  float64
	df int
}

var chiSquares sync.Map // float64 by quantileAsked

// fromRatios builds the probabilities of low..high out of the ratios
// p(x+1)/p(x), starting from the mode, where nothing can overflow. gonum has no
// hypergeometric distribution, and ratios keep more digits than exponentials of
// log gamma differences.
func fromRatios(low, high, mode int, ratio func(x int) float64) []float64 {
	probs := make([]float64, high-low+1)
	mode = min(max(mode, low), high)
	probs[mode-low] = 1
	for x := mode; x < high; x++ {
		probs[x+1-low] = probs[x-low] * ratio(x)
	}
	for x := mode; x > low; x-- {
		probs[x-1-low] = probs[x-low] / ratio(x-1)
	}
	total := 0.0
	for _, p := range probs {
		total += p
	}
	for i := range probs {
		probs[i] /= total
	}
	return probs
}

// binomialProbs lists P(X = 0..n) for a chance of success with the given odds.
func binomialProbs(n int, odds float64) []float64 {
	mode := int(float64(n+1) * (odds / (1 + odds)))
	return fromRatios(0, n, mode, func(x int) float64 {
		return float64(n-x) / float64(x+1) * odds
	})
}

// BinomialAtLeast is P(X >= k) of n trials with a chance of success p, 0 < p < 1.
func BinomialAtLeast(k, n int, p float64) float64 {
	return sumFrom(binomialProbs(n, p/(1-p)), max(0, k))
}

// AtLeastOf is P(X >= k) of n trials with a chance of success p, for numbers of trials
// that need not be whole, trials that are alike counting for fewer: the incomplete beta
// function I_p(k, n-k+1).
func AtLeastOf(k, n, p float64) float64 {
	switch {
	case k <= 0:
		return 1
	case k > n:
		return 0
	case p <= 0 || p >= 1:
		return math.Round(p)
	}
	return mathext.RegIncBeta(k, n-k+1, p)
}

// AtMostOf is P(X <= k) likewise, 1 - I_p(k+1, n-k).
func AtMostOf(k, n, p float64) float64 { return 1 - AtLeastOf(k+1, n, p) }

// sumTo adds the probabilities of the places 0..last.
func sumTo(probs []float64, last int) float64 {
	total := 0.0
	for i := 0; i <= last && i < len(probs); i++ {
		total += probs[i]
	}
	return math.Min(1, total)
}

// sumFrom adds the probabilities of the places first..end, the small ones first.
func sumFrom(probs []float64, first int) float64 {
	total := 0.0
	for i := len(probs) - 1; i >= 0 && i >= first; i-- {
		total += probs[i]
	}
	return math.Min(1, total)
}

// sumNoLikelier adds every probability not above that of the place seen: the
// two-sided p of R's fisher.test and binom.test, with their slack for ties.
func sumNoLikelier(probs []float64, seen int) float64 {
	limit := probs[seen] * (1 + 1e-7)
	total := 0.0
	for _, p := range probs {
		if p <= limit {
			total += p
		}
	}
	return math.Min(1, total)
}
