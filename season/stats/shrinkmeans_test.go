package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// What follows draws means with known variances towards each other. It is no part
// of the program: the model of shares is held against it, and it against published
// numbers.

// Shrunk is one mean drawn towards the mean of all.
type Shrunk struct {
	// Value is the shrunken mean and SE its standard error; Pull the share of the
	// way it was drawn to the common mean, 0..1.
	Value, SE, Pull float64
	// Gap is Value less the common mean and GapSE the standard error of that
	// difference.
	Gap, GapSE float64
}

// GapInterval is Gap -+ z GapSE; ok is false for a confidence outside
// 0..0.999999.
func (s Shrunk) GapInterval(confidence float64) (interval Interval, ok bool) {
	if checkConfidence(confidence) != nil {
		return Interval{}, false
	}
	half := -normalQuantile((1-confidence)/2) * s.GapSE
	return Interval{s.Gap - half, s.Gap + half}, true
}

// Shrinkage is the result of [Shrink].
type Shrinkage struct {
	// TauSquared is the variance between the true means, the chance of each
	// estimate apart; 0 reads "the spread is what chance gives".
	TauSquared float64
	// Mean and MeanSE are the common mean and its standard error.
	Mean, MeanSE float64
	// Q is the weighted sum of squares about the mean at TauSquared = 0, and
	// QP the chance of one as large on k-1 degrees of freedom without spread.
	Q, QP float64
	// Items are the shrunken means in the order given.
	Items []Shrunk
}

// Shrink draws means y with variances v towards their common mean, the spread
// between them estimated by [PauleMandel]. See [ShrinkAt] for the formulas. It
// fails with ErrTooFew for fewer than three means, ErrShape for different
// lengths, ErrRange for values out of range or v not above 0.
func Shrink(y, v []float64) (Shrinkage, error) {
	if len(y) < 3 {
		return Shrinkage{}, tooFew(len(y), 3)
	}
	tau, err := PauleMandel(y, v)
	if err != nil {
		return Shrinkage{}, err
	}
	return ShrinkAt(y, v, tau)
}

// ShrinkAt draws the k means y with variances v towards their common mean, given
// the variance t between the true means.
//
//	mean = sum w y/sum w, w = 1/(v_i + t), MeanSE = 1/sqrt(sum w)
//	B = v_i/(v_i + t), value = B mean + (1-B) y_i
//	SE^2 = (1-B) v_i + B^2/sum w;  GapSE^2 = (1-B) v_i + (1-B)^2/sum w
//
// The standard errors take t as known: too small for six means or fewer. With
// t = 0 every value is the mean. It fails with ErrTooFew for fewer than two
// means, ErrShape, ErrRange (t below 0 as well).
//
// [derived: metafor, rma; metafor, blup]; the textbook example is Bayesian Data
// Analysis's [memory].
func ShrinkAt(y, v []float64, t float64) (Shrinkage, error) {
	if err := checkMeans(y, v); err != nil {
		return Shrinkage{}, err
	}
	if !(t >= 0 && t <= largest*largest) {
		return Shrinkage{}, fmt.Errorf("%w: variance %g", ErrRange, t)
	}
	m, weight := commonMean(y, v, t)
	q := spreadAbout(y, v, 0)
	s := Shrinkage{
		TauSquared: t,
		Mean:       m,
		MeanSE:     math.Sqrt(1 / weight),
		Q:          q,
		QP:         chiSquareUpper(q, len(y)-1),
		Items:      make([]Shrunk, len(y)),
	}
	for i := range y {
		b := v[i] / (v[i] + t)
		keep := t / (v[i] + t)
		s.Items[i] = Shrunk{
			Value: b*m + keep*y[i],
			SE:    math.Sqrt(keep*v[i] + b*b/weight),
			Pull:  b,
			Gap:   keep * (y[i] - m),
			GapSE: math.Sqrt(keep*v[i] + keep*keep/weight),
		}
	}
	return s, nil
}

// PauleMandel estimates the variance between true means from k means y with
// variances v: the t at which
//
//	Q(t) = sum (y_i - mean_t)^2/(v_i + t),  mean_t as in ShrinkAt
//
// comes down to k-1, or 0 when Q(0) <= k-1. Q falls in t, so bisection finds it.
// It fails with ErrTooFew for fewer than two means, ErrShape for different
// lengths, ErrRange for values out of range or v not above 0. Equal means give 0.
// Paule and Mandel 1982 [memory] [derived: metafor, rma] with tight tolerances.
func PauleMandel(y, v []float64) (float64, error) {
	if err := checkMeans(y, v); err != nil {
		return 0, err
	}
	return solveSpread(y, v, float64(len(y)-1)), nil
}

// QProfile bounds the variance between true means: the t at which Q(t) of
// [PauleMandel] equals the upper and lower (1-c)/2 points of chi-square on k-1
// degrees of freedom, an end being 0 when Q(0) lies below its point. It fails as
// PauleMandel does, and with ErrRange for a confidence outside 0..0.999999.
// Viechtbauer 2007 [memory] [derived: metafor, rma] with tight tolerances.
func QProfile(y, v []float64, confidence float64) (Interval, error) {
	if err := checkMeans(y, v); err != nil {
		return Interval{}, err
	}
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	tail, df := (1-confidence)/2, len(y)-1
	return Interval{
		Low:  solveSpread(y, v, chiSquareQuantile(1-tail, df)),
		High: solveSpread(y, v, chiSquareQuantile(tail, df)),
	}, nil
}

func checkMeans(y, v []float64) error {
	if err := checkSameLength(len(y), len(v)); err != nil {
		return err
	}
	if len(y) < 2 {
		return tooFew(len(y), 2)
	}
	if err := checkValues(y); err != nil {
		return err
	}
	return checkPositive(v)
}

// commonMean is the mean weighted with 1/(v + t), and the sum of the weights.
func commonMean(y, v []float64, t float64) (m, weight float64) {
	for i := range y {
		weight += 1 / (v[i] + t)
	}
	for i := range y {
		m += y[i] / (v[i] + t) / weight
	}
	return m, weight
}

// spreadAbout is Q(t).
func spreadAbout(y, v []float64, t float64) float64 {
	m, _ := commonMean(y, v, t)
	q := 0.0
	for i := range y {
		q += (y[i] - m) * (y[i] - m) / (v[i] + t)
	}
	return q
}

// solveSpread is the t with Q(t) = target, 0 when Q(0) is no larger.
func solveSpread(y, v []float64, target float64) float64 {
	if !(spreadAbout(y, v, 0) > target) || !(target > 0) {
		return 0
	}
	high := maxAbs(v)
	for spreadAbout(y, v, high) > target {
		high *= 2
	}
	low := 0.0
	for range 2000 {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			break
		}
		if spreadAbout(y, v, middle) > target {
			low = middle
		} else {
			high = middle
		}
	}
	return high
}

// chiSquareUpper is P(X >= x).
func chiSquareUpper(x float64, df int) float64 {
	return distuv.ChiSquared{K: float64(df)}.Survival(x)
}
