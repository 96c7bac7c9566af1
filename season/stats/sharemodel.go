package stats

import (
	"fmt"
	"math"
	"slices"
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

// logOfNothing is the logarithm of a weight that rounding cannot lift to leastWeight.
var logOfNothing = math.Log(leastWeight) - 1

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
	sums, room := sumShares(f.data), newShareRoom(d.parts(), slices.Max(d.Level)+1)
	f.layers, f.points = make([]shareLayer, steps), make([]sharePoint, 0, steps*ShareSteps)
	logs, most := make([]float64, 0, steps*ShareSteps), math.Inf(-1)
	for i := range steps {
		unit := (float64(i) + 0.5) * d.Step
		system := shareSystem{log: f.logDeterminants(unit, sums, room.levels)}
		if f.mostLogWeight(unit, system) < most+logOfNothing {
			continue
		}
		var err error
		system.squares, err = f.layerAt(&f.layers[i], unit, sums, room)
		if err != nil {
			return nil, err
		}
		for j := range ShareSteps {
			tau := (float64(j) + 0.5) * d.Step
			log := f.logWeight(&f.layers[i], tau, system)
			f.points, logs, most = append(f.points, sharePoint{layer: i, tau: tau}), append(logs, log), max(most, log)
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

// logDeterminants is log|D| + log|M'D^-1 M| at one sa; levels is room for M'D^-1 M.
func (f *ShareFit) logDeterminants(unit float64, sums []*shareSums, levels []float64) float64 {
	clear(levels)
	log := 0.0
	for _, sum := range sums {
		diagonal := unit*unit + f.data.Variance/sum.times
		log += sum.units * math.Log(diagonal)
		for _, level := range sum.levels {
			levels[level.level] += level.units / diagonal
		}
	}
	for _, weight := range levels {
		log += math.Log(weight)
	}
	return log
}

// logPrior is what the prior takes from log w.
func (f *ShareFit) logPrior(tau, unit float64) float64 {
	squares := tau * tau
	if f.Pooled {
		squares += unit * unit
	}
	return squares / (2 * SharePrior * SharePrior * f.data.Step * f.data.Step)
}

// mostLogWeight is what no log w at one sa exceeds: the squares are never below 0, nor
// is log|I + tau^2 system|. Most of the sa weigh nothing by it when there are many units,
// and their layers are not worked out.
func (f *ShareFit) mostLogWeight(unit float64, s shareSystem) float64 {
	return -s.log/2 - f.logPrior(0, unit)
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
	return -log/2 - f.logPrior(tau, l.unit)
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
	f.means(len(room.levels))
	return nil
}

// means are the effects and levels over the grid.
func (f *ShareFit) means(levels int) {
	n := f.data.parts()
	f.Parts, f.Levels = make([]float64, n), make([]float64, levels)
	for i := range f.layers {
		l := &f.layers[i]
		if l.weight == 0 {
			continue
		}
		addScaled(f.Parts, l.first, 1)
		for at, weight := range l.levels {
			f.Levels[at] += (l.weight*l.levelSums[at] - dot(l.partsOf(at), l.first)) / weight
		}
	}
}
