package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// sen1968 is the example of Sen 1968.
var sen1968 = Series{
	X: []float64{1, 2, 3, 4, 10, 12, 18},
	Y: []float64{9, 15, 19, 20, 45, 55, 78},
}

func TestTheilSenEPA(t *testing.T) {
	var epa176 xy
	reference(t, "epa_17_6", &epa176)
	a, err := GilbertInterval(1, .95, Series(epa176))
	require.NoError(t, err)
	intercept := conoverIntercept(Series(epa176), a.Slope)
	b, err := GilbertInterval(1, .95, Series(epa177))
	require.NoError(t, err)
	exact, err := TheilSen(.95, Series(epa177))
	require.NoError(t, err)
	runChecks(t, []check{
		// [published: epa-2009, p. 17-33, example 17-6] [derived: envstats,
		// kendallTrendTest].
		{"17-6 slope", 26.6666667, a.Slope, 5e-8},
		{"17-6 intercept", -1909.3333, intercept, 5e-5},
		{"17-6 low", 20.00000, a.Interval.Low, 5e-6},
		{"17-6 high", 35.71182, a.Interval.High, 5e-6},
		// [published: epa-2009, example 17-7].
		{"17-7 slope", 1.3333333, b.Slope, 5e-8},
		{"17-7 low", 0.3992083, b.Interval.Low, 5e-8},
		{"17-7 high", 2.3333333, b.Interval.High, 5e-8},
		// The exact interval: [derived].
		{"17-7 exact low", 0.4545455, exact.Interval.Low, 5e-8},
		{"17-7 exact high", 2.3333333, exact.Interval.High, 5e-8},
		{"17-7 achieved", .9534, exact.Confidence, 5e-5},
	})
	assert.True(t, exact.Exact)
	assert.False(t, b.Exact)
}

func TestTheilSenSen(t *testing.T) {
	at95, err := TheilSen(.95, sen1968)
	require.NoError(t, err)
	at93, err := TheilSen(.93, sen1968)
	require.NoError(t, err)
	joint := jointIntercept(sen1968, at95.Slope)
	runChecks(t, []check{
		// [published: sen-suites, Theil-Sen] [derived: scipy, theilslopes].
		{"slope", 4, at95.Slope, 1e-14},
		{"joint intercept", 6, joint, 1e-13},
		// [derived]. SciPy and deming call (26/7, 35/8) a 93 % interval, by the normal
		// approximation; deming's test file says that the interval printed in Sen's
		// own paper is wrong, so that one is not used.
		{"95% low", 26.0 / 7, at95.Interval.Low, 1e-14},
		{"95% high", 35.0 / 8, at95.Interval.High, 1e-14},
		{"95% ranks from", 4, at95.LowRank, 0},
		{"95% ranks to", 18, at95.HighRank, 0},
		{"95% achieved", .9698, at95.Confidence, 5e-5},
		{"93% low", 3.75, at93.Interval.Low, 1e-14},
		{"93% high", 46.0 / 11, at93.Interval.High, 1e-14},
		{"93% ranks from", 5, at93.LowRank, 0},
		{"93% ranks to", 17, at93.HighRank, 0},
		{"93% achieved", .9310, at93.Confidence, 5e-5},
		{"slopes", 21, float64(at95.Pairs), 0},
	})
}

// Two strata, by enumeration [derived].
func TestTheilSenStrata(t *testing.T) {
	r, err := TheilSen(.90,
		Series{X: []float64{0, 21, 48, 90}, Y: []float64{62, 64.5, 63, 66}},
		Series{X: []float64{1, 22, 91}, Y: []float64{58, 61, 60.5}})
	require.NoError(t, err)
	runChecks(t, []check{
		{"slope", .0277777778, r.Slope, 5e-11},
		{"pairs", 9, float64(r.Pairs), 0},
		{"low rank", 2, r.LowRank, 0},
		{"high rank", 8, r.HighRank, 0},
		{"low", -.0072463768, r.Interval.Low, 5e-11},
		{"high", .1190476190, r.Interval.High, 5e-11},
		{"achieved", .9167, r.Confidence, 5e-5},
	})
}

