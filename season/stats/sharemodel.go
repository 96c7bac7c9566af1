package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// ShareData are units seen several times, each made of shares of parts:
//
//	z = M mu + X b + a + e;  b ~ N(0, tau^2 I) parts,  a ~ N(0, sa^2 I) units,  e ~ N(0, Variance/Times)
//
// Z has a value a unit, the mean of what was seen of it, and Times how often
// that was. Shares is X, a row a unit and a column a part. Level numbers from 0
// the mean mu that a unit is of, the columns of M; nil is one mean for all.
// Variance, on DF degrees of freedom, is that of one sighting about its unit.
// Step is the grid's width, in what Z is measured in: see [FitShares].
type ShareData struct {
	Z, Times []float64
	Shares   [][]float64
	Level    []int
	Variance float64
	DF       int
	Step     float64
}

// The grid: tau and sa take the middles of ShareSteps steps, with a prior that
// falls off as a normal of scale SharePrior steps does, a choice. With fewer degrees
// of freedom than LeastShareDF the variance is too uncertain to use: the units' own
// then stands for both, up to twice as far and without its prior.
const (
	ShareSteps   = 12
	SharePrior   = 6
	LeastShareDF = 5

	leastWeight = 1e-15 // of a point of the grid, the largest being 1
)

// ShareFit is the model after the data: every point of the grid with its weight.
type ShareFit struct {
	// Tau and Unit are the means of tau and sa over the grid; TauSquared and
	// UnitSquared of their squares.
	Tau, Unit, TauSquared, UnitSquared float64
	// Levels are the means mu, Parts the effects b, over the grid.
	Levels, Parts []float64
	// Pooled says that Variance was used: there were degrees of freedom enough.
	Pooled bool

	data   ShareData
	layers []shareLayer
	points []sharePoint
}

// shareLayer is all points of one sa: what the data say of the parts there, the
// levels and the units taken out, and the moments of b over its taus.
type shareLayer struct {
	unit       float64   // sa
	keep       []float64 // by unit: sa^2/(sa^2 + Variance/Times)
	levels     []float64 // M'D^-1 M, a diagonal
	levelSums  []float64 // M'D^-1 z
	levelParts []float64 // M'D^-1 X, by row
	weight     float64   // sum of w over the taus
	first      []float64 // sum of w b
	second     []float64 // sum of w (b b' + covariance), by row
}

// sharePoint is one point: effects of the parts and their covariance, by row.
type sharePoint struct {
	layer       int
	tau, weight float64
	parts       []float64
	covariance  []float64
}

// FitShares fits the model on a fixed grid of tau and sa, each in {.5, 1.5 ...
// 11.5} Steps:
//
//	V = tau^2 X X' + diag(sa^2 + Variance/Times)
//	log w = -.5 log|V| - .5 log|M'V^-1 M| - .5 (z-M mu)'V^-1(z-M mu) - (tau^2 + sa^2)/(72 Step^2)
//
// With DF below 5 the variance counts as 0, sa goes up to 23.5 Steps and has no
// prior. The grid is the prior, so there is neither sampling nor an optimiser.
//
// V is never built: with D its diagonal part, levels and units leave a system of
// the parts alone at each sa, to whose diagonal each tau adds 1/tau^2, and
// log|V| + log|M'V^-1 M| = log|D| + parts log tau^2 + log|system| (the matrix
// inversion lemma; Henderson's equations).
//
// It fails with ErrTooFew without units or parts, ErrShape where lists differ in
// length or a level has no unit, ErrRange for values that are not finite, Times
// or Step not above 0, a Variance below 0. [derived: two-programs,
// Python and R], by V^-1 and by the mixed model's equations.
func FitShares(d ShareData) (*ShareFit, error) {
	if d.Level == nil {
		d.Level = make([]int, len(d.Z))
	}
	if err := d.check(); err != nil {
		return nil, err
	}
	f := &ShareFit{data: d, Pooled: d.DF >= LeastShareDF}
	steps := ShareSteps
	if !f.Pooled {
		f.data.Variance, steps = 0, 2*ShareSteps
	}
	var logs []float64
	for i := range steps {
		layer, system := f.layerAt((float64(i) + 0.5) * d.Step)
		f.layers = append(f.layers, layer)
		for j := range ShareSteps {
			point, log := f.pointAt(i, (float64(j)+0.5)*d.Step, system)
			f.points, logs = append(f.points, point), append(logs, log)
		}
	}
	return f, f.weigh(logs)
}

