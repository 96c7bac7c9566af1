package stats

import (
	"fmt"
	"math"
	"slices"
)

// PresentLeast is how many values a [Present] needs.
const PresentLeast = 4

// PresentSeries is what a [Present] is fitted to, an entry a value. Which of
// them came together is all that Groups says: equal numbers are one group, whose
// values share an effect. Walk and Slope are how long before the present a value
// is, as a number of at most 0, by the clock of the walk and by that of the slope
// ([PresentClock] makes both of days).
type PresentSeries struct {
	Values      []float64
	Groups      []int
	Walk, Slope []float64
}

// Present is where a series of values stands now: the posterior of
//
//	value = level now + slope x + walk(x) + group + the value's own
//
// over a fixed grid of [PresentPoint]s, which is the prior: the share rho of the
// group in a value's variance 0, .15, .3, .45, .6 with prior 3:2:2:1:1 (0 alone
// where every group has one value), the slope's standard deviation 0, 2, 4, 8
// and the walk's 0, 1.5, 3, 6 in those of a value, for a unit of the clock, each
// with .7 on 0 and .1 on the others. The level has a flat prior. Source:
// [derived], check values [derived: two-programs, Python and R].
type Present struct {
	// N counts the values, DF is N - 1.
	N, DF int
	// Points are the grid's points with a weight of at least 1e-12 of all; the
	// weights sum to 1.
	Points []PresentPoint
	// Drift is the expected change for a unit of the clock, Steady the chance that
	// there is neither slope nor walk, Variance that of one value, its group's
	// effect included, and Rho the mean share of the group in it.
	Drift, Steady, Variance, Rho float64
}

// PresentPoint is one point of the grid. With V the values' covariance in units
// of one value's variance,
//
//	V = (1-Rho) I + Rho Z Z' + Slope^2 x x' + Walk^2 min(-x_i, -x_j)
//	q = 1'V^-1 1;  Mean = 1'V^-1 y / q;  V = 1/q
//	R = (y-Mean)'V^-1(y-Mean) + 1;  S2 = R/(n-1)
//	log weight = log prior - .5 log|V| - .5 log q - .5 (n-1) log R
//
// (the 1 is one squared unit of the values). Given the point, the level now is
// Student's t with n-1 degrees of freedom about Mean with scale sqrt(S2 V), the
// next value of a new group with scale sqrt(S2 (1+V)).
type PresentPoint struct {
	Rho, Slope, Walk    float64
	Weight, Mean, V, S2 float64
	drift               float64
	solved              *walkSolved
}

// presentPrior is the grid with its weights, not normalised, and what R starts
// from.
type presentPrior struct {
	rho, slope, walk []presentChoice
	ridge            float64
}

type presentChoice struct{ value, prior float64 }

func housePrior() presentPrior {
	return presentPrior{
		rho:   []presentChoice{{0, 3}, {.15, 2}, {.3, 2}, {.45, 1}, {.6, 1}},
		slope: []presentChoice{{0, .7}, {2, .1}, {4, .1}, {8, .1}},
		walk:  []presentChoice{{0, .7}, {1.5, .1}, {3, .1}, {6, .1}},
		ridge: 1,
	}
}

// lightestPoint is the share of all weight below which a point is left out.
const lightestPoint = 1e-12

// NewPresent fits the model. The order of the entries does not matter. It fails
// with ErrTooFew for fewer than [PresentLeast] values, with ErrShape for lists
// of different lengths and with ErrRange for values or times out of range.
func NewPresent(s PresentSeries) (*Present, error) { return newPresent(s, housePrior()) }

func newPresent(s PresentSeries, prior presentPrior) (*Present, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	p := &Present{N: len(s.Values), DF: len(s.Values) - 1}
	var logs []float64
	centre := mean(s.Values)
	o := s.ordered(centre)
	rhos := prior.rho
	if o.alone {
		rhos = rhos[:1]
	}
	size := len(rhos) * len(prior.walk) * len(prior.slope)
	p.Points, logs = make([]PresentPoint, 0, size), make([]float64, 0, size)
	for _, rho := range rhos {
		for _, walk := range prior.walk {
			solved := o.solve(rho.value, walk.value)
			for _, slope := range prior.slope {
				point, log := solved.point(slope.value, p.DF, prior.ridge)
				point.Rho, point.Walk, point.Mean = rho.value, walk.value, point.Mean+centre
				p.Points = append(p.Points, point)
				logs = append(logs, log+math.Log(rho.prior*slope.prior*walk.prior))
			}
		}
	}
	p.weigh(logs)
	p.summarise()
	return p, nil
}

