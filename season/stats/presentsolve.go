package stats

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// walkSeries is a series in the order of its walk, the latest value first and
// the values of a group together where the times allow it. The values are taken
// about a centre, so that sums of squares keep their digits.
type walkSeries struct {
	place           []int // in the caller's order
	group           []int
	ago             []float64 // by the walk's clock, rising from the present
	ones, y, slopes []float64
	alone, together bool       // every group has one value; its values follow each other
	factors         walkFilter // of the covariance asked for last
}

// ordered sorts a series from the present backwards. Groups that begin together
// stay together; what is left in between is for together to say.
func (s PresentSeries) ordered(centre float64) walkSeries {
	n := len(s.Values)
	o := walkSeries{place: make([]int, n), group: make([]int, 0, n)}
	o.ago, o.ones, o.y, o.slopes = make([]float64, 0, n), make([]float64, 0, n), make([]float64, 0, n), make([]float64, 0, n)
	o.factors = newWalkFilter(n)
	latest, oldest := map[int]float64{}, map[int]float64{}
	for i, g := range s.Groups {
		o.place[i] = i
		if at, seen := latest[g]; !seen || s.Walk[i] > at {
			latest[g] = s.Walk[i]
		}
		oldest[g] = min(oldest[g], s.Walk[i])
	}
	slices.SortFunc(o.place, func(a, b int) int {
		g, h := s.Groups[a], s.Groups[b]
		return cmp.Or(cmp.Compare(s.Walk[b], s.Walk[a]), cmp.Compare(latest[h], latest[g]), cmp.Compare(oldest[h], oldest[g]), cmp.Compare(g, h))
	})
	for _, i := range o.place {
		o.group = append(o.group, s.Groups[i])
		o.ago = append(o.ago, -s.Walk[i])
		o.ones, o.y, o.slopes = append(o.ones, 1), append(o.y, s.Values[i]-centre), append(o.slopes, s.Slope[i])
	}
	o.alone = len(latest) == len(o.place)
	o.together = runs(o.group) == len(latest)
	return o
}

// runs counts the stretches of equal numbers.
func runs(list []int) int { return len(slices.Compact(slices.Clone(list))) }

// walkSolved is a covariance V0 without slope, V0^-1 times ones, values and
// slopes in the order of the walk, and the sums that a slope of any size needs.
type walkSolved struct {
	place      []int
	logDet     float64
	one, slope []float64 // V0^-1 1, V0^-1 x
	q, xq, xx  float64   // 1'V0^-1 1, x'V0^-1 1, x'V0^-1 x
	y, xy, yy  float64   // 1'V0^-1 y, x'V0^-1 y, y'V0^-1 y
}

// solve solves the covariance of a group's share and a walk.
func (o walkSeries) solve(rho, walk float64) *walkSolved {
	var factor interface {
		logDet() float64
		solve(out, b []float64)
	}
	if rho > 0 && !o.together {
		factor = o.dense(rho, walk)
	} else {
		o.filter(rho, walk)
		factor = o.factors
	}
	n := len(o.place)
	all := make([]float64, 2*n)
	s := &walkSolved{place: o.place, logDet: factor.logDet(), one: all[:n:n], slope: all[n:]}
	y := o.factors.out
	factor.solve(s.one, o.ones)
	factor.solve(s.slope, o.slopes)
	factor.solve(y, o.y)
	s.q, s.xq, s.xx = floats.Dot(o.ones, s.one), floats.Dot(o.slopes, s.one), floats.Dot(o.slopes, s.slope)
	s.y, s.xy, s.yy = floats.Dot(o.ones, y), floats.Dot(o.slopes, y), floats.Dot(o.y, y)
	return s
}

