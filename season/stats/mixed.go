package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat/distuv"
)

// MixedData is the data of a linear mixed model with one fixed mean:
//
//	y = mean + shares . slopes + outer[o] + inner[i] + error/sqrt(weight)
//
// Shares has a row a value and a column a slope; the slopes share one variance.
// Outer and Inner number the clusters each value is in, from 0, inner clusters
// lying within outer ones; Outer is nil where every outer cluster would hold one
// inner cluster, since the two are then one.
type MixedData struct {
	Y, Weights   []float64
	Shares       [][]float64
	Outer, Inner []int
}

// Mixed is a fitted model. Slope, OuterVar, InnerVar and Error are variances;
// one that comes out 0 reads "none found".
type Mixed struct {
	Mean                             float64
	Slopes                           []float64
	Slope, OuterVar, InnerVar, Error float64
	// Criterion is -2 times the restricted log likelihood, constants left out
	// that do not depend on the variances.
	Criterion float64

	eq    *mixedEquations
	theta [3]float64
}

// mixedEquations are the weighted cross products of all columns: the mean, the
// slopes, the outer and the inner clusters; and of them with y.
type mixedEquations struct {
	n      int // values
	kind   []int
	cross  *mat.SymDense
	withY  []float64
	yy     float64
	logW   float64
	scaled *mat.SymDense
	chol   mat.Cholesky
	rhs    *mat.VecDense
	b      *mat.VecDense
}

// The kinds of columns; the random ones index Mixed.theta.
const (
	slopeColumn = iota
	outerColumn
	innerColumn
	fixedColumn
)

// FitMixed fits the model by restricted maximum likelihood. With the ratios of
// standard deviations theta_k = sd_k/sd_error, S the columns' theta, and A the
// cross products of the scaled columns with 1 added for each random one,
//
//	criterion(theta) = log det A + (N-1) log RSS,  RSS = y'Wy - b'S Z'Wy
//
// is least at the estimate; the error variance is RSS/(N-1), the means and
// slopes are the solution b of Henderson's equations (best linear unbiased
// prediction).
//
// It needs at least three values and two inner clusters, else ErrTooFew; fails
// with ErrShape for lists of different lengths, ErrRange for values that are not
// finite or weights not above 0, and ErrNoSpread where all values are equal.
//
// Sources: Henderson's equations and the profiled criterion (memory); compared
// with lme4 1.1-31 on a balanced table, whose variance components it gives.
func FitMixed(d MixedData) (*Mixed, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	eq := newMixedEquations(d)
	best, value := eq.minimise(d.Outer != nil)
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return nil, fmt.Errorf("%w: the values leave no variance to share out", ErrSingular)
	}
	return eq.fitted(best, value), nil
}

func (d MixedData) check() error {
	n := len(d.Y)
	if n != len(d.Weights) || n != len(d.Shares) || n != len(d.Inner) || (d.Outer != nil && n != len(d.Outer)) {
		return fmt.Errorf("%w: lists of different lengths", ErrShape)
	}
	if err := checkValues(d.Y); err != nil {
		return err
	}
	if n < 3 {
		return tooFew(n, 3)
	}
	if err := checkPositive(d.Weights); err != nil {
		return err
	}
	for _, row := range d.Shares {
		if len(row) != len(d.Shares[0]) {
			return fmt.Errorf("%w: rows of shares of different lengths", ErrShape)
		}
		if err := checkValues(row); err != nil {
			return err
		}
	}
	for _, list := range [][]int{d.Inner, d.Outer} {
		if len(list) > 0 && (slices.Min(list) < 0 || slices.Max(list) > largestCount) {
			return fmt.Errorf("%w: a cluster's number", ErrRange)
		}
	}
	if slices.Max(d.Inner) < 1 {
		return tooFew(1, 2)
	}
	if slices.Max(d.Y)-slices.Min(d.Y) <= 1e-12*maxAbs(d.Y) {
		return ErrNoSpread
	}
	return nil
}

// newMixedEquations sums the cross products once; every trial of variances
// only scales them.
func newMixedEquations(d MixedData) *mixedEquations {
	slopes := len(d.Shares[0])
	outers, inners := 0, slices.Max(d.Inner)+1
	if d.Outer != nil {
		outers = slices.Max(d.Outer) + 1
	}
	size := 1 + slopes + outers + inners
	eq := &mixedEquations{
		n: len(d.Y), kind: make([]int, size), cross: mat.NewSymDense(size, nil), withY: make([]float64, size),
		scaled: mat.NewSymDense(size, nil), rhs: mat.NewVecDense(size, nil), b: mat.NewVecDense(size, nil),
	}
	for j := range eq.kind {
		switch {
		case j == 0:
			eq.kind[j] = fixedColumn
		case j <= slopes:
			eq.kind[j] = slopeColumn
		case j <= slopes+outers:
			eq.kind[j] = outerColumn
		default:
			eq.kind[j] = innerColumn
		}
	}
	columns, values := make([]int, 0, slopes+3), make([]float64, 0, slopes+3)
	for i, y := range d.Y {
		columns, values = append(columns[:0], 0), append(values[:0], 1)
		for j, share := range d.Shares[i] {
			if share != 0 {
				columns, values = append(columns, 1+j), append(values, share)
			}
		}
		if d.Outer != nil {
			columns, values = append(columns, 1+slopes+d.Outer[i]), append(values, 1)
		}
		columns, values = append(columns, 1+slopes+outers+d.Inner[i]), append(values, 1)
		eq.addRow(columns, values, y, d.Weights[i])
	}
	return eq
}

