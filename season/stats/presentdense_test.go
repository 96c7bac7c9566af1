package stats

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// densePresentPoint is a point of the grid as the model defines it: one dense Cholesky.
type densePresentPoint struct {
	rho, slope, walk, weight, mean, v, s2, drift float64
	lever                                        []float64
}

// densePresent is the model written out from its definition.
func densePresent(t *testing.T, s PresentSeries) []densePresentPoint {
	t.Helper()
	counts := map[int]int{}
	for _, g := range s.Groups {
		counts[g]++
	}
	var points []densePresentPoint
	top := math.Inf(-1)
	for i, rho := range []float64{0, .15, .3, .45, .6} {
		if rho > 0 && len(counts) == len(s.Groups) {
			continue
		}
		for _, slope := range []float64{0, 2, 4, 8} {
			for _, walk := range []float64{0, 1.5, 3, 6} {
				p := densePresentAt(t, s, rho, slope, walk)
				p.weight += math.Log([]float64{3, 2, 2, 1, 1}[i])
				for _, sd := range []float64{slope, walk} {
					p.weight += math.Log(map[bool]float64{true: .7, false: .1}[sd == 0])
				}
				top = math.Max(top, p.weight)
				points = append(points, p)
			}
		}
	}
	total := 0.0
	for i := range points {
		points[i].weight = math.Exp(points[i].weight - top)
		total += points[i].weight
	}
	for i := range points {
		points[i].weight /= total
	}
	return points
}

func densePresentAt(t *testing.T, s PresentSeries, rho, slope, walk float64) densePresentPoint {
	t.Helper()
	n := len(s.Values)
	v, ones := mat.NewSymDense(n, nil), mat.NewVecDense(n, nil)
	for i := range n {
		ones.SetVec(i, 1)
		for j := range i + 1 {
			cov := slope*slope*s.Slope[i]*s.Slope[j] + walk*walk*math.Min(-s.Walk[i], -s.Walk[j])
			if s.Groups[i] == s.Groups[j] {
				cov += rho
			}
			if i == j {
				cov += 1 - rho
			}
			v.SetSym(i, j, cov)
		}
	}
	var f mat.Cholesky
	require.True(t, f.Factorize(v))
	var one, rest mat.VecDense
	require.NoError(t, f.SolveVecTo(&one, ones))
	q := mat.Dot(ones, &one)
	m := mat.Dot(&one, mat.NewVecDense(n, slices.Clone(s.Values))) / q
	left := mat.NewVecDense(n, nil)
	for i, y := range s.Values {
		left.SetVec(i, y-m)
	}
	require.NoError(t, f.SolveVecTo(&rest, left))
	r := mat.Dot(left, &rest) + 1
	p := densePresentPoint{rho: rho, slope: slope, walk: walk, mean: m, v: 1 / q, s2: r / float64(n-1)}
	p.weight = -.5*f.LogDet() - .5*math.Log(q) - .5*float64(n-1)*math.Log(r)
	p.drift = slope * slope * mat.Dot(mat.NewVecDense(n, slices.Clone(s.Slope)), &rest)
	one.ScaleVec(1/q, &one)
	p.lever = one.RawVector().Data
	return p
}

// The filters give the points of the definition, on series with groups of one to
// four values, groups that lie across each other, several values of a day.
func TestPresentAgainstDefinition(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 2))
	for round := range 60 {
		s := randomPresent(r, 4+r.IntN(40), 1+round%4)
		if round%5 == 0 {
			for i := range s.Groups {
				s.Groups[i] = r.IntN(1 + len(s.Groups)/2)
			}
		}
		p, err := NewPresent(s)
		require.NoError(t, err)
		want := slices.DeleteFunc(densePresent(t, s), func(d densePresentPoint) bool { return d.weight < 1.001e-12 })
		got := slices.DeleteFunc(slices.Clone(p.Points), func(q PresentPoint) bool { return q.Weight < 1.001e-12 })
		slices.SortFunc(got, func(a, b PresentPoint) int {
			return cmp.Or(cmp.Compare(a.Rho, b.Rho), cmp.Compare(a.Slope, b.Slope), cmp.Compare(a.Walk, b.Walk))
		})
		require.Len(t, got, len(want))
		drift, steady := 0.0, 0.0
		for i, d := range want {
			q := got[i]
			require.Equal(t, [3]float64{d.rho, d.slope, d.walk}, [3]float64{q.Rho, q.Slope, q.Walk})
			runChecks(t, []check{
				{"weight", d.weight, q.Weight, 1e-9},
				{"mean", d.mean, q.Mean, 1e-9},
				{"v", d.v, q.V, relative(d.v, 1e-9)},
				{"s2", d.s2, q.S2, relative(d.s2, 1e-9)},
			})
			assert.InDeltaSlice(t, d.lever, q.Lever(), 1e-9)
			drift += d.weight * d.drift
			if d.slope == 0 && d.walk == 0 {
				steady += d.weight
			}
		}
		runChecks(t, []check{{"drift", drift, p.Drift, 1e-9}, {"steady", steady, p.Steady, 1e-9}})
	}
}

