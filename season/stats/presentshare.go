package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Level is where the series stands now.
func (p *Present) Level() StudentMixture {
	m := StudentMixture{DF: p.DF}
	for _, q := range p.Points {
		m.add(q.Weight, q.Mean, math.Sqrt(q.S2*q.V))
	}
	return m
}

// Next is the next value, of a new group, at the present.
func (p *Present) Next() StudentMixture {
	m := StudentMixture{DF: p.DF}
	for _, q := range p.Points {
		m.add(q.Weight, q.Mean, math.Sqrt(q.S2*(1+q.V)))
	}
	return m
}

// NextOf is the next value where it and the values of the series are themselves
// known with an error only: value i was taken as adjusted by an amount whose
// error is T - F_i. cov is the covariance of such errors in squared units of the
// values; row is T's place in it, rows have those of F_1, ..., F_n; added is what
// the next value varies by on top. At each point of the grid
//
//	scale^2 = S2 (1+V) + u'Cu + added,  u = (1, -Lever)
//
// where a u'Cu below 0 by rounding counts as 0.
func (p *Present) NextOf(cov *mat.SymDense, row int, rows []int, added float64) StudentMixture {
	m := StudentMixture{DF: p.DF}
	u, lever := make([]float64, cov.SymmetricDim()), make([]float64, p.N)
	for _, q := range p.Points {
		clear(u)
		u[row] = 1
		q.leverTo(lever)
		for i, h := range lever {
			u[rows[i]] -= h
		}
		m.add(q.Weight, q.Mean, math.Sqrt(q.S2*(1+q.V)+math.Max(0, quadratic(cov, u))+added))
	}
	return m
}

// quadratic is u'Cu.
func quadratic(c *mat.SymDense, u []float64) float64 {
	raw, sum := c.RawSymmetric(), 0.0
	for i, a := range u {
		if a != 0 {
			line := raw.Data[i*raw.Stride : i*raw.Stride+raw.N]
			sum += a * (a*line[i] + 2*dot(u[i+1:], line[i+1:]))
		}
	}
	return sum
}

// PresentShare is what share of the values of new groups lies at or above a
// mark, at the present level.
type PresentShare struct {
	present *Present
	mark    float64
}

// ShareAbove asks for the share at or above a mark. It fails with ErrRange for a
// mark out of range.
func (p *Present) ShareAbove(mark float64) (PresentShare, error) {
	return PresentShare{p, mark}, checkValues([]float64{mark})
}

// Expected is the share at the level and scatter that each part of the mixture
// finds likeliest,
//
//	sum of Weight Phi((Mean-mark)/sqrt S2)
func (s PresentShare) Expected() float64 {
	expected := 0.0
	for _, q := range s.present.Points {
		expected += q.Weight * normalCDF((q.Mean-s.mark)/math.Sqrt(q.S2))
	}
	return expected
}

// AtLeast is the probability that the share is at least want,
//
//	sum of Weight T'((Mean-mark)/sqrt(S2 V); ncp),  ncp = Phi^-1(want)/sqrt V
//
// T' being the noncentral t distribution function with n-1 degrees of freedom;
// for a want of one half that is Student's own. It fails with ErrRange for a
// want outside 0..1.
func (s PresentShare) AtLeast(want float64) (float64, error) {
	switch {
	case !(want >= 0 && want <= 1):
		return 0, fmt.Errorf("%w: share %g", ErrRange, want)
	case want == 0 || want == 1:
		return 1 - want, nil
	case want == .5:
		return s.present.Level().AtLeast(s.mark), nil
	}
	chance, _, _ := s.mixture(fineShare).reaches(normalQuantile(want))
	return chance, nil
}

// Ends are the shares that are reached with probability (1+confidence)/2 and
// (1-confidence)/2. It fails with ErrRange for a confidence outside 0..0.999999.
func (s PresentShare) Ends(confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	rough, fine := s.mixture(roughShare), s.mixture(fineShare)
	end := func(p float64) float64 { return normalCDF(fine.quantile(p, rough.quantile(p, rough.start(p)))) }
	return Interval{Low: end((1 - confidence) / 2), High: end((1 + confidence) / 2)}, nil
}

// shareMixture is the distribution of Phi^-1(share): given the factor W of a
// standard deviation (nu W^2 is chi-square), that of part j is normal about
// distance_j W with the standard deviation spread_j.
type shareMixture struct {
	weights, distances, spreads []float64
	factors, masses             []float64
}

