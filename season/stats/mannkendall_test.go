package stats

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// xy is a data set of dated values.
type xy struct{ X, Y []float64 }

// epa177 is the US EPA Unified Guidance 2009, example 17-7.
var epa177 = xy{
	X: []float64{89.6, 90.1, 90.8, 91.1, 92.1, 93.1, 94.1, 95.6, 96.1, 96.3},
	Y: []float64{56, 53, 51, 55, 52, 60, 62, 59, 61, 63},
}

func TestMannKendallPublished(t *testing.T) {
	var epa176 xy
	reference(t, "epa_17_6", &epa176)
	a, err := MannKendall(epa176.Y)
	require.NoError(t, err)
	b, err := MannKendall(epa177.Y)
	require.NoError(t, err)
	// EPA QA/G-9S p. 109.
	c, err := MannKendall([]float64{10, 10, 10, 5, 10, 20, 18, 17, 15, 24, 15})
	require.NoError(t, err)
	runChecks(t, []check{
		// [published: epa-2009, p. 17-33, example 17-6] [derived: envstats,
		// kendallTrendTest].
		{"17-6 S", 194, float64(a.S), 0},
		{"17-6 Var S", 1428, a.VarS, 1e-9},
		{"17-6 z", 5.107322, a.Z, 5e-7},
		{"17-6 normal p", 3.267574e-07, a.NormalP, 5e-14},
		// [published: epa-2009, example 17-7]; the exact p [derived: r, cor.test].
		{"17-7 S", 25, float64(b.S), 0},
		{"17-7 z", 2.146625, b.Z, 5e-7},
		{"17-7 normal p", 0.03182313, b.NormalP, 5e-9},
		{"17-7 exact p", 0.02860946, b.P, 5e-9},
		// S, Var S, Z [published: epa-g9s, p. 109]; exact p [derived], by
		// enumerating all 831 600 arrangements, of which 38 310 reach S >= 22.
		{"G-9S S", 22, float64(c.S), 0},
		{"G-9S Var S", 155.33, c.VarS, 0.005},
		{"G-9S Z", 1.685, c.Z, 5e-4},
		{"G-9S normal p", 0.0920, c.NormalP, 5e-5},
		{"G-9S exact p", 0.092136, c.P, 5e-7},
		{"G-9S upper tail", 38310.0 / 831600, c.Upper, 1e-14},
	})
	assert.True(t, a.Exact && b.Exact && c.Exact)
}

func TestMannKendallSmallSamples(t *testing.T) {
	// EPA QA/G-9 small-sample box: number [derived], 7 of 60; citation [memory].
	box, err := MannKendall([]float64{5, 6, 11, 8, 10})
	require.NoError(t, err)
	// Hollander and Wolfe's tuna, in the R help of cor.test, y in order of x;
	// [derived: r, cor.test]. Its T = 26 counts the rising pairs.
	tuna, err := MannKendall([]float64{2.5, 4.0, 2.6, 3.6, 2.8, 3.1, 5.2, 5.0, 3.8})
	require.NoError(t, err)
	// The constructed demo; exact p [derived: r, cor.test].
	var demo struct{ Day, Percent, Weight []float64 }
	reference(t, "weighted_demo", &demo)
	d, err := MannKendall(demo.Percent)
	require.NoError(t, err)
	runChecks(t, []check{
		{"box S", 6, float64(box.S), 0},
		{"box upper", 7.0 / 60, box.Upper, 1e-15},
		{"tuna S", 16, float64(tuna.S), 0},
		{"tuna T", 26, float64(tuna.S+tuna.Pairs) / 2, 0},
		{"tuna one-sided", 0.05971947, tuna.Upper, 5e-9},
		{"tuna two-sided", 0.1194389, tuna.P, 5e-8},
		{"tuna tau", 0.4444444, tuna.Tau, 5e-8},
		{"demo p", 0.0141369047619, d.P, 1e-12},
	})
}

// Exact tails without ties: [derived: r, C_pKendall], the same as
// Gilbert's table A18 [memory].
func TestMannKendallTails(t *testing.T) {
	for _, c := range []struct {
		n, s int
		want float64
		tol  float64
	}{
		{4, 4, .1667, 5e-5},
		{4, 6, .04167, 5e-6},
		{5, 6, .1167, 5e-5},
		{5, 8, .04167, 5e-6},
		{5, 10, .008333, 5e-7},
		{6, 9, .06806, 5e-6},
		{6, 11, .02778, 5e-6},
		{6, 13, .008333, 5e-7},
		{6, 15, .001389, 5e-7},
		{7, 13, .03452, 5e-6},
		{7, 15, .01508, 5e-6},
		{7, 17, .005357, 5e-7},
		{8, 16, .03051, 5e-6},
		{8, 18, .01558, 5e-6},
		{9, 18, .03759, 5e-6},
		{9, 20, .02231, 5e-6},
		{10, 21, .03628, 5e-6},
		{10, 23, .02331, 5e-6},
		{10, 25, .0143, 5e-5},
	} {
		null := newKendallNull([][]int{singles(c.n)})
		assert.InDelta(t, c.want, null.upper(c.s), c.tol, "n=%d s=%d", c.n, c.s)
	}
}

