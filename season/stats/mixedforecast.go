package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// NewValue is what is predicted: the mean over figures of a new unit in a new
// outer cluster. Shares are the mean's shares of the slopes; ErrorWeight is the
// sum over its parts of (part of the mean)^2/weight. Unknown is for parts whose
// slopes nobody knows: the sum of (part of the mean)^2 over them, as if each hung
// on one slope of its own; 0 where all are known.
type NewValue struct {
	Shares      []float64
	ErrorWeight float64
	Unknown     float64
}

// MixedForecast is a forecast with its variance, and the degrees of freedom
// that the estimated variances leave it.
type MixedForecast struct {
	Mean, Variance, DF float64
}

// Range is the interval a new value falls in with the given probability, by
// Student's t. It fails with ErrRange for a confidence outside 0..0.999999 and
// with ErrTooFew where there are no degrees of freedom.
func (f MixedForecast) Range(confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	if !(f.DF > 0) {
		return Interval{}, fmt.Errorf("%w: no degrees of freedom", ErrTooFew)
	}
	half := math.Sqrt(f.Variance) * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: f.DF}.Quantile((1+confidence)/2)
	return Interval{f.Mean - half, f.Mean + half}, nil
}

// ownShare is how much of the errors' variance a new value keeps for itself, at
// the least, where components are below 0.
const ownShare = 0.5

// Forecast predicts a new value: its variance holds that of mean and slopes
// (the prediction error of Henderson's equations; a slope never seen, or not
// known, has its whole variance), a new outer and a new inner cluster, and the errors; the last
// three together at least half of what the errors alone are. The degrees of
// freedom are Satterthwaite's, 2 V^2/Var(V), Var(V) by the delta method from the
// curvature of the REML criterion, kept within least..N-1.
//
// It fails with ErrShape for another number of shares, ErrRange for numbers out
// of range or below 0, and ErrSingular where the fitted variances do not let
// themselves be solved for.
func (m *Mixed) Forecast(v NewValue, least float64) (MixedForecast, error) {
	if len(v.Shares) != len(m.Slopes) {
		return MixedForecast{}, fmt.Errorf("%w: %d shares for %d slopes", ErrShape, len(v.Shares), len(m.Slopes))
	}
	if err := checkValues(v.Shares, []float64{v.ErrorWeight, v.Unknown, least}); err != nil {
		return MixedForecast{}, err
	}
	if v.ErrorWeight < 0 || v.Unknown < 0 || least < 0 {
		return MixedForecast{}, fmt.Errorf("%w: error weight %g, unknown part %g, %g degrees of freedom", ErrRange, v.ErrorWeight, v.Unknown, least)
	}
	f := MixedForecast{Mean: m.Mean}
	for j, share := range v.Shares {
		f.Mean += share * m.Slopes[j]
	}
	errors := m.Error * v.ErrorWeight
	f.Variance = m.eq.variance(m.point, v) + math.Max(0, ownShare*errors-(m.OuterVar+m.InnerVar+errors))
	if math.IsNaN(f.Variance) {
		return MixedForecast{}, fmt.Errorf("%w: the variances leave nothing to predict by", ErrSingular)
	}
	f.DF = math.Min(float64(m.eq.values-1), math.Max(least, m.satterthwaite(v)))
	return f, nil
}

// variance is a new value's variance at a point.
func (eq *mixedEquations) variance(p mixedPoint, v NewValue) float64 {
	at := eq.variances(p)
	if _, _, ok := eq.factor(at); !ok {
		return math.NaN()
	}
	x := blas64.Vector{N: eq.work.N - 1, Inc: 1, Data: make([]float64, eq.work.N-1)}
	x.Data[0] = 1
	for j, share := range v.Shares {
		x.Data[1+j] = math.Sqrt(at.slope/at.error) * share
	}
	blas64.Trsv(blas.Trans, eq.triangle(), x)
	return at.error*blas64.Dot(x, x) + at.slope*v.Unknown + at.outer + at.inner + at.error*v.ErrorWeight
}

// deviance is the REML criterion at a point, not profiled.
func (eq *mixedEquations) deviance(p mixedPoint) float64 {
	logDet, rss, ok := eq.factor(eq.variances(p))
	if !ok {
		return math.NaN()
	}
	return logDet + float64(eq.values-1)*p[errorLog] + rss/math.Exp(p[errorLog])
}

// free lists the coordinates of a point that the data placed: slopes that came
// out 0 and mean squares at their bound are taken as known.
func (eq *mixedEquations) free(p mixedPoint) []int {
	free := []int{errorLog}
	if p[slopeLog] > p[errorLog]+math.Log(1e-6) {
		free = append(free, slopeLog)
	}
	for k := innerLog; k <= outerLog; k++ {
		if p[k] > p[errorLog]+math.Log(1.1*leastSquare) && (k == innerLog || len(eq.outer) > 0) {
			free = append(free, k)
		}
	}
	return free
}

// curvature is that of the REML criterion in the free coordinates of a point,
// factored; ok is false where it cannot be used.
type curvature struct {
	free []int
	chol mat.Cholesky
	ok   bool
}

// logStep is that of central differences, in logarithms of variances.
const logStep = 0.05

// curvature at a point, by central differences.
func (eq *mixedEquations) curvature(p mixedPoint) *curvature {
	c := &curvature{free: eq.free(p)}
	at := func(i int, byI float64, j int, byJ float64) float64 {
		moved := p
		moved[c.free[i]] += byI
		moved[c.free[j]] += byJ
		return eq.deviance(moved)
	}
	hessian := mat.NewSymDense(len(c.free), nil)
	centre := eq.deviance(p)
	for i := range c.free {
		hessian.SetSym(i, i, (at(i, logStep, i, 0)-2*centre+at(i, -logStep, i, 0))/(logStep*logStep))
		for j := i + 1; j < len(c.free); j++ {
			cross := at(i, logStep, j, logStep) - at(i, logStep, j, -logStep) - at(i, -logStep, j, logStep) + at(i, -logStep, j, -logStep)
			hessian.SetSym(i, j, cross/(4*logStep*logStep))
		}
	}
	c.ok = c.chol.Factorize(hessian)
	return c
}

// satterthwaite gives 2 V^2/Var(V) by central differences. Where the curvature
// cannot be used it gives 0, and the caller's least holds.
func (m *Mixed) satterthwaite(v NewValue) float64 {
	m.curved.Do(func() { m.curve = m.eq.curvature(m.point) })
	c := m.curve
	if !c.ok {
		return 0
	}
	gradient := mat.NewVecDense(len(c.free), nil)
	for i, k := range c.free {
		up, down := m.point, m.point
		up[k] += logStep
		down[k] -= logStep
		gradient.SetVec(i, (m.eq.variance(up, v)-m.eq.variance(down, v))/(2*logStep))
	}
	var spread mat.VecDense
	if !solved(c.chol.SolveVecTo(&spread, gradient)) {
		return 0
	}
	total := m.eq.variance(m.point, v)
	df := total * total / mat.Dot(gradient, &spread) // 2 V^2/(g' 2 H^-1 g)
	if math.IsNaN(df) || df < 0 {
		return 0
	}
	return df
}