func (eq *mixedEquations) addRow(columns []int, values []float64, y, w float64) {
	eq.yy += w * y * y
	eq.logW += math.Log(w)
	for a, j := range columns {
		eq.withY[j] += w * values[a] * y
		for b := a; b < len(columns); b++ {
			k := columns[b]
			eq.cross.SetSym(j, k, eq.cross.At(j, k)+w*values[a]*values[b])
		}
	}
}

// factor scales the equations by theta and solves them: log det A and RSS.
func (eq *mixedEquations) factor(theta [3]float64) (logDet, rss float64, ok bool) {
	size := len(eq.kind)
	scale := func(j int) float64 {
		if eq.kind[j] == fixedColumn {
			return 1
		}
		return theta[eq.kind[j]]
	}
	for j := range size {
		sj := scale(j)
		for k := j; k < size; k++ {
			v := eq.cross.At(j, k) * sj * scale(k)
			if j == k && eq.kind[j] != fixedColumn {
				v++
			}
			eq.scaled.SetSym(j, k, v)
		}
		eq.rhs.SetVec(j, sj*eq.withY[j])
	}
	if !eq.chol.Factorize(eq.scaled) {
		return 0, 0, false
	}
	if err := eq.chol.SolveVecTo(eq.b, eq.rhs); !solved(err) {
		return 0, 0, false
	}
	return eq.chol.LogDet(), eq.yy - mat.Dot(eq.b, eq.rhs), true
}

// criterion is the profiled REML criterion; the sign of a theta does not
// matter.
func (eq *mixedEquations) criterion(theta [3]float64) float64 {
	logDet, rss, ok := eq.factor(theta)
	if !ok || rss <= 1e-12*eq.yy {
		return math.Inf(1)
	}
	return logDet + float64(eq.n-1)*math.Log(rss)
}

// minimise looks for the best theta from two starts, and tries each component
// at exactly 0.
func (eq *mixedEquations) minimise(outer bool) ([3]float64, float64) {
	free := []int{slopeColumn, innerColumn}
	if outer {
		free = append(free, outerColumn)
	}
	best, value := [3]float64{}, eq.criterion([3]float64{})
	for _, start := range []float64{0.3, 1} {
		if theta, v := eq.descend(free, start); v < value {
			best, value = theta, v
		}
	}
	for _, k := range free {
		trial := best
		trial[k] = 0
		if v := eq.criterion(trial); v <= value+1e-9 {
			best, value = trial, v
		}
	}
	return best, value
}

// descend runs the simplex search over the free components.
func (eq *mixedEquations) descend(free []int, start float64) ([3]float64, float64) {
	expand := func(x []float64) (theta [3]float64) {
		for i, k := range free {
			theta[k] = math.Abs(x[i])
		}
		return theta
	}
	x := make([]float64, len(free))
	for i := range x {
		x[i] = start
	}
	problem := optimize.Problem{Func: func(x []float64) float64 { return eq.criterion(expand(x)) }}
	settings := &optimize.Settings{
		FuncEvaluations: 400,
		Converger:       &optimize.FunctionConverge{Absolute: 1e-8, Iterations: 12},
	}
	result, err := optimize.Minimize(problem, x, settings, &optimize.NelderMead{SimplexSize: 0.4})
	if result == nil || (err != nil && result.F >= math.MaxFloat64) {
		return [3]float64{}, math.Inf(1)
	}
	return expand(result.X), result.F
}

// fitted makes the answer at the best theta.
func (eq *mixedEquations) fitted(theta [3]float64, value float64) *Mixed {
	_, rss, _ := eq.factor(theta)
	m := &Mixed{Criterion: value, eq: eq, theta: theta, Error: rss / float64(eq.n-1)}
	m.Slope, m.OuterVar, m.InnerVar = theta[0]*theta[0]*m.Error, theta[1]*theta[1]*m.Error, theta[2]*theta[2]*m.Error
	m.Mean = eq.b.AtVec(0)
	for j, kind := range eq.kind {
		if kind == slopeColumn {
			m.Slopes = append(m.Slopes, theta[0]*eq.b.AtVec(j))
		}
	}
	return m
}

// NewValue is what is foreseen: the mean over figures of a new unit in a new
// outer cluster. Shares are the mean's shares of the slopes; ErrorWeight is the
// sum over its parts of (part of the mean)^2/weight.
type NewValue struct {
	Shares      []float64
	ErrorWeight float64
}