// The constructed demo: slope [derived: scipy, theilslopes]; the weighted slopes
// [derived: deming, theilsen] (w_i w_j) and [derived] (w_i w_j dx).
func TestTheilSenDemo(t *testing.T) {
	var demo struct{ Day, Percent, Weight []float64 }
	reference(t, "weighted_demo", &demo)
	r, err := TheilSen(.90, Series{demo.Day, demo.Percent})
	require.NoError(t, err)
	assert.InDelta(t, 0.06547619048, r.Slope, 5e-12)

	var slopes, products, long []float64
	for j := range demo.Day {
		for i := range j {
			dx := demo.Day[j] - demo.Day[i]
			slopes = append(slopes, (demo.Percent[j]-demo.Percent[i])/dx)
			products = append(products, demo.Weight[i]*demo.Weight[j])
			long = append(long, demo.Weight[i]*demo.Weight[j]*dx)
		}
	}
	assert.InDelta(t, 0.07142857143, weightedMedian(slopes, products), 5e-12)
	assert.InDelta(t, 0.05625, weightedMedian(slopes, long), 5e-12)
}

// What the whole range of slopes achieves, derived.
func TestTheilSenFewPoints(t *testing.T) {
	for _, c := range []struct {
		n        int
		achieved float64
	}{{2, 0}, {3, .667}, {4, .917}, {5, .983}} {
		x, y := make([]float64, c.n), make([]float64, c.n)
		for i := range x {
			x[i], y[i] = float64(i*i), math.Sin(float64(i))
		}
		r, err := TheilSen(.99, Series{x, y})
		require.NoError(t, err)
		assert.InDelta(t, c.achieved, r.Confidence, 5e-4, "n=%d", c.n)
		assert.Equal(t, 1.0, r.LowRank)
		assert.Equal(t, float64(r.Pairs), r.HighRank)
	}
}

// A tail that is exactly the one asked for is rare enough: of four points P(S >= 4)
// is 1/6, so two thirds are met by the ranks 2 and 5. [derived].
func TestTheilSenExactTail(t *testing.T) {
	r, err := TheilSen(2.0/3, Series{[]float64{0, 1, 2, 4}, []float64{3, 1, 4, 9}})
	require.NoError(t, err)
	assert.Equal(t, 2.0, r.LowRank)
	assert.Equal(t, 5.0, r.HighRank)
	assert.InDelta(t, 2.0/3, r.Confidence, 1e-14)
}

func TestTheilSenEdges(t *testing.T) {
	for _, c := range []struct {
		name   string
		series Series
		want   error
	}{
		{"none", Series{}, ErrTooFew},
		{"one", Series{[]float64{1}, []float64{1}}, ErrTooFew},
		{"all on one day", Series{[]float64{4, 4, 4}, []float64{1, 2, 3}}, ErrNoSpread},
		{"lengths", Series{[]float64{4, 5}, []float64{1}}, ErrShape},
		{"infinite", Series{[]float64{4, math.Inf(1)}, []float64{1, 2}}, ErrRange},
		{"slope too steep", Series{[]float64{0, 1e-300}, []float64{0, 1}}, ErrRange},
	} {
		_, err := TheilSen(.9, c.series)
		assert.ErrorIs(t, err, c.want, c.name)
		_, err = GilbertInterval(1, .9, c.series)
		assert.ErrorIs(t, err, c.want, c.name)
	}
	_, err := TheilSen(1, sen1968)
	require.ErrorIs(t, err, ErrRange)

	level, err := TheilSen(.9, Series{[]float64{0, 10, 20, 30, 40}, []float64{7, 7, 7, 7, 7}})
	require.NoError(t, err)
	assert.Equal(t, Interval{}, level.Interval)
	assert.Zero(t, level.Slope)

	even, err := TheilSen(.9, Series{[]float64{0, 1, 2, 3}, []float64{0, 1, 3, 7}})
	require.NoError(t, err)
	// Slopes 1, 1.5, 2, 7/3, 3, 4.
	assert.InDelta(t, (2+7.0/3)/2, even.Slope, 1e-14, "the mean of the two middle slopes")
}