// point adds a slope of a standard deviation to V0, a change of rank one, and
// gives the point of the grid without its prior.
func (s *walkSolved) point(slope float64, df int, ridge float64) (PresentPoint, float64) {
	a2 := slope * slope
	d := 1 + a2*s.xx
	q := s.q - a2*s.xq*s.xq/d
	y := s.y - a2*s.xq*s.xy/d
	m := y / q
	r := math.Max(0, s.yy-a2*s.xy*s.xy/d-m*y) + ridge
	p := PresentPoint{Slope: slope, Mean: m, V: 1 / q, S2: r / float64(df), solved: s}
	p.drift = a2 * (s.xy - m*s.xq) / d
	return p, -.5*(s.logDet+math.Log(d)) - .5*math.Log(q) - .5*float64(df)*math.Log(r)
}

// Lever is how much each value, in the caller's order, counts in the point's
// mean: V^-1 1/q, which sums to 1.
func (p PresentPoint) Lever() []float64 {
	h := make([]float64, len(p.solved.one))
	p.leverTo(h)
	return h
}

func (p PresentPoint) leverTo(h []float64) {
	s, a2 := p.solved, p.Slope*p.Slope
	back := a2 * s.xq / (1 + a2*s.xx)
	for i, place := range s.place {
		h[place] = (s.one[i] - back*s.slope[i]) * p.V
	}
}

// walkFilter factors the covariance of a walk and a group effect in time order:
// a filter of two states, the walk and the effect of the group at hand.
type walkFilter struct {
	fresh       []bool // a group begins here
	walk, group []float64
	variance    []float64
	out         []float64 // room for what is solved
}

func newWalkFilter(n int) walkFilter {
	all := make([]float64, 4*n)
	return walkFilter{make([]bool, n), all[:n:n], all[n : 2*n : 2*n], all[2*n : 3*n : 3*n], all[3*n:]}
}

// filter fills the factors.
func (o walkSeries) filter(rho, walk float64) {
	f := o.factors
	ww, wg, gg, at := 0.0, 0.0, 0.0, 0.0
	for i := range o.ago {
		ww, at = ww+walk*walk*(o.ago[i]-at), o.ago[i]
		if f.fresh[i] = i == 0 || o.group[i] != o.group[i-1]; f.fresh[i] {
			wg, gg = 0, rho
		}
		v := ww + 2*wg + gg + 1 - rho
		a, b := (ww+wg)/v, (wg+gg)/v
		f.walk[i], f.group[i], f.variance[i] = a, b, v
		ww, wg, gg = ww-a*a*v, wg-a*b*v, gg-b*b*v
	}
}

func (f walkFilter) logDet() float64 {
	sum := 0.0
	for _, v := range f.variance {
		sum += math.Log(v)
	}
	return sum
}

// solve gives V0^-1 b: the innovations of b by their variances, and the same way
// back.
func (f walkFilter) solve(out, b []float64) {
	walk, group := 0.0, 0.0
	for i, v := range b {
		if f.fresh[i] {
			group = 0
		}
		e := v - walk - group
		walk, group = walk+f.walk[i]*e, group+f.group[i]*e
		out[i] = e / f.variance[i]
	}
	walk, group = 0, 0
	for i := len(b) - 1; i >= 0; i-- {
		out[i] += f.walk[i]*walk + f.group[i]*group
		walk, group = walk-out[i], group-out[i]
		if f.fresh[i] {
			group = 0
		}
	}
}

// denseFactor factors a covariance whose groups lie across each other in time.
type denseFactor struct{ mat.Cholesky }

func (o walkSeries) dense(rho, walk float64) *denseFactor {
	v := mat.NewSymDense(len(o.ago), nil)
	for i := range o.ago {
		for j := range i + 1 {
			cov := walk * walk * o.ago[j]
			if o.group[i] == o.group[j] {
				cov += rho
			}
			if i == j {
				cov += 1 - rho
			}
			v.SetSym(i, j, cov)
		}
	}
	f := &denseFactor{}
	f.Factorize(v)
	return f
}

func (f *denseFactor) logDet() float64 { return f.LogDet() }

// solve gives V0^-1 b. The least eigenvalue of V0 is at least 1 - rho, and
// [longestClock] bounds the largest, so that it can be solved.
func (f *denseFactor) solve(out, b []float64) {
	if err := f.SolveVecTo(mat.NewVecDense(len(b), out), mat.NewVecDense(len(b), b)); !solved(err) {
		clear(out)
	}
}
