package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

func TestCompareRates(t *testing.T) {
	// The R help of poisson.test [derived: r, poisson.test].
	a, err := CompareRates(11, 800, 21, 3011, .95)
	require.NoError(t, err)
	// 3 in 60 against 14 in 110: [derived: r, poisson.test; statsmodels,
	// exact-cond, cond-midp].
	b, err := CompareRates(3, 60, 14, 110, .95)
	require.NoError(t, err)
	runChecks(t, []check{
		{"ratio", 1.9714881, a.Ratio, 5e-7},
		{"low", .8584264, a.Interval.Low, 5e-7},
		{"high", 4.2772659, a.Interval.High, 5e-7},
		{"two-sided", .079669, a.TwoSided, 5e-7},
		{"ratio", .39285714, b.Ratio, 5e-9},
		{"low", .072388992, b.Interval.Low, 5e-9},
		{"high", 1.407591641, b.Interval.High, 5e-9},
		{"one-sided exact", .098425797, b.Less, 5e-10},
		{"mid-p", .064712704, b.MidLess, 5e-10},
		{"two-sided", .20249, b.TwoSided, 5e-6},
	})
}

func TestCompareRatesEdges(t *testing.T) {
	_, err := CompareRates(0, 10, 0, 20, .95)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = CompareRates(1, 0, 2, 20, .95)
	assert.ErrorIs(t, err, ErrRange)
	_, err = CompareRates(-1, 10, 2, 20, .95)
	assert.ErrorIs(t, err, ErrRange)
	_, err = CompareRates(1, 10, 2, 20, 0)
	assert.ErrorIs(t, err, ErrRange)

	none, err := CompareRates(0, 10, 4, 10, .95)
	require.NoError(t, err)
	assert.Zero(t, none.Ratio)
	assert.Zero(t, none.Interval.Low)
	assert.InDelta(t, 1.0/16, none.Less, 1e-15)
	assert.InDelta(t, 1.0/32, none.MidLess, 1e-15)
	assert.False(t, none.Unbounded)

	only, err := CompareRates(4, 10, 0, 10, .95)
	require.NoError(t, err)
	assert.True(t, only.Unbounded)
	assert.True(t, math.IsInf(only.Ratio, 1) && math.IsInf(only.Interval.High, 1))
	assert.InDelta(t, 1/none.Interval.High, only.Interval.Low, 1e-12)
}

func TestCompareRatesProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		x1, x2 := rapid.IntRange(0, 40).Draw(rt, "x1"), rapid.IntRange(1, 40).Draw(rt, "x2")
		t1, t2 := rapid.Float64Range(.5, 500).Draw(rt, "t1"), rapid.Float64Range(.5, 500).Draw(rt, "t2")
		r, err := CompareRates(x1, t1, x2, t2, .95)
		require.NoError(rt, err)
		assert.True(rt, r.Interval.Contains(r.Ratio))
		binomial := distuv.Binomial{N: float64(x1 + x2), P: t1 / (t1 + t2)}
		assert.InDelta(rt, binomial.CDF(float64(x1)), r.Less, 1e-9)
		assert.InDelta(rt, 1, r.MidLess+r.MidGreater, 1e-12, "the seen value is halved between the sides")
		assert.LessOrEqual(rt, r.MidLess, r.Less)
		back, err := CompareRates(x2, t2, x1, t1, .95)
		require.NoError(rt, err)
		assert.InDelta(rt, r.Less, back.Greater, 1e-12)
		if x1 > 0 {
			assert.InDelta(rt, 1/r.Interval.High, back.Interval.Low, 1e-9*(1+1/r.Interval.High))
		}
	})
}