// Two strata, by enumerating all 144 arrangements [derived].
func TestMannKendallStrata(t *testing.T) {
	plain, err := MannKendall([]float64{62, 64.5, 63, 66}, []float64{58, 61, 60.5})
	require.NoError(t, err)
	tied, err := MannKendall([]float64{62, 64.5, 62, 66}, []float64{58, 61, 61})
	require.NoError(t, err)
	runChecks(t, []check{
		{"S", 5, float64(plain.S), 0},
		{"upper", 19.0 / 144, plain.Upper, 1e-15},
		{"p", .26388889, plain.P, 5e-9},
		{"S with ties", 5, float64(tied.S), 0},
		{"upper with ties", 16.0 / 144, tied.Upper, 1e-15},
		{"p with ties", .22222222, tied.P, 5e-9},
	})
	alone, err := MannKendall([]float64{62, 64.5, 63, 66}, []float64{58, 61, 60.5}, []float64{9}, nil)
	require.NoError(t, err)
	assert.Equal(t, plain, alone, "strata of fewer than two values count for nothing")
}

// The smallest two-sided p that any data can reach, derived.
func TestSmallestTrendP(t *testing.T) {
	runChecks(t, []check{
		{"none", 1, SmallestTrendP(), 0},
		{"n=1", 1, SmallestTrendP(1), 0},
		{"n=2", 1, SmallestTrendP(2), 0},
		{"n=3", .333, SmallestTrendP(3), 5e-4},
		{"n=4", .083, SmallestTrendP(4), 5e-4},
		{"n=5", .0167, SmallestTrendP(5), 5e-5},
		{"n=6", .0028, SmallestTrendP(6), 5e-5},
		{"n=4 and 3", 2.0 / 144, SmallestTrendP(4, 3), 1e-15},
		{"n=-5", 1, SmallestTrendP(-5), 0},
		{"n=1000", 0, SmallestTrendP(1000), 0},
	})
	rising, err := MannKendall([]float64{1, 2, 3, 4, 5})
	require.NoError(t, err)
	assert.InDelta(t, SmallestTrendP(5), rising.P, 1e-15)
	assert.InDelta(t, SmallestTrendP(5), rising.Smallest, 1e-15)
	// One lone small p among 12, at 10 % after Benjamini-Hochberg, must be at most
	// .0083: six points can reach it, five cannot.
	assert.Greater(t, SmallestTrendP(5), .10/12)
	assert.Less(t, SmallestTrendP(6), .10/12)
}

func TestMannKendallEdges(t *testing.T) {
	_, err := MannKendall()
	require.ErrorIs(t, err, ErrTooFew)
	_, err = MannKendall([]float64{1}, []float64{2})
	require.ErrorIs(t, err, ErrTooFew)
	require.EqualError(t, err, "too few values: 1, at least 2 needed")
	_, err = MannKendall([]float64{1, math.NaN()})
	require.ErrorIs(t, err, ErrRange)

	equal, err := MannKendall([]float64{7, 7, 7, 7, 7, 7})
	require.NoError(t, err)
	assert.Equal(t, TrendTest{Points: 6, Pairs: 15, NormalP: 1, Upper: 1, Lower: 1, P: 1, Exact: true, Smallest: 1}, equal)

	level, err := MannKendall([]float64{1, 2, 2, 1})
	require.NoError(t, err)
	assert.Zero(t, level.S)
	assert.Zero(t, level.Z)
	assert.Equal(t, 1.0, level.P)

	two, err := MannKendall([]float64{1, 2})
	require.NoError(t, err)
	assert.Equal(t, 1.0, two.P, "two points cannot show a trend")
}

// rippled is a series rising by slope a step with a fixed ripple and ties.
func rippled(n int, slope float64) []float64 {
	y := make([]float64, n)
	for i := range y {
		y[i] = math.Round(float64(i)*slope + 9*math.Sin(float64(i*i)))
	}
	return y
}

