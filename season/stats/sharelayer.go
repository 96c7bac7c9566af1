package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

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
// leave of the parts. It gives the squares of a [shareSystem].
func (f *ShareFit) layerAt(l *shareLayer, unit float64, sums []*shareSums, room *shareRoom) (squares float64, err error) {
	d, parts := f.data, f.data.parts()
	l.room(unit, len(d.Z), len(room.levels), parts)
	for i, times := range d.Times {
		l.keep[i] = unit * unit / (unit*unit + d.Variance/times)
	}
	matrix, right := room.matrix, room.right
	upper := matrix.RawSymmetric().Data
	clear(upper)
	clear(right)
	for _, sum := range sums {
		diagonal := unit*unit + d.Variance/sum.times
		squares += sum.squares / diagonal
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
		squares -= l.levelSums[at] * l.levelSums[at] / weight
	}
	dropDust(upper, 1/(ShareSteps*d.Step*ShareSteps*d.Step))
	return squares, l.decompose(matrix, right)
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
	levels      []float64
	half        mat.Dense
}

func newShareRoom(parts, levels int) *shareRoom {
	return &shareRoom{
		matrix: mat.NewSymDense(parts, nil), right: make([]float64, parts), mean: make([]float64, parts),
		levels: make([]float64, levels),
	}
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