func (d ShareData) check() error {
	n := len(d.Z)
	if n != len(d.Times) || n != len(d.Shares) || n != len(d.Level) {
		return fmt.Errorf("%w: lists of different lengths", ErrShape)
	}
	if n == 0 || len(d.Shares[0]) == 0 {
		return tooFew(0, 1)
	}
	if err := checkValues(d.Z, []float64{d.Variance}); err != nil {
		return err
	}
	if err := checkPositive(append([]float64{d.Step}, d.Times...)); err != nil {
		return err
	}
	if d.Variance < 0 {
		return fmt.Errorf("%w: a variance of %g", ErrRange, d.Variance)
	}
	for _, row := range d.Shares {
		if len(row) != len(d.Shares[0]) {
			return fmt.Errorf("%w: rows of shares of different lengths", ErrShape)
		}
	}
	if err := checkValues(d.Shares...); err != nil {
		return err
	}
	return checkLevels(d.Level)
}

// checkLevels refuses a level that no unit is of.
func checkLevels(levels []int) error {
	if slices.Min(levels) < 0 || slices.Max(levels) >= len(levels) {
		return fmt.Errorf("%w: a level's number", ErrShape)
	}
	used := make([]bool, slices.Max(levels)+1)
	for _, level := range levels {
		used[level] = true
	}
	if slices.Contains(used, false) {
		return fmt.Errorf("%w: a level without a unit", ErrShape)
	}
	return nil
}

func (d ShareData) parts() int { return len(d.Shares[0]) }

// shareSystem is what one sa leaves of the data for the parts: matrix b = right,
// and the terms of log w that no tau changes.
type shareSystem struct {
	matrix, right []float64
	squares       float64 // z'D^-1 z without what the levels explain
	log           float64 // log|D| + log|M'D^-1 M|
}