func (s PresentSeries) check() error {
	n := len(s.Values)
	if n < PresentLeast {
		return tooFew(n, PresentLeast)
	}
	for _, m := range []int{len(s.Groups), len(s.Walk), len(s.Slope)} {
		if err := checkSameLength(n, m); err != nil {
			return err
		}
	}
	for _, x := range slices.Concat(s.Walk, s.Slope) {
		if !(x <= 0 && x >= -longestClock) {
			return fmt.Errorf("%w: %g is no time before the present", ErrRange, x)
		}
	}
	return checkValues(s.Values)
}

// longestClock is how long before the present a value may be, in units of the
// clock: far more than a life, and little enough for V to be solved.
const longestClock = 1e5

// weigh turns log weights into weights that sum to 1, and drops what has none.
func (p *Present) weigh(logs []float64) {
	top, total := slices.Max(logs), 0.0
	for i := range p.Points {
		p.Points[i].Weight = math.Exp(logs[i] - top)
		total += p.Points[i].Weight
	}
	p.Points = slices.DeleteFunc(p.Points, func(q PresentPoint) bool { return q.Weight < lightestPoint*total })
	total = 0
	for _, q := range p.Points {
		total += q.Weight
	}
	for i := range p.Points {
		p.Points[i].Weight /= total
	}
}

// Moving is the same fit given that the form is not steady, that there is a slope
// or a walk; false where nothing speaks for either.
func (p *Present) Moving() (*Present, bool) {
	moving := *p
	moving.Points = slices.DeleteFunc(slices.Clone(p.Points), func(q PresentPoint) bool { return q.Slope == 0 && q.Walk == 0 })
	total := 0.0
	for _, q := range moving.Points {
		total += q.Weight
	}
	if total < lightestPoint {
		return nil, false
	}
	for i := range moving.Points {
		moving.Points[i].Weight /= total
	}
	moving.Drift, moving.Steady, moving.Variance, moving.Rho = 0, 0, 0, 0
	moving.summarise()
	return &moving, true
}

func (p *Present) summarise() {
	for _, q := range p.Points {
		p.Drift += q.Weight * q.drift
		p.Variance += q.Weight * q.S2 * float64(p.DF) / float64(p.N-3)
		p.Rho += q.Weight * q.Rho
		if q.Slope == 0 && q.Walk == 0 {
			p.Steady += q.Weight
		}
	}
}

// PresentUnit is a unit of the clock in days, PresentBreak the most that a gap
// between two days counts, PresentRunOn how long after the last day a slope runs
// on, all in days.
const (
	PresentUnit  = 150
	PresentBreak = 90
	PresentRunOn = 30
)

// PresentClock reads the clock of a [PresentSeries] off the days of its values,
// none of them after the present day now: each gap between neighbouring distinct
// days counts min(gap, PresentBreak)/PresentUnit. The slope's clock stops
// PresentRunOn days after the last value, the walk's runs on to the present.
func PresentClock(days []int, now int) (walk, slope []float64) {
	return presentClock(days, now), presentClock(days, min(now, slices.Max(days)+PresentRunOn))
}

// presentClock is the time from each day to now, counted backwards.
func presentClock(days []int, now int) []float64 {
	distinct := append(slices.Clone(days), now)
	slices.Sort(distinct)
	distinct = slices.Compact(distinct)
	before := map[int]float64{now: 0}
	for i := len(distinct) - 2; i >= 0; i-- {
		gap := min(distinct[i+1]-distinct[i], PresentBreak)
		before[distinct[i]] = before[distinct[i+1]] - float64(gap)/PresentUnit
	}
	clock := make([]float64, len(days))
	for i, day := range days {
		clock[i] = before[day]
	}
	return clock
}