// steepestShare is how many spreads away a mark may lie: beyond it the factor W
// alone says where the share lies, and a spread of a hundredth of it adds nothing
// that shows.
const steepestShare = 100

// shareCare is how closely the share is worked out: the part of the largest
// weight below which a point is left out, and the step of the sums over W. Rough
// is good to about 1e-4 and enough to begin with; fine to 1e-8.
type shareCare struct{ lightest, step float64 }

var (
	roughShare = shareCare{1e-4, 1.4}
	fineShare  = shareCare{0, .6}
)

func (s PresentShare) mixture(care shareCare) shareMixture {
	m, steepest, top, total := shareMixture{}, 0.0, 0.0, 0.0
	for _, q := range s.present.Points {
		top = math.Max(top, q.Weight)
	}
	for _, q := range s.present.Points {
		if q.Weight < care.lightest*top {
			continue
		}
		total += q.Weight
		distance := (q.Mean - s.mark) / math.Sqrt(q.S2)
		spread := math.Max(math.Sqrt(q.V), math.Abs(distance)/steepestShare)
		m.weights = append(m.weights, q.Weight)
		m.distances, m.spreads = append(m.distances, distance), append(m.spreads, spread)
		steepest = math.Max(steepest, math.Abs(distance)/spread)
	}
	for j := range m.weights {
		m.weights[j] /= total
	}
	m.factors, m.masses = chiNodes(s.present.DF, steepest, care.step)
	return m
}

// reaches is the probability that Phi^-1(share) is at least z, its density there
// and that one's derivative.
func (m shareMixture) reaches(z float64) (chance, density, bend float64) {
	for j, weight := range m.weights {
		c, d, e := 0.0, 0.0, 0.0
		for k, w := range m.factors {
			a := (m.distances[j]*w - z) / m.spreads[j]
			c += m.masses[k] * normalCDF(a)
			mass := m.masses[k] * math.Exp(-a*a/2)
			d, e = d+mass, e+a*mass
		}
		chance += weight * c
		weight /= math.Sqrt(2*math.Pi) * m.spreads[j]
		density += weight * d
		bend += weight * e / m.spreads[j]
	}
	return chance, density, bend
}

// start is where the normal distribution of the same mean and variance has its
// quantile.
func (m shareMixture) start(p float64) float64 {
	first, square := 0.0, 0.0
	for j, weight := range m.weights {
		for k, w := range m.factors {
			z := m.distances[j] * w
			first += weight * m.masses[k] * z
			square += weight * m.masses[k] * (z*z + m.spreads[j]*m.spreads[j])
		}
	}
	return first + math.Sqrt(math.Max(0, square-first*first))*normalQuantile(p)
}

// quantile is the z that Phi^-1(share) does not exceed with probability p, to be
// found from start on.
func (m shareMixture) quantile(p, start float64) float64 {
	const tail = 9 // spreads, which nothing is beyond
	low, high := math.Inf(1), math.Inf(-1)
	for j, distance := range m.distances {
		for _, w := range []float64{m.factors[0], m.factors[len(m.factors)-1]} {
			low = math.Min(low, distance*w-tail*m.spreads[j])
			high = math.Max(high, distance*w+tail*m.spreads[j])
		}
	}
	return solveRising(low, high, start, p, func(z float64) (chance, density, bend float64) {
		chance, density, bend = m.reaches(z)
		return 1 - chance, density, bend
	})
}

// chiNodes are values of W, nu W^2 being chi-square with nu degrees of freedom,
// and their masses, for sums over smooth functions of which the steepest changes
// like that of a normal distribution about t W. Evenly spaced in log W, such a
// sum converges faster than any power of the step.
func chiNodes(nu int, t, fineness float64) (factors, masses []float64) {
	const lightest = -24 // log of the density against its mode
	n := float64(nu)
	step := fineness * math.Min(.25, 1/math.Sqrt(2*n+t*t))
	log := func(u float64) float64 { return n * (u - math.Expm1(2*u)/2) }
	first := 0.0
	for log(first) > lightest {
		first -= step
	}
	total := 0.0
	for u := first; u <= 0 || log(u) > lightest; u += step {
		factors = append(factors, math.Exp(u))
		masses = append(masses, math.Exp(log(u)))
		total += masses[len(masses)-1]
	}
	for k := range masses {
		masses[k] /= total
	}
	return factors, masses
}
