package stats

import (
	"fmt"
	"math"
)

// RateRatio compares two counts seen over two exposures.
type RateRatio struct {
	// Ratio is (x1/t1)/(x2/t2) and Interval bounds it. With x2 = 0 both Ratio and
	// Interval.High are infinite and Unbounded is true.
	Ratio     float64
	Interval  Interval
	Unbounded bool
	// Less is the exact chance of a first count as small as seen if the rates are
	// equal, Greater of one as large; MidLess and MidGreater count the seen value
	// half; TwoSided adds every count no likelier than the one seen.
	Less, Greater, MidLess, MidGreater, TwoSided float64
}

// CompareRates tests whether x1 events over exposure t1 and x2 over t2 have the
// same rate. Given the total, x1 is Binomial(x1+x2, t1/(t1+t2)); the interval is
// [ClopperPearson]'s on that proportion p, turned into p/(1-p) t2/t1.
//
// It fails with ErrTooFew when both counts are 0 (nothing to test), ErrRange for
// counts below 0 or a total above a million, exposures not above 0, or a
// confidence outside 0..0.999999. [derived: r, poisson.test;
// statsmodels, exact-cond, cond-midp].
func CompareRates(x1 int, t1 float64, x2 int, t2, confidence float64) (RateRatio, error) {
	if err := checkCounts(x1, x2); err != nil {
		return RateRatio{}, err
	}
	if err := checkPositive([]float64{t1, t2}); err != nil {
		return RateRatio{}, err
	}
	if x1+x2 == 0 {
		return RateRatio{}, fmt.Errorf("%w: no events", ErrTooFew)
	}
	proportion, err := ClopperPearson(x1, x1+x2, confidence)
	if err != nil {
		return RateRatio{}, err
	}
	probs := binomialProbs(x1+x2, t1/t2)
	r := RateRatio{
		Ratio: math.Inf(1),
		Interval: Interval{
			Low:  proportion.Low / (1 - proportion.Low) / t1 * t2,
			High: math.Inf(1),
		},
		Unbounded: x2 == 0,
		Less:      sumTo(probs, x1),
		Greater:   sumFrom(probs, x1),
		TwoSided:  sumNoLikelier(probs, x1),
	}
	if !r.Unbounded {
		r.Ratio = float64(x1) / float64(x2) / t1 * t2
		r.Interval.High = proportion.High / (1 - proportion.High) / t1 * t2
	}
	r.MidLess = math.Max(0, r.Less-probs[x1]/2)
	r.MidGreater = math.Max(0, r.Greater-probs[x1]/2)
	return r, nil
}
