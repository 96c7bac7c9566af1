package stats

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/optimize"
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
	// LeastError is an error variance that the values cannot lie below: what
	// their rounding leaves. 0 where they are not rounded.
	LeastError float64
}

// Mixed is a fitted model. Slope, OuterVar, InnerVar and Error are variances.
// OuterVar and InnerVar come out below 0 where clusters differ less than what
// is in them would make them by itself; 0 or less reads "none found".
type Mixed struct {
	Mean                             float64
	Slopes                           []float64
	Slope, OuterVar, InnerVar, Error float64
	// Criterion is -2 times the restricted log likelihood, constants left out
	// that do not depend on the variances.
	Criterion float64

	eq    *mixedEquations
	point mixedPoint

	curved sync.Once
	curve  *curvature // of the criterion at the point, once it was asked for
}

// mixedPoint holds the logarithms of the variances of errors and of slopes, and
// of the mean squares that an analysis of variance would name,
//
//	inner = Error + w InnerVar
//	outer = Error + w InnerVar + n w OuterVar
//
// w being the largest weight of an inner cluster and n the most of them in an
// outer one. Every point of this space is a possible model, those with a
// component below 0 too.
type mixedPoint [4]float64

const (
	errorLog = iota
	slopeLog
	innerLog
	outerLog
)

// mixedVariances are the variances of slopes, outer and inner clusters, errors.
type mixedVariances struct{ slope, outer, inner, error float64 }

// mixedEquations are the weighted cross products of the columns: the mean, the
// slopes and, last, y. Clusters have no columns: each takes a product of its
// sums from the others' (Sherman and Morrison's formula).
type mixedEquations struct {
	values                   int
	cross                    []float64 // by row, upper half
	inner                    []mixedCluster
	outer                    []mixedCluster // their sums are worked out at each trial
	innerWeight, outerWeight float64        // w and n w of mixedPoint
	work                     blas64.Symmetric
}

// mixedCluster holds a cluster's weight, the weighted sum of each column, and
// the outer cluster that an inner one is in.
type mixedCluster struct {
	weight float64
	sums   []float64
	outer  int
}

// FitMixed fits the model by restricted maximum likelihood. With V the variance
// of y over that of errors, at given ratios of variances, X the mean's column
// and Z the slopes' scaled to variance 1, A = (X Z)'U(X Z) with 1 added for each
// slope, U the inverse of V without the slopes' part,
//
//	criterion = log det A - log det U + (N-1) log RSS
//	RSS       = y'Uy - b'(X Z)'Uy,   A b = (X Z)'Uy
//
// is least at the estimate; the error variance is RSS/(N-1), and b holds mean
// and slopes (Henderson's equations, best linear unbiased prediction).
//
// The components of inner and outer clusters are not cut off at 0, as long as
// the mean squares stay above a hundredth of the error variance. What a forecast
// needs is their sum with the errors, and a cut makes that too large where the
// components are small: by a fifth at eight flights (derived, by simulation).
//
// Where the error variance comes out below LeastError, as where all values of a
// cluster are rounded to the same, the sum of squares that is lacking within inner
// clusters is added to RSS. That leaves the components between clusters as they
// are (derived: with balanced clusters the estimates are those of an analysis of
// variance), while with no error variance at all there would be no ratio to any.
//
// It needs at least three values, two inner clusters, and two outer ones where
// there are any, else ErrTooFew; fails with ErrShape for lists of different
// lengths, ErrRange for values that are not finite, weights not above 0 or
// a LeastError below 0, and ErrNoSpread where all values are equal.
//
// Sources: Henderson's equations and the profiled criterion (memory); compared
// with lme4 1.1-31 on a balanced table, whose variance components it gives.
func FitMixed(d MixedData) (*Mixed, error) {
	if err := d.check(); err != nil {
		return nil, err
	}
	eq := newMixedEquations(d)
	m, err := eq.fit()
	within := float64(len(d.Y) - len(eq.inner))
	switch {
	case within <= 0 || d.LeastError == 0:
		return m, err
	case err != nil:
		return eq.widened(within * d.LeastError).fit()
	case m.Error < d.LeastError:
		return eq.widened(within * (d.LeastError - m.Error)).fit()
	default:
		return m, nil
	}
}

// widened adds to what no model explains.
func (eq *mixedEquations) widened(squares float64) *mixedEquations {
	eq.cross[len(eq.cross)-1] += squares
	return eq
}