// MixedForecast is a forecast with its variance, and the degrees of freedom
// that the estimated variances leave it.
type MixedForecast struct {
	Mean, Variance, DF float64
}

// Range is the interval a new value falls in with the given probability, by
// Student's t.
func (f MixedForecast) Range(confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	half := math.Sqrt(f.Variance) * distuv.StudentsT{Mu: 0, Sigma: 1, Nu: f.DF}.Quantile((1+confidence)/2)
	return Interval{f.Mean - half, f.Mean + half}, nil
}

// Forecast foresees a new value: its variance holds that of mean and slopes
// (the prediction error of Henderson's equations; a slope never seen has its
// whole variance), a new outer and a new inner cluster, and the errors. The
// degrees of freedom are Satterthwaite's, 2 V^2/Var(V), Var(V) by the delta
// method from the curvature of the REML criterion, kept within least..N-1.
// ErrShape for another number of shares.
func (m *Mixed) Forecast(v NewValue, least float64) (MixedForecast, error) {
	if len(v.Shares) != len(m.Slopes) {
		return MixedForecast{}, fmt.Errorf("%w: %d shares for %d slopes", ErrShape, len(v.Shares), len(m.Slopes))
	}
	f := MixedForecast{Mean: m.Mean}
	for j, share := range v.Shares {
		f.Mean += share * m.Slopes[j]
	}
	variances := [4]float64{m.Slope, m.OuterVar, m.InnerVar, m.Error}
	f.Variance = m.eq.variance(variances, v)
	f.DF = math.Min(float64(m.eq.n-1), math.Max(least, m.eq.satterthwaite(variances, v)))
	return f, nil
}

// variance is a new value's variance at given variances (slope, outer, inner,
// error).
func (eq *mixedEquations) variance(variances [4]float64, v NewValue) float64 {
	e := variances[3]
	theta := [3]float64{math.Sqrt(variances[0] / e), math.Sqrt(variances[1] / e), math.Sqrt(variances[2] / e)}
	if _, _, ok := eq.factor(theta); !ok {
		return math.NaN()
	}
	x := mat.NewVecDense(len(eq.kind), nil)
	x.SetVec(0, 1)
	for j, share := range v.Shares {
		x.SetVec(1+j, theta[0]*share)
	}
	var solvedX mat.VecDense
	if err := eq.chol.SolveVecTo(&solvedX, x); !solved(err) {
		return math.NaN()
	}
	return e*mat.Dot(x, &solvedX) + variances[1] + variances[2] + e*v.ErrorWeight
}

// deviance is the REML criterion at given variances, not profiled.
func (eq *mixedEquations) deviance(variances [4]float64) float64 {
	e := variances[3]
	theta := [3]float64{math.Sqrt(variances[0] / e), math.Sqrt(variances[1] / e), math.Sqrt(variances[2] / e)}
	logDet, rss, ok := eq.factor(theta)
	if !ok {
		return math.NaN()
	}
	return logDet + float64(eq.n-1)*math.Log(e) + rss/e
}

// satterthwaite gives 2 V^2/Var(V); components that came out 0 are taken as
// known. NaN-free: where the curvature cannot be used it gives 0, and the
// caller's least holds.
func (eq *mixedEquations) satterthwaite(variances [4]float64, v NewValue) float64 {
	var free []int
	for k, value := range variances {
		if value > 1e-6*variances[3] {
			free = append(free, k)
		}
	}
	n := len(free)
	hessian, gradient := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	at := func(shift map[int]float64) [4]float64 {
		moved := variances
		for k, h := range shift {
			moved[k] += h
		}
		return moved
	}
	step := func(i int) float64 { return 0.02 * variances[free[i]] }
	centre := eq.deviance(variances)
	for i, a := range free {
		h := step(i)
		up, down := at(map[int]float64{a: h}), at(map[int]float64{a: -h})
		gradient.SetVec(i, (eq.variance(up, v)-eq.variance(down, v))/(2*h))
		hessian.SetSym(i, i, (eq.deviance(up)-2*centre+eq.deviance(down))/(h*h))
		for j := i + 1; j < n; j++ {
			b, g := free[j], step(j)
			cross := eq.deviance(at(map[int]float64{a: h, b: g})) - eq.deviance(at(map[int]float64{a: h, b: -g})) -
				eq.deviance(at(map[int]float64{a: -h, b: g})) + eq.deviance(at(map[int]float64{a: -h, b: -g}))
			hessian.SetSym(i, j, cross/(4*h*g))
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(hessian) {
		return 0
	}
	var spread mat.VecDense
	if err := chol.SolveVecTo(&spread, gradient); !solved(err) {
		return 0
	}
	total := eq.variance(variances, v)
	df := total * total / mat.Dot(gradient, &spread) // 2 V^2/(g' 2 H^-1 g)
	if math.IsNaN(df) || df < 0 {
		return 0
	}
	return df
}