// layerAt takes units and levels out of the equations.
func (f *ShareFit) layerAt(unit float64) (shareLayer, shareSystem) {
	d, parts := f.data, f.data.parts()
	levels := slices.Max(d.Level) + 1
	l := shareLayer{
		unit: unit, keep: make([]float64, len(d.Z)), levels: make([]float64, levels), levelSums: make([]float64, levels),
		levelParts: make([]float64, levels*parts), first: make([]float64, parts), second: make([]float64, parts*parts),
	}
	s := shareSystem{matrix: make([]float64, parts*parts), right: make([]float64, parts)}
	for i, z := range d.Z {
		diagonal, at := unit*unit+d.Variance/d.Times[i], d.Level[i]
		l.keep[i] = unit * unit / diagonal
		l.levels[at] += 1 / diagonal
		l.levelSums[at] += z / diagonal
		s.squares += z * z / diagonal
		s.log += math.Log(diagonal)
		addProduct(s.matrix, d.Shares[i], 1/diagonal)
		addScaled(s.right, d.Shares[i], z/diagonal)
		addScaled(l.levelParts[at*parts:(at+1)*parts], d.Shares[i], 1/diagonal)
	}
	for at, weight := range l.levels {
		row := l.levelParts[at*parts : (at+1)*parts]
		addProduct(s.matrix, row, -1/weight)
		addScaled(s.right, row, -l.levelSums[at]/weight)
		s.squares -= l.levelSums[at] * l.levelSums[at] / weight
		s.log += math.Log(weight)
	}
	return l, s
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

// addScaled adds factor row to a sum.
func addScaled(sum, row []float64, factor float64) {
	for j, x := range row {
		sum[j] += factor * x
	}
}

// pointAt solves the parts at one tau, and gives log w.
func (f *ShareFit) pointAt(layer int, tau float64, s shareSystem) (sharePoint, float64) {
	n := f.data.parts()
	p := sharePoint{layer: layer, tau: tau, parts: slices.Clone(s.right), covariance: slices.Clone(s.matrix)}
	for j := range n {
		p.covariance[j*n+j] += 1 / (tau * tau)
	}
	whole := blas64.Symmetric{N: n, Stride: n, Data: p.covariance, Uplo: blas.Upper}
	triangle, ok := lapack64.Potrf(whole)
	if !ok {
		return p, math.Inf(-1)
	}
	right := blas64.Vector{N: n, Inc: 1, Data: p.parts}
	blas64.Trsv(blas.Trans, triangle, right)
	blas64.Trsv(blas.NoTrans, triangle, right)
	log := s.squares + s.log + 2*float64(n)*math.Log(tau)
	for j := range n {
		log += 2*math.Log(p.covariance[j*n+j]) - s.right[j]*p.parts[j]
	}
	squares := tau * tau
	if unit := f.layers[layer].unit; f.Pooled {
		squares += unit * unit
	}
	return p, -log/2 - squares/(2*SharePrior*SharePrior*f.data.Step*f.data.Step)
}

// weigh turns logarithms into weights, drops the points that weigh nothing, and
// sums what is asked of the fit.
func (f *ShareFit) weigh(logs []float64) error {
	most, total := slices.Max(logs), 0.0
	if math.IsInf(most, 0) || math.IsNaN(most) {
		return fmt.Errorf("%w: the shares leave no system to solve", ErrSingular)
	}
	kept := f.points[:0]
	for i, p := range f.points {
		if p.weight = math.Exp(logs[i] - most); p.weight >= leastWeight {
			kept = append(kept, p)
			total += p.weight
		}
	}
	f.points = kept
	for i := range f.points {
		f.points[i].weight /= total
		f.points[i].invert()
		f.sum(f.points[i])
	}
	f.means()
	return nil
}

// invert turns the triangle that pointAt left into the covariance of the parts.
func (p sharePoint) invert() {
	n := len(p.parts)
	lapack64.Potri(blas64.Triangular{N: n, Stride: n, Data: p.covariance, Uplo: blas.Upper, Diag: blas.NonUnit})
	for j := range n {
		for k := range j {
			p.covariance[j*n+k] = p.covariance[k*n+j]
		}
	}
}

// sum adds a point to its layer's moments.
func (f *ShareFit) sum(p sharePoint) {
	layer, n := &f.layers[p.layer], len(p.parts)
	layer.weight += p.weight
	addScaled(layer.first, p.parts, p.weight)
	for j, b := range p.parts {
		for k, c := range p.parts {
			layer.second[j*n+k] += p.weight * (b*c + p.covariance[j*n+k])
		}
	}
	f.Tau += p.weight * p.tau
	f.TauSquared += p.weight * p.tau * p.tau
	f.Unit += p.weight * layer.unit
	f.UnitSquared += p.weight * layer.unit * layer.unit
}

// means are the effects and levels over the grid.
func (f *ShareFit) means() {
	n := f.data.parts()
	f.Parts, f.Levels = make([]float64, n), make([]float64, len(f.layers[0].levels))
	for _, l := range f.layers {
		addScaled(f.Parts, l.first, 1)
		for at, weight := range l.levels {
			explained := l.weight * l.levelSums[at]
			for j, b := range l.first {
				explained -= l.levelParts[at*n+j] * b
			}
			f.Levels[at] += explained / weight
		}
	}
}