// Exact up to 60 points, normal above: the hand-over must be smooth.
func TestMannKendallHandOver(t *testing.T) {
	for _, n := range []int{58, 59, 60, 61, 62} {
		r, err := MannKendall(rippled(n, .05))
		require.NoError(t, err)
		assert.Equal(t, n <= ExactPoints, r.Exact)
		assert.InDelta(t, r.NormalP, r.P, 0.002, "n=%d", n)
		assert.Greater(t, r.P, 0.01)
		assert.Less(t, r.P, 0.6)
	}
	// The count of points is over all strata.
	r, err := MannKendall(rippled(31, .1), rippled(30, .1))
	require.NoError(t, err)
	assert.False(t, r.Exact)
	assert.InDelta(t, r.NormalP, r.P, 1e-12, "above 60 points both are the same normal tail")
}

// Counts of arrangements overflow a float64 at 171 points; probabilities do not.
func TestMannKendallManyPoints(t *testing.T) {
	for _, n := range []int{171, 200, 600} {
		r, err := MannKendall(rippled(n, .1))
		require.NoError(t, err)
		assert.Greater(t, r.P, 0.0, "n=%d", n)
		assert.Less(t, r.P, 0.05, "n=%d", n)
	}
	probs := inversionProbs(singles(171))
	assert.InDelta(t, 1, sumTo(probs, len(probs)), 1e-9)
	mixed := inversionProbs([]int{60, 60})
	assert.InDelta(t, 1, sumTo(mixed, len(mixed)), 1e-9)
}

func drawStrata(rt *rapid.T) [][]float64 {
	value := rapid.Custom(func(rt *rapid.T) float64 { return float64(rapid.IntRange(0, 6).Draw(rt, "half")) / 2 })
	return rapid.SliceOfN(rapid.SliceOfN(value, 2, 5), 1, 2).Draw(rt, "strata")
}

// The exact null must be what enumerating every arrangement gives.
func TestMannKendallAgainstEnumeration(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		strata := drawStrata(rt)
		r, err := MannKendall(strata...)
		require.NoError(rt, err)
		upper, lower, all := 0, 0, 0
		var walk func(k, s int)
		walk = func(k, s int) {
			if k == len(strata) {
				all++
				if s >= r.S {
					upper++
				}
				if s <= r.S {
					lower++
				}
				return
			}
			eachOrder(strata[k], func(y []float64) { walk(k+1, s+concordance(y)) })
		}
		walk(0, 0)
		assert.InDelta(rt, float64(upper)/float64(all), r.Upper, 1e-12)
		assert.InDelta(rt, float64(lower)/float64(all), r.Lower, 1e-12)
	})
}

// eachOrder visits every order of the values.
func eachOrder(y []float64, visit func([]float64)) {
	var walk func(k int)
	walk = func(k int) {
		if k == len(y) {
			visit(y)
			return
		}
		for i := k; i < len(y); i++ {
			y[k], y[i] = y[i], y[k]
			walk(k + 1)
			y[k], y[i] = y[i], y[k]
		}
	}
	walk(0)
}

func TestMannKendallProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		groups := rapid.SliceOfN(rapid.SliceOfN(rapid.IntRange(1, 5), 1, 6), 1, 2).Draw(rt, "groups")
		null := newKendallNull(groups)
		sum, variance := 0.0, 0.0
		for i, p := range null.probs {
			s := float64(null.untied - 2*i)
			sum += p
			variance += p * s * s
			assert.InDelta(rt, p, null.probs[len(null.probs)-1-i], 1e-14, "symmetric")
		}
		assert.Len(rt, null.probs, null.untied+1)
		assert.InDelta(rt, 1, sum, 1e-12)
		assert.InDelta(rt, null.variance, variance, 1e-9*(1+variance), "the tie-corrected variance is the null's")
	})
	rapid.Check(t, func(rt *rapid.T) {
		strata := drawStrata(rt)
		r, err := MannKendall(strata...)
		require.NoError(rt, err)
		assert.GreaterOrEqual(rt, r.P, r.Smallest-1e-15)
		sizes := make([]int, len(strata))
		for k, y := range strata {
			sizes[k] = len(y)
		}
		assert.GreaterOrEqual(rt, r.Smallest, SmallestTrendP(sizes...)-1e-15, "ties only raise the floor")
		assert.LessOrEqual(rt, r.P, 1.0)
		for _, y := range strata {
			for i, j := 0, len(y)-1; i < j; i, j = i+1, j-1 {
				y[i], y[j] = y[j], y[i]
			}
		}
		back, err := MannKendall(strata...)
		require.NoError(rt, err)
		assert.Equal(rt, -r.S, back.S, "reversed in time")
		assert.InDelta(rt, r.P, back.P, 1e-14)
	})
}

func ExampleMannKendall() {
	r, _ := MannKendall([]float64{62, 64.5, 63, 66}, []float64{58, 61, 60.5})
	fmt.Printf("S = %d, p = %.3f, at best %.3f\n", r.S, r.P, r.Smallest)
	// Output: S = 5, p = 0.264, at best 0.014
}
