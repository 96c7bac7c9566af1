package stats

import (
	"fmt"
	"math"
)

// Mixture is the distribution of one row: a normal at each point of the grid.
type Mixture struct{ weights, means, sds []float64 }

// Of is the distribution of one row, at each point normal with the mean and
// variance that [ShareFit.Ask] sums. It fails as Ask does.
func (f *ShareFit) Of(row ShareRow) (Mixture, error) {
	if err := f.checkRows([]ShareRow{row}); err != nil {
		return Mixture{}, err
	}
	units := row.unitsOnce()
	n := len(f.points)
	all := make([]float64, 3*n)
	m := Mixture{all[:n], all[n : 2*n], all[2*n:]}
	var line shareLine
	var turned []float64
	layer, loose := -1, 0.0
	for i, p := range f.points {
		l := &f.layers[p.layer]
		if p.layer != layer {
			layer = p.layer
			line = f.lineAt(l, row, units)
			loose = l.loose(line, line)
			turned = l.turned(line.parts)
		}
		mean, variance := line.constant, loose
		for k, x := range turned {
			free := x / (l.eigen[k] + 1/(p.tau*p.tau))
			mean += l.right[k] * free
			variance += x * free
		}
		m.weights[i], m.means[i], m.sds[i] = p.weight, mean, math.Sqrt(max(0, variance))
	}
	return m, nil
}

// turned are coefficients of the parts along the columns of Q.
func (l *shareLayer) turned(parts []float64) []float64 {
	turned := make([]float64, len(parts))
	for j, x := range parts {
		addScaled(turned, l.turn[j*len(parts):(j+1)*len(parts)], x)
	}
	return turned
}

// Gap is the distribution of a part's effect less the mean of the others'. It
// fails with ErrTooFew for fewer than two parts, ErrShape for a part that is not
// there.
func (f *ShareFit) Gap(part int) (Mixture, error) {
	n := len(f.Parts)
	if n < 2 {
		return Mixture{}, tooFew(n, 2)
	}
	if part < 0 || part >= n {
		return Mixture{}, fmt.Errorf("%w: part %d", ErrShape, part)
	}
	row := make([]float64, n)
	for j := range row {
		row[j] = -1 / float64(n-1)
	}
	row[part] = 1
	return f.Of(ShareRow{Parts: row})
}

// OfUnit is the distribution of a unit's own true deviation from its level: of its
// parts and itself, the chance of what was seen apart. It fails with ErrShape for
// a unit that is not there.
func (f *ShareFit) OfUnit(unit int) (Mixture, error) {
	if unit < 0 || unit >= len(f.data.Z) {
		return Mixture{}, fmt.Errorf("%w: unit %d", ErrShape, unit)
	}
	return f.Of(ShareRow{Parts: f.data.Shares[unit], Units: []UnitShare{{unit, 1}}})
}

// Mean is the mean of the distribution.
func (m Mixture) Mean() float64 { return dot(m.weights, m.means) }

// Below is the chance of a value below x.
func (m Mixture) Below(x float64) float64 {
	sum := 0.0
	for i, w := range m.weights {
		sum += w * normalBelow(x-m.means[i], m.sds[i])
	}
	return math.Min(1, sum)
}

// normalBelow is the chance that a normal of mean 0 lies below x, at an sd of 0
// that it is certain, or one half.
func normalBelow(x, sd float64) float64 {
	switch {
	case sd > 0:
		return normalCDF(x / sd)
	case x == 0:
		return 0.5
	case x < 0:
		return 0
	default:
		return 1
	}
}

// Shortfall is the mean of max(0, -x): sum of w (sd phi(m/sd) - m Phi(-m/sd)).
func (m Mixture) Shortfall() float64 {
	sum := 0.0
	for i, w := range m.weights {
		mean, sd := m.means[i], m.sds[i]
		density := 0.0
		if sd > 0 {
			density = sd * math.Exp(-mean*mean/(2*sd*sd)) / math.Sqrt(2*math.Pi)
		}
		sum += w * (density - mean*normalBelow(-mean, sd))
	}
	return sum
}

// Quantile is the x with a chance p, between 0 and 1, of a value below it.
func (m Mixture) Quantile(p float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for i, mean := range m.means {
		low, high = min(low, mean-quantileReach*m.sds[i]), max(high, mean+quantileReach*m.sds[i])
	}
	x := m.Mean()
	for range 60 {
		below, density := m.around(x)
		if below < p {
			low = x
		} else {
			high = x
		}
		next := x - (below-p)/density
		if !(next > low && next < high) {
			next = low + (high-low)/2
		}
		if math.Abs(next-x) <= quantileWithin*(high-low+math.Abs(x)) {
			return next
		}
		x = next
	}
	return x
}

// quantileReach is how many standard deviations from a mean a quantile is looked
// for: beyond lies less than one in 10^22. quantileWithin is how near to it, of what
// is left to look in and of its size, the search ends.
const (
	quantileReach  = 10
	quantileWithin = 1e-7
)

// around is the chance of a value below x and the density there.
func (m Mixture) around(x float64) (below, density float64) {
	for i, w := range m.weights {
		sd := m.sds[i]
		if w < quantileWithin {
			continue
		}
		below += w * normalBelow(x-m.means[i], sd)
		if sd > 0 {
			z := (x - m.means[i]) / sd
			density += w * math.Exp(-z*z/2) / (sd * math.Sqrt(2*math.Pi))
		}
	}
	return below, density
}

// SpreadHigh is the largest tau and sa of the grid that are not excluded: at most
// 1-confidence of the weight lies beyond. It is a step's upper end.
func (f *ShareFit) SpreadHigh(confidence float64) (parts, units float64) {
	high := func(of func(p sharePoint) float64) float64 {
		for at := 0.5; ; at++ {
			beyond := 0.0
			for _, p := range f.points {
				if of(p) > (at+0.25)*f.data.Step {
					beyond += p.weight
				}
			}
			if beyond <= 1-confidence || at > 2*ShareSteps {
				return (at + 0.5) * f.data.Step
			}
		}
	}
	return high(func(p sharePoint) float64 { return p.tau }), high(func(p sharePoint) float64 { return f.layers[p.layer].unit })
}
