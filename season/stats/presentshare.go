package stats

import (
	"fmt"
	"math"
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
// error is T - F_i. cov(i, j) is the covariance of (T, F_1, ..., F_n), index 0
// being T, in squared units of the values, and added what the next value varies
// by on top. At each point of the grid
//
//	scale^2 = S2 (1+V) + u'Cu + added,  u = (1, -Lever)
//
// where a u'Cu below 0 by rounding counts as 0.
func (p *Present) NextOf(cov func(i, j int) float64, added float64) StudentMixture {
	m := StudentMixture{DF: p.DF}
	for _, q := range p.Points {
		widened := math.Max(0, q.quadratic(cov)) + added
		m.add(q.Weight, q.Mean, math.Sqrt(q.S2*(1+q.V)+widened))
	}
	return m
}

// quadratic is u'Cu with u = (1, -Lever).
func (q PresentPoint) quadratic(cov func(i, j int) float64) float64 {
	h := q.Lever()
	sum := cov(0, 0)
	for i, a := range h {
		sum -= 2 * a * cov(0, i+1)
		for j, b := range h[:i] {
			sum += 2 * a * b * cov(i+1, j+1)
		}
		sum += a * a * cov(i+1, i+1)
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
	chance, _ := s.mixture().reaches(normalQuantile(want))
	return chance, nil
}

// Ends are the shares that are reached with probability (1+confidence)/2 and
// (1-confidence)/2. It fails with ErrRange for a confidence outside 0..0.999999.
func (s PresentShare) Ends(confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	m := s.mixture()
	return Interval{
		Low:  normalCDF(m.quantile((1 - confidence) / 2)),
		High: normalCDF(m.quantile((1 + confidence) / 2)),
	}, nil
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
// that shows. The series for the noncentral t is out of digits at 37 already.
const steepestShare = 100

func (s PresentShare) mixture() shareMixture {
	m, steepest := shareMixture{}, 0.0
	for _, q := range s.present.Points {
		distance := (q.Mean - s.mark) / math.Sqrt(q.S2)
		spread := math.Max(math.Sqrt(q.V), math.Abs(distance)/steepestShare)
		m.weights = append(m.weights, q.Weight)
		m.distances, m.spreads = append(m.distances, distance), append(m.spreads, spread)
		steepest = math.Max(steepest, math.Abs(distance)/spread)
	}
	m.factors, m.masses = chiNodes(s.present.DF, steepest)
	return m
}

// reaches is the probability that Phi^-1(share) is at least z, and its density.
func (m shareMixture) reaches(z float64) (chance, density float64) {
	for j, weight := range m.weights {
		c, d := 0.0, 0.0
		for k, w := range m.factors {
			a := (m.distances[j]*w - z) / m.spreads[j]
			c += m.masses[k] * normalCDF(a)
			d += m.masses[k] * math.Exp(-a*a/2)
		}
		chance += weight * c
		density += weight * d / (m.spreads[j] * math.Sqrt(2*math.Pi))
	}
	return chance, density
}

// quantile is the z that Phi^-1(share) does not exceed with probability p,
// starting from the normal distribution with the same mean and variance.
func (m shareMixture) quantile(p float64) float64 {
	const tail = 9 // spreads, which nothing is beyond
	low, high := math.Inf(1), math.Inf(-1)
	first, square := 0.0, 0.0
	for j, weight := range m.weights {
		for k, w := range m.factors {
			z := m.distances[j] * w
			low, high = math.Min(low, z-tail*m.spreads[j]), math.Max(high, z+tail*m.spreads[j])
			first += weight * m.masses[k] * z
			square += weight * m.masses[k] * (z*z + m.spreads[j]*m.spreads[j])
		}
	}
	start := first + math.Sqrt(math.Max(0, square-first*first))*normalQuantile(p)
	return newtonRising(low, high, start, p, func(z float64) (float64, float64) {
		chance, density := m.reaches(z)
		return 1 - chance, density
	})
}

// chiNodes are values of W, nu W^2 being chi-square with nu degrees of freedom,
// and their masses, for sums over smooth functions of which the steepest changes
// like that of a normal distribution about t W. Evenly spaced in log W, such a
// sum converges faster than any power of the step.
func chiNodes(nu int, t float64) (factors, masses []float64) {
	const lightest = -25 // log of the density against its mode
	n := float64(nu)
	step := math.Min(.15, .9/math.Sqrt(2*n+t*t))
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
