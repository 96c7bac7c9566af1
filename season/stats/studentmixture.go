package stats

import "math"

// StudentMixture is a mixture of Student's t distributions that have the same
// degrees of freedom. The weights are positive and sum to 1; Centres and Scales
// are where each part lies and how wide it is. [Present] makes them.
type StudentMixture struct {
	DF                       int
	Weights, Centres, Scales []float64
}

func (m *StudentMixture) add(weight, centre, scale float64) {
	m.Weights = append(m.Weights, weight)
	m.Centres = append(m.Centres, centre)
	m.Scales = append(m.Scales, scale)
}

// Mean is the weighted mean of the centres.
func (m StudentMixture) Mean() float64 {
	sum := 0.0
	for i, w := range m.Weights {
		sum += w * m.Centres[i]
	}
	return sum
}

// AtMost is the probability of a value at or below c.
func (m StudentMixture) AtMost(c float64) float64 {
	t := newStudent(m.DF)
	sum := 0.0
	for i, w := range m.Weights {
		sum += w * t.cdf((c-m.Centres[i])/m.Scales[i])
	}
	return math.Min(1, sum)
}

// AtLeast is the probability of a value at or above c.
func (m StudentMixture) AtLeast(c float64) float64 { return 1 - m.AtMost(c) }

// Quantile is the value that is not exceeded with probability p. It fails with
// ErrRange for a p that is not well inside 0..1.
func (m StudentMixture) Quantile(p float64) (float64, error) {
	if err := checkConfidence(math.Abs(2*p - 1)); err != nil && p != .5 {
		return 0, err
	}
	t := newStudent(m.DF)
	step := t.quantile(p)
	low, high := math.Inf(1), math.Inf(-1)
	for i, c := range m.Centres {
		low, high = math.Min(low, c+step*m.Scales[i]), math.Max(high, c+step*m.Scales[i])
	}
	return solveRising(low, high, low+(high-low)/2, p, func(c float64) (chance, density, bend float64) {
		for i, w := range m.Weights {
			z := (c - m.Centres[i]) / m.Scales[i]
			d := w * t.density(z) / m.Scales[i]
			chance += w * t.cdf(z)
			density += d
			bend += d * t.bend(z) / m.Scales[i]
		}
		return chance, density, bend
	}), nil
}

// Central is the interval that holds the middle share of the mixture, from the
// quantile (1-share)/2 to (1+share)/2. It fails with ErrRange for a share
// outside 0..0.999999.
func (m StudentMixture) Central(share float64) (Interval, error) {
	if err := checkConfidence(share); err != nil {
		return Interval{}, err
	}
	low, err := m.Quantile((1 - share) / 2)
	if err != nil {
		return Interval{}, err
	}
	high, err := m.Quantile((1 + share) / 2)
	return Interval{low, high}, err
}

// lastOff is how far off, as a part of p or 1-p, a chance may be for the step from
// there to be the last: what it leaves is of the order of its cube.
const lastOff = 4e-4

// solveRising solves f(x) = p between low and high for a distribution function f
// given with its first two derivatives: Halley's steps from x on, and the middle
// of what is left where a step leaves it.
func solveRising(low, high, x, p float64, f func(x float64) (value, slope, bend float64)) float64 {
	for range 200 {
		value, slope, bend := f(x)
		if value < p {
			low = x
		} else {
			high = x
		}
		step := (value - p) / slope
		next := x - step/math.Max(.5, 1-step*bend/(2*slope))
		switch inside := next > low && next < high; {
		case inside && math.Abs(value-p) <= lastOff*math.Min(p, 1-p):
			return next
		case !inside:
			next = low + (high-low)/2
			if next == x {
				return x
			}
		}
		x = next
	}
	return x
}

// student is Student's t with whole degrees of freedom, whose distribution
// function is a finite sum, ten times as fast as an incomplete beta function.
type student struct {
	df    int
	scale float64 // of the density
}

func newStudent(df int) student {
	nu := float64(df)
	top, _ := math.Lgamma((nu + 1) / 2)
	bottom, _ := math.Lgamma(nu / 2)
	return student{df, math.Exp(top-bottom) / math.Sqrt(nu*math.Pi)}
}

func (s student) density(t float64) float64 {
	nu := float64(s.df)
	return s.scale * math.Exp(-(nu+1)/2*math.Log1p(t*t/nu))
}

// bend is the derivative of the density's logarithm.
func (s student) bend(t float64) float64 { return -(float64(s.df) + 1) * t / (float64(s.df) + t*t) }

// cdf is P(T <= t) to about 1e-15, absolute. The sums 26.7.3 and 26.7.4 of
// Abramowitz and Stegun [memory], held against gonum.
func (s student) cdf(t float64) float64 {
	nu := float64(s.df)
	sin := t / math.Sqrt(nu+t*t)
	cos2 := nu / (nu + t*t)
	if s.df%2 == 0 {
		return .5 + .5*sin*s.sum(cos2, 1)
	}
	inside := math.Atan(t / math.Sqrt(nu))
	if s.df > 1 {
		inside += sin * math.Sqrt(cos2) * s.sum(cos2, 2)
	}
	return .5 + inside/math.Pi
}

// sum is 1 + k/(k+1) c + k(k+2)/((k+1)(k+3)) c^2 + ... up to the power that the
// degrees of freedom allow.
func (s student) sum(c float64, k int) float64 {
	total, term := 1.0, 1.0
	for ; k+2 <= s.df-1+k%2; k += 2 {
		term *= c * float64(k) / float64(k+1)
		if total += term; term < 1e-17 {
			break
		}
	}
	return total
}

func (s student) quantile(p float64) float64 { return -studentUpperPoint(p, s.df) }