// The order of the entries and the numbers of the groups do not matter, nor does
// the order of the values of one day.
func TestPresentOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 3))
	for range 20 {
		s := randomPresent(r, 6+r.IntN(20), 3)
		var mixed PresentSeries
		for _, i := range r.Perm(len(s.Values)) {
			mixed.Values, mixed.Groups = append(mixed.Values, s.Values[i]), append(mixed.Groups, 1000-7*s.Groups[i])
			mixed.Walk, mixed.Slope = append(mixed.Walk, s.Walk[i]), append(mixed.Slope, s.Slope[i])
		}
		p, err := NewPresent(s)
		require.NoError(t, err)
		q, err := NewPresent(mixed)
		require.NoError(t, err)
		runChecks(t, []check{
			{"level", p.Level().Mean(), q.Level().Mean(), 1e-9},
			{"next at least", p.Next().AtLeast(61), q.Next().AtLeast(61), 1e-9},
			{"drift", p.Drift, q.Drift, 1e-9},
			{"variance", p.Variance, q.Variance, 1e-9},
			{"steady", p.Steady, q.Steady, 1e-9},
			{"rho", p.Rho, q.Rho, 1e-9},
		})
	}
}

// What the values were adjusted by widens the next one by u'Cu, worked out here
// with whole matrices.
func TestPresentWidensByWhatValuesWereAdjustedBy(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	for range 10 {
		s := randomPresent(r, 8, 2)
		p, err := NewPresent(s)
		require.NoError(t, err)
		root := mat.NewDense(9, 9, nil)
		for i := range 9 {
			for j := range 9 {
				root.Set(i, j, r.NormFloat64())
			}
		}
		var c mat.SymDense
		c.SymOuterK(1, root)
		rows := []int{1, 2, 3, 4, 5, 6, 7, 8}
		next := p.NextOf(&c, 0, rows, 2)
		for i, q := range p.Points {
			u := mat.NewVecDense(9, []float64{1, 0, 0, 0, 0, 0, 0, 0, 0})
			for j, h := range q.Lever() {
				u.SetVec(j+1, -h)
			}
			want := math.Sqrt(q.S2*(1+q.V) + mat.Inner(u, &c, u) + 2)
			require.InDelta(t, want, next.Scales[i], 1e-9)
		}
		none := p.NextOf(mat.NewSymDense(9, nil), 0, rows, 0)
		assert.Equal(t, p.Next(), none)
	}
}

// An adjustment that is the same for all values and for the next falls out.
func TestPresentCommonAdjustment(t *testing.T) {
	p, err := NewPresent(randomPresent(rand.New(rand.NewPCG(4, 5)), 12, 2))
	require.NoError(t, err)
	next := p.NextOf(mat.NewSymDense(1, []float64{50}), 0, make([]int, 12), 0)
	assert.InDeltaSlice(t, p.Next().Scales, next.Scales, 1e-9)
}

// With the same value each time the numbers exist.
func TestPresentSameValue(t *testing.T) {
	walk := []float64{-.4, -.3, -.2, -.1, 0}
	p, err := NewPresent(PresentSeries{Values: []float64{70, 70, 70, 70, 70}, Groups: []int{1, 2, 3, 4, 5}, Walk: walk, Slope: walk})
	require.NoError(t, err)
	next, err := p.Next().Central(.8)
	require.NoError(t, err)
	assert.InDelta(t, 70, p.Level().Mean(), 1e-12)
	assert.InDelta(t, 0, p.Drift, 1e-12)
	assert.Greater(t, next.High-next.Low, .1)
	assert.Less(t, next.High-next.Low, 6.0)
}

// The slope's clock stops 30 days after the last value, the walk's goes on, and a
// gap counts 90 days at most.
func TestPresentClock(t *testing.T) {
	walk, slope := PresentClock([]int{0, 200, 200, 230}, 330)
	assert.InDeltaSlice(t, []float64{-210. / 150, -120. / 150, -120. / 150, -90. / 150}, walk, 1e-12)
	assert.InDeltaSlice(t, []float64{-150. / 150, -60. / 150, -60. / 150, -30. / 150}, slope, 1e-12)
	walk, slope = PresentClock([]int{10, 40}, 40)
	assert.InDeltaSlice(t, []float64{-.2, 0}, walk, 1e-12)
	assert.Equal(t, walk, slope)
}

func TestPresentRefuses(t *testing.T) {
	good := func() PresentSeries {
		walk := []float64{-3, -2, -1, 0}
		return PresentSeries{Values: []float64{1, 2, 3, 4}, Groups: []int{1, 2, 3, 4}, Walk: walk, Slope: slices.Clone(walk)}
	}
	for _, c := range []struct {
		name string
		want error
		harm func(s *PresentSeries)
	}{
		{"three values", ErrTooFew, func(s *PresentSeries) { s.Values = s.Values[:3] }},
		{"a group missing", ErrShape, func(s *PresentSeries) { s.Groups = s.Groups[:3] }},
		{"a time missing", ErrShape, func(s *PresentSeries) { s.Slope = s.Slope[:3] }},
		{"a value of the future", ErrRange, func(s *PresentSeries) { s.Walk[3] = 1 }},
		{"an age ago", ErrRange, func(s *PresentSeries) { s.Slope[0] = -1e9 }},
		{"no number", ErrRange, func(s *PresentSeries) { s.Values[2] = math.NaN() }},
	} {
		s := good()
		c.harm(&s)
		_, err := NewPresent(s)
		assert.ErrorIs(t, err, c.want, c.name)
	}
	_, err := NewPresent(good())
	assert.NoError(t, err)
}