// A pair on one day is dropped and the ranks move out by half, rounded up.
func TestTheilSenSameDay(t *testing.T) {
	y := []float64{1, 3, 2, 5, 4, 7, 6, 8}
	apart, err := TheilSen(.90, Series{[]float64{0, 1, 2, 3, 4, 5, 6, 7}, y})
	require.NoError(t, err)
	same, err := TheilSen(.90, Series{[]float64{0, 1, 1, 3, 4, 5, 6, 7}, y})
	require.NoError(t, err)
	assert.Equal(t, 1, same.Dropped)
	assert.Equal(t, 27, same.Pairs)
	assert.Equal(t, apart.LowRank-1, same.LowRank)
	assert.Equal(t, float64(same.Pairs+1)-same.LowRank, same.HighRank)
	for _, slope := range []float64{same.Slope, same.Interval.Low, same.Interval.High} {
		assert.False(t, math.IsInf(slope, 0))
	}
}

// The widened ranks must keep the confidence asked for wherever the slopes
// can give it, by the exact null with tied X.
func TestTheilSenSameDayConfidence(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		days := rapid.SliceOfN(rapid.IntRange(0, 9), 3, 12).Draw(rt, "days")
		s := Series{}
		for i, d := range days {
			s.X = append(s.X, float64(d))
			s.Y = append(s.Y, float64(i*i%7))
		}
		for _, c := range []float64{.8, .9, .95} {
			r, err := TheilSen(c, s)
			if err != nil {
				assert.ErrorIs(rt, err, ErrNoSpread)
				return
			}
			assert.True(rt, r.Confidence >= c-1e-9 || r.LowRank == 1, "%v at %v", r, c)
		}
	})
}

func TestTheilSenManyPoints(t *testing.T) {
	for _, n := range []int{60, 61, 171} {
		x := make([]float64, n)
		for i := range x {
			x[i] = float64(i)
		}
		r, err := TheilSen(.9, Series{x, rippled(n, .1)})
		require.NoError(t, err)
		g, err := GilbertInterval(1, .9, Series{x, rippled(n, .1)})
		require.NoError(t, err)
		assert.Equal(t, n <= ExactPoints, r.Exact)
		width := g.Interval.High - g.Interval.Low
		assert.InDelta(t, g.Interval.Low, r.Interval.Low, 0.03*width)
		assert.InDelta(t, g.Interval.High, r.Interval.High, 0.03*width)
	}
}

func TestTheilSenProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 12).Draw(rt, "n")
		s := Series{}
		for i := range n {
			s.X = append(s.X, float64(7*i))
			s.Y = append(s.Y, rapid.Float64Range(-50, 50).Draw(rt, "y"))
		}
		c := rapid.Float64Range(.01, .999).Draw(rt, "confidence")
		r, err := TheilSen(c, s)
		require.NoError(rt, err)
		assert.True(rt, r.Interval.Contains(r.Slope))
		g, err := GilbertInterval(1, c, s)
		require.NoError(rt, err)
		assert.True(rt, g.Interval.Contains(g.Slope) || math.Abs(g.Interval.High-g.Interval.Low) < 1e-12)
		for i := range s.Y {
			s.Y[i] += 2 * s.X[i]
		}
		steeper, err := TheilSen(c, s)
		require.NoError(rt, err)
		assert.InDelta(rt, r.Slope+2, steeper.Slope, 1e-9, "a line added moves the slope by its own")
		assert.InDelta(rt, r.Interval.Low+2, steeper.Interval.Low, 1e-9)
	})
}
