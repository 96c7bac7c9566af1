package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
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
//
// The matrix of the parts is Q diag(eigen) Q', so that each tau, which adds 1/tau^2 to
// its diagonal, leaves b with means and variances of their own along the columns of
// Q: right/(eigen + 1/tau^2) and 1/(eigen + 1/tau^2).
type shareLayer struct {
	unit         float64   // sa
	keep         []float64 // by unit: sa^2/(sa^2 + Variance/Times)
	levels       []float64 // M'D^-1 M, a diagonal
	levelSums    []float64 // M'D^-1 z
	levelParts   []float64 // M'D^-1 X, by row
	turn         []float64 // Q, by row
	eigen, right []float64 // of the matrix; Q' times the right hand side
	weight       float64   // sum of w over the taus
	first        []float64 // sum of w b
	second       []float64 // sum of w (b b' + covariance), by row
}

// sharePoint is one point.
type sharePoint struct {
	layer       int
	tau, weight float64
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
// inversion lemma; Henderson's equations). One decomposition a sa does for all tau.
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
	sums, room := sumShares(f.data), newShareRoom(d.parts())
	f.layers, f.points = make([]shareLayer, steps), make([]sharePoint, 0, steps*ShareSteps)
	logs := make([]float64, 0, steps*ShareSteps)
	for i := range steps {
		system, err := f.layerAt(&f.layers[i], (float64(i)+0.5)*d.Step, sums, room)
		if err != nil {
			return nil, err
		}
		for j := range ShareSteps {
			tau := (float64(j) + 0.5) * d.Step
			f.points = append(f.points, sharePoint{layer: i, tau: tau})
			logs = append(logs, f.logWeight(&f.layers[i], tau, system))
		}
	}
	return f, f.weigh(logs, room)
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

// shareSums are what all units seen equally often come to: at every sa they weigh
// the same.
type shareSums struct {
	times, units float64
	squares      float64   // z'z
	right        []float64 // X'z
	matrix       []float64 // X'X, its upper half
	levels       []levelSums
}

// levelSums are the units of one level among them.
type levelSums struct {
	level    int
	units, z float64
	parts    []float64 // M'X
}

// sumShares sums the units, in the order in which their Times are first met.
func sumShares(d ShareData) []*shareSums {
	var all []*shareSums
	parts := d.parts()
	for i, times := range d.Times {
		at := slices.IndexFunc(all, func(s *shareSums) bool { return s.times == times })
		if at < 0 {
			at = len(all)
			all = append(all, &shareSums{times: times, right: make([]float64, parts), matrix: make([]float64, parts*parts)})
		}
		s, row, z := all[at], d.Shares[i], d.Z[i]
		s.units++
		s.squares += z * z
		addScaled(s.right, row, z)
		addProduct(s.matrix, row, 1)
		l := s.level(d.Level[i], parts)
		l.units++
		l.z += z
		addScaled(l.parts, row, 1)
	}
	return all
}

// level finds the sums of a level, or adds them.
func (s *shareSums) level(level, parts int) *levelSums {
	at := slices.IndexFunc(s.levels, func(l levelSums) bool { return l.level == level })
	if at < 0 {
		at = len(s.levels)
		s.levels = append(s.levels, levelSums{level: level, parts: make([]float64, parts)})
	}
	return &s.levels[at]
}

// shareSystem is the terms of log w at one sa that no tau changes.
type shareSystem struct {
	squares float64 // z'D^-1 z without what the levels explain
	log     float64 // log|D| + log|M'D^-1 M|
}

// layerAt takes units and levels out of the equations, and decomposes what they
// leave of the parts.
func (f *ShareFit) layerAt(l *shareLayer, unit float64, sums []*shareSums, room *shareRoom) (shareSystem, error) {
	d, parts := f.data, f.data.parts()
	l.room(unit, len(d.Z), slices.Max(d.Level)+1, parts)
	for i, times := range d.Times {
		l.keep[i] = unit * unit / (unit*unit + d.Variance/times)
	}
	var s shareSystem
	matrix, right := room.matrix, room.right
	upper := matrix.RawSymmetric().Data
	clear(upper)
	clear(right)
	for _, sum := range sums {
		diagonal := unit*unit + d.Variance/sum.times
		s.squares += sum.squares / diagonal
		s.log += sum.units * math.Log(diagonal)
		addScaled(upper, sum.matrix, 1/diagonal)
		addScaled(right, sum.right, 1/diagonal)
		for _, level := range sum.levels {
			l.levels[level.level] += level.units / diagonal
			l.levelSums[level.level] += level.z / diagonal
			addScaled(l.partsOf(level.level), level.parts, 1/diagonal)
		}
	}
	for at, weight := range l.levels {
		addProduct(upper, l.partsOf(at), -1/weight)
		addScaled(right, l.partsOf(at), -l.levelSums[at]/weight)
		s.squares -= l.levelSums[at] * l.levelSums[at] / weight
		s.log += math.Log(weight)
	}
	dropDust(upper, 1/(ShareSteps*d.Step*ShareSteps*d.Step))
	return s, l.decompose(matrix, right)
}

// dropDust makes elements nothing that cannot change what they are added to: those
// below the square of a float's rounding beside the largest element, or beside what
// each tau adds at least. Left in, they spoil the eigenvalues: their products are
// below the smallest float.
func dropDust(matrix []float64, least float64) {
	const dust = 0x1p-104
	for _, x := range matrix {
		least = max(least, math.Abs(x))
	}
	for i, x := range matrix {
		if math.Abs(x) < least*dust {
			matrix[i] = 0
		}
	}
}

// shareRoom is what layers and points are summed in, one after the other.
type shareRoom struct {
	matrix      *mat.SymDense
	right, mean []float64
	half        mat.Dense
}

func newShareRoom(parts int) *shareRoom {
	return &shareRoom{matrix: mat.NewSymDense(parts, nil), right: make([]float64, parts), mean: make([]float64, parts)}
}

// room makes a layer, its sums nothing yet.
func (l *shareLayer) room(unit float64, units, levels, parts int) {
	all := make([]float64, units+2*levels+levels*parts+2*parts+2*parts*parts)
	take := func(n int) []float64 {
		part := all[:n:n]
		all = all[n:]
		return part
	}
	*l = shareLayer{
		unit: unit, keep: take(units), levels: take(levels), levelSums: take(levels), levelParts: take(levels * parts),
		right: take(parts), first: take(parts), turn: take(parts * parts), second: take(parts * parts),
	}
}

// partsOf is a level's row of levelParts.
func (l *shareLayer) partsOf(level int) []float64 {
	parts := len(l.first)
	return l.levelParts[level*parts : (level+1)*parts]
}

// decompose fills what the layer knows of the parts' matrix and right hand side.
func (l *shareLayer) decompose(matrix *mat.SymDense, right []float64) error {
	var own mat.EigenSym
	if !own.Factorize(matrix, true) {
		return fmt.Errorf("%w: the shares leave no system to solve", ErrSingular)
	}
	parts := len(right)
	turn := mat.NewDense(parts, parts, l.turn)
	own.VectorsTo(turn)
	l.eigen = own.Values(nil)
	mat.NewVecDense(parts, l.right).MulVec(turn.T(), mat.NewVecDense(parts, right))
	return nil
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

// logWeight is log w at one tau.
func (f *ShareFit) logWeight(l *shareLayer, tau float64, s shareSystem) float64 {
	log := s.squares + s.log
	for k, own := range l.eigen {
		whole := own + 1/(tau*tau)
		if whole <= 0 {
			return math.Inf(-1)
		}
		log += math.Log(tau*tau*whole) - l.right[k]*l.right[k]/whole
	}
	squares := tau * tau
	if f.Pooled {
		squares += l.unit * l.unit
	}
	return -log/2 - squares/(2*SharePrior*SharePrior*f.data.Step*f.data.Step)
}

// weigh turns logarithms into weights, drops the points that weigh nothing, and
// sums what is asked of the fit.
func (f *ShareFit) weigh(logs []float64, room *shareRoom) error {
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
	}
	for points := f.points; len(points) > 0; {
		same := 1
		for same < len(points) && points[same].layer == points[0].layer {
			same++
		}
		f.sum(points[:same], room)
		points = points[same:]
	}
	f.means()
	return nil
}

// sum adds the points of one layer to the moments.
func (f *ShareFit) sum(points []sharePoint, room *shareRoom) {
	layer := &f.layers[points[0].layer]
	n := len(layer.first)
	mean, first, second := room.mean, room.right, room.matrix
	upper := second.RawSymmetric().Data
	clear(first)
	clear(upper)
	for _, p := range points {
		for k, own := range layer.eigen {
			loose := 1 / (own + 1/(p.tau*p.tau))
			mean[k] = layer.right[k] * loose
			upper[k*n+k] += p.weight * loose
		}
		addProduct(upper, mean, p.weight)
		addScaled(first, mean, p.weight)
		layer.weight += p.weight
		f.Tau += p.weight * p.tau
		f.TauSquared += p.weight * p.tau * p.tau
		f.Unit += p.weight * layer.unit
		f.UnitSquared += p.weight * layer.unit * layer.unit
	}
	turn := mat.NewDense(n, n, layer.turn)
	mat.NewVecDense(n, layer.first).MulVec(turn, mat.NewVecDense(n, first))
	room.half.Mul(turn, second)
	mat.NewDense(n, n, layer.second).Mul(&room.half, turn.T())
}

// means are the effects and levels over the grid.
func (f *ShareFit) means() {
	n := f.data.parts()
	f.Parts, f.Levels = make([]float64, n), make([]float64, len(f.layers[0].levels))
	for i := range f.layers {
		l := &f.layers[i]
		addScaled(f.Parts, l.first, 1)
		for at, weight := range l.levels {
			f.Levels[at] += (l.weight*l.levelSums[at] - dot(l.partsOf(at), l.first)) / weight
		}
	}
}
