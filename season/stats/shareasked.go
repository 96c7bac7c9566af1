package stats

import (
	"cmp"
	"fmt"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// ShareRow is something asked of a [ShareFit]: a sum of levels, parts and units.
// Levels and Parts are coefficients, one each or nil for none.
type ShareRow struct {
	Levels, Parts []float64
	Units         []UnitShare
}

// UnitShare is a unit's coefficient. A Unit of len(Z) or more was not in the
// data: rows with the same number share one new effect ~ N(0, sa^2).
type UnitShare struct {
	Unit  int
	Share float64
}

// shareLine is a row at one layer, the units taken out: constant + parts . b,
// and beside it what is uncertain of levels and units given b.
type shareLine struct {
	constant float64
	parts    []float64
	levels   []float64
	units    []UnitShare // in the order of the units, each once
}

// Ask gives mean and covariance of rows over the grid,
//
//	r = tau^2 X cb + sa^2 ca;  mean = r'V^-1(z - M mu)
//	cov = tau^2 cb cb' + sa^2 (ca ca' + the new ones) - r'P r
//	m = sum w mean;  C = sum w (cov + mean mean') - m m'
//
// with the levels' own uncertainty where a row has levels. A row's coefficients
// must fit the data, else ErrShape.
func (f *ShareFit) Ask(rows []ShareRow) (means []float64, covariance *mat.SymDense, err error) {
	n := len(rows)
	if n == 0 {
		return nil, nil, tooFew(0, 1)
	}
	if err := f.checkRows(rows); err != nil {
		return nil, nil, err
	}
	units := make([][]UnitShare, n)
	for i, row := range rows {
		units[i] = row.unitsOnce()
	}
	means, covariance = make([]float64, n), mat.NewSymDense(n, nil)
	lines := make([]shareLine, n)
	for at := range f.layers {
		if f.layers[at].weight == 0 {
			continue
		}
		for i, row := range rows {
			lines[i] = f.lineAt(&f.layers[at], row, units[i])
		}
		f.layers[at].addMoments(lines, means, covariance)
	}
	for i := range n {
		for j := i; j < n; j++ {
			covariance.SetSym(i, j, covariance.At(i, j)-means[i]*means[j])
		}
	}
	return means, covariance, nil
}

// checkRows refuses rows that do not fit the data.
func (f *ShareFit) checkRows(rows []ShareRow) error {
	for _, row := range rows {
		if (row.Levels != nil && len(row.Levels) != len(f.Levels)) || (row.Parts != nil && len(row.Parts) != len(f.Parts)) {
			return fmt.Errorf("%w: a row of %d levels and %d parts", ErrShape, len(row.Levels), len(row.Parts))
		}
		if err := checkValues(row.Levels, row.Parts); err != nil {
			return err
		}
		for _, u := range row.Units {
			if u.Unit < 0 || u.Unit > largestCount {
				return fmt.Errorf("%w: unit %d", ErrShape, u.Unit)
			}
			if err := checkValues([]float64{u.Share}); err != nil {
				return err
			}
		}
	}
	return nil
}

// lineAt takes the units out of a row: given levels and parts, a unit's effect is
// keep (z - mu - X b), with variance sa^2 (1 - keep).
func (f *ShareFit) lineAt(l *shareLayer, row ShareRow, units []UnitShare) shareLine {
	parts := f.data.parts()
	line := shareLine{parts: make([]float64, parts), levels: make([]float64, len(l.levels)), units: units}
	copy(line.parts, row.Parts)
	copy(line.levels, row.Levels)
	for _, u := range units {
		if u.Unit < len(f.data.Z) {
			drawn := u.Share * l.keep[u.Unit]
			line.constant += drawn * f.data.Z[u.Unit]
			line.levels[f.data.Level[u.Unit]] -= drawn
			addScaled(line.parts, f.data.Shares[u.Unit], -drawn)
		}
	}
	for at, share := range line.levels {
		if share != 0 {
			line.constant += share * l.levelSums[at] / l.levels[at]
			addScaled(line.parts, l.partsOf(at), -share/l.levels[at])
		}
	}
	return line
}

// loose is the covariance of two lines that no part takes away.
func (l *shareLayer) loose(a, b shareLine) float64 {
	sum := 0.0
	for at, weight := range l.levels {
		sum += a.levels[at] * b.levels[at] / weight
	}
	return sum + l.unit*l.unit*l.own(a.units, b.units)
}

// own is what units that two lines have in common keep for themselves, in sa^2.
func (l *shareLayer) own(a, b []UnitShare) float64 {
	sum := 0.0
	for len(a) > 0 && len(b) > 0 {
		switch {
		case a[0].Unit < b[0].Unit:
			a = a[1:]
		case a[0].Unit > b[0].Unit:
			b = b[1:]
		default:
			left := 1.0
			if a[0].Unit < len(l.keep) {
				left -= l.keep[a[0].Unit]
			}
			sum += a[0].Share * b[0].Share * left
			a, b = a[1:], b[1:]
		}
	}
	return sum
}

// unitsOnce are the row's units in order, each once.
func (r ShareRow) unitsOnce() []UnitShare {
	sorted := slices.SortedFunc(slices.Values(r.Units), func(a, b UnitShare) int { return cmp.Compare(a.Unit, b.Unit) })
	var once []UnitShare
	for _, u := range sorted {
		if n := len(once); n > 0 && once[n-1].Unit == u.Unit {
			once[n-1].Share += u.Share
		} else {
			once = append(once, u)
		}
	}
	return once
}

// addMoments adds the layer's first and second moments of the lines.
func (l *shareLayer) addMoments(lines []shareLine, means []float64, second *mat.SymDense) {
	size := len(l.first)
	first, turned := make([]float64, len(lines)), make([]float64, size)
	for i, line := range lines {
		first[i] = dot(line.parts, l.first)
		means[i] += l.weight*line.constant + first[i]
	}
	for i, a := range lines {
		for j := range size {
			turned[j] = dot(l.second[j*size:(j+1)*size], a.parts)
		}
		for j := i; j < len(lines); j++ {
			b := lines[j]
			sum := l.weight*(l.loose(a, b)+a.constant*b.constant) + a.constant*first[j] + b.constant*first[i] + dot(turned, b.parts)
			second.SetSym(i, j, second.At(i, j)+sum)
		}
	}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}

// UnitMeans are the means of all units' true deviations from their levels, those
// of [ShareFit.OfUnit].
func (f *ShareFit) UnitMeans() []float64 {
	means := make([]float64, len(f.data.Z))
	for layer := range f.layers {
		l := &f.layers[layer]
		if l.weight == 0 {
			continue
		}
		for i, z := range f.data.Z {
			at := f.data.Level[i]
			explained := dot(f.data.Shares[i], l.first)
			level := (l.weight*l.levelSums[at] - dot(l.partsOf(at), l.first)) / l.levels[at]
			means[i] += explained + l.keep[i]*(l.weight*z-level-explained)
		}
	}
	return means
}