func (eq *mixedEquations) fit() (*Mixed, error) {
	best, value := eq.minimise()
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
	if err := checkValues([]float64{d.LeastError}); err != nil {
		return err
	}
	if d.LeastError < 0 {
		return fmt.Errorf("%w: a least error variance of %g", ErrRange, d.LeastError)
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
	if slices.Max(d.Inner) < 1 || (d.Outer != nil && slices.Max(d.Outer) < 1) {
		return tooFew(1, 2)
	}
	if slices.Max(d.Y)-slices.Min(d.Y) <= 1e-12*maxAbs(d.Y) {
		return ErrNoSpread
	}
	return nil
}

// newMixedEquations sums the cross products once; every trial of variances
// only weighs them.
func newMixedEquations(d MixedData) *mixedEquations {
	size := len(d.Shares[0]) + 2
	eq := &mixedEquations{
		values: len(d.Y), cross: make([]float64, size*size), inner: newClusters(d.Inner, size), outer: newClusters(d.Outer, size),
		work: blas64.Symmetric{N: size, Stride: size, Data: make([]float64, size*size), Uplo: blas.Upper},
	}
	row := make([]float64, size)
	row[0] = 1
	for i, y := range d.Y {
		copy(row[1:], d.Shares[i])
		row[size-1] = y
		addProduct(eq.cross, row, d.Weights[i])
		cluster := &eq.inner[d.Inner[i]]
		cluster.add(d.Weights[i], row, d.Weights[i])
		if d.Outer != nil {
			cluster.outer = d.Outer[i]
		}
	}
	members := make([]float64, max(1, len(eq.outer)))
	for _, c := range eq.inner {
		eq.innerWeight = math.Max(eq.innerWeight, c.weight)
		members[c.outer]++
	}
	eq.outerWeight = eq.innerWeight * slices.Max(members)
	return eq
}

func newClusters(numbers []int, size int) []mixedCluster {
	if len(numbers) == 0 {
		return nil
	}
	clusters := make([]mixedCluster, slices.Max(numbers)+1)
	for i := range clusters {
		clusters[i].sums = make([]float64, size)
	}
	return clusters
}

func (c *mixedCluster) add(weight float64, row []float64, factor float64) {
	c.weight += weight
	for j, x := range row {
		c.sums[j] += factor * x
	}
}

// addProduct adds factor row'row to the upper half of a matrix.
func addProduct(matrix, row []float64, factor float64) {
	for j, x := range row {
		if x == 0 {
			continue
		}
		line := matrix[j*len(row) : (j+1)*len(row)]
		for k := j; k < len(row); k++ {
			line[k] += factor * x * row[k]
		}
	}
}

// variances gives the variances at a point.
func (eq *mixedEquations) variances(p mixedPoint) mixedVariances {
	e, inner := math.Exp(p[errorLog]), math.Exp(p[innerLog])
	v := mixedVariances{slope: math.Exp(p[slopeLog]), inner: (inner - e) / eq.innerWeight, error: e}
	if len(eq.outer) > 0 {
		v.outer = (math.Exp(p[outerLog]) - inner) / eq.outerWeight
	}
	return v
}

// eliminate takes the clusters out of the cross products; it gives log det V
// without the slopes' part.
func (eq *mixedEquations) eliminate(v mixedVariances) (logDet float64) {
	copy(eq.work.Data, eq.cross)
	take := func(c mixedCluster, ratio float64) float64 {
		whole := 1 + ratio*c.weight
		logDet += math.Log(whole)
		if ratio != 0 {
			addProduct(eq.work.Data, c.sums, -ratio/whole)
		}
		return whole
	}
	for i := range eq.outer {
		eq.outer[i].weight = 0
		clear(eq.outer[i].sums)
	}
	for _, c := range eq.inner {
		whole := take(c, v.inner/v.error)
		if len(eq.outer) > 0 {
			eq.outer[c.outer].add(c.weight/whole, c.sums, 1/whole)
		}
	}
	for _, c := range eq.outer {
		take(c, v.outer/v.error)
	}
	return logDet
}

// factor leaves in work the triangle R of A with y's column, R'R the whole: it
// gives log det A - log det U, and RSS.
func (eq *mixedEquations) factor(v mixedVariances) (logDet, rss float64, ok bool) {
	logDet = eq.eliminate(v)
	n, a, scale := eq.work.N, eq.work.Data, math.Sqrt(v.slope/v.error)
	for j := 1; j < n-1; j++ {
		a[j] *= scale
		a[j*n+n-1] *= scale
		for k := j; k < n-1; k++ {
			a[j*n+k] *= scale * scale
		}
		a[j*n+j]++
	}
	if _, ok := lapack64.Potrf(eq.work); !ok {
		return 0, 0, false
	}
	for j := range n - 1 {
		logDet += 2 * math.Log(a[j*n+j])
	}
	return logDet, a[n*n-1] * a[n*n-1], !math.IsNaN(logDet)
}

// triangle is R without y's column.
func (eq *mixedEquations) triangle() blas64.Triangular {
	return blas64.Triangular{N: eq.work.N - 1, Stride: eq.work.N, Data: eq.work.Data, Uplo: blas.Upper, Diag: blas.NonUnit}
}

// leastSquare bounds mean squares from below, over the error variance.
const leastSquare = 0.01

// trial is the point that the search's numbers stand for, with an error variance
// of 1: x[0] is the standard deviation of slopes, the rest the logarithms of the
// mean squares of inner and outer clusters above their bound.
func trial(x []float64) mixedPoint {
	p := mixedPoint{slopeLog: 2 * math.Log(math.Abs(x[0]))}
	for k, square := range x[1:] {
		p[innerLog+k] = math.Log(leastSquare + math.Exp(square))
	}
	return p
}

// criterion is the profiled REML criterion.
func (eq *mixedEquations) criterion(x []float64) float64 {
	logDet, rss, ok := eq.factor(eq.variances(trial(x)))
	if !ok || rss <= 1e-12*eq.cross[len(eq.cross)-1] {
		return math.Inf(1)
	}
	return logDet + float64(eq.values-1)*math.Log(rss)
}

// minimise looks for the best point, and tries slopes that are exactly 0.
func (eq *mixedEquations) minimise() ([]float64, float64) {
	best, value := eq.descend(eq.start())
	without := append([]float64{0}, best[1:]...)
	if v := eq.criterion(without); v <= value+1e-9 {
		best, value = without, v
	}
	return best, value
}

// start is the best point of a coarse grid: with few outer clusters there may be
// a second valley, where their mean squares are next to nothing. It reaches to
// where errors are next to nothing: no way downhill leads there from afar, since
// the criterion has no value beyond.
func (eq *mixedEquations) start() []float64 {
	squares := []float64{-4, -1, 0, 1, 2, 3.5, 6, 9}
	outers := squares
	if len(eq.outer) == 0 {
		outers = squares[:1]
	}
	best, value := []float64{0.5, 0, 0}[:2+min(1, len(eq.outer))], math.Inf(1)
	for _, inner := range squares {
		for _, outer := range outers {
			x := []float64{0.5, inner, outer}[:len(best)]
			if v := eq.criterion(x); v < value {
				best, value = x, v
			}
		}
	}
	return best
}

// descend runs downhill from a point, by quasi-Newton steps (BFGS).
func (eq *mixedEquations) descend(start []float64) ([]float64, float64) {
	problem := optimize.Problem{Func: eq.criterion, Grad: func(gradient, x []float64) {
		fd.Gradient(gradient, eq.criterion, x, &fd.Settings{Formula: fd.Central, Step: 1e-4})
	}}
	settings := &optimize.Settings{MajorIterations: 60, GradientThreshold: 1e-4, Converger: &optimize.FunctionConverge{Absolute: 1e-8, Iterations: 3}}
	result, err := optimize.Minimize(problem, start, settings, &optimize.BFGS{})
	if result == nil || (err != nil && result.F >= math.MaxFloat64) {
		return start, math.Inf(1)
	}
	return result.X, result.F
}

// fitted makes the answer at the best point.
func (eq *mixedEquations) fitted(x []float64, value float64) *Mixed {
	p := trial(x)
	ratios := eq.variances(p)
	_, rss, _ := eq.factor(ratios)
	m := &Mixed{Criterion: value, eq: eq, Error: rss / float64(eq.values-1)}
	m.Slope, m.OuterVar, m.InnerVar = ratios.slope*m.Error, ratios.outer*m.Error, ratios.inner*m.Error
	for k := range p {
		m.point[k] = p[k] + math.Log(m.Error)
	}
	n := eq.work.N
	b := blas64.Vector{N: n - 1, Inc: 1, Data: make([]float64, n-1)}
	for j := range b.Data {
		b.Data[j] = eq.work.Data[j*n+n-1]
	}
	blas64.Trsv(blas.NoTrans, eq.triangle(), b)
	m.Mean = b.Data[0]
	for _, slope := range b.Data[1:] {
		m.Slopes = append(m.Slopes, math.Sqrt(ratios.slope)*slope)
	}
	return m
}
