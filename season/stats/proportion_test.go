package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// Newcombe 1998 table I: Wilson [published: newcombe-suites, table I]; both
// [derived: r, binom.test; scipy, binomtest].
func TestNewcombe(t *testing.T) {
	for _, c := range []struct {
		k, n            int
		wilson, pearson Interval
	}{
		{81, 263, Interval{.2553, .3662}, Interval{.2527, .3676}},
		{15, 148, Interval{.0624, .1605}, Interval{.0578, .1617}},
		{0, 20, Interval{0, .1611}, Interval{0, .1684}},
		{1, 29, Interval{.0061, .1718}, Interval{.0009, .1776}},
	} {
		w, err := Wilson(c.k, c.n, .95)
		require.NoError(t, err)
		p, err := ClopperPearson(c.k, c.n, .95)
		require.NoError(t, err)
		runChecks(t, []check{
			{"Wilson low", c.wilson.Low, w.Low, 5.1e-5},
			{"Wilson high", c.wilson.High, w.High, 5.1e-5},
			{"Clopper-Pearson low", c.pearson.Low, p.Low, 5.1e-5},
			{"Clopper-Pearson high", c.pearson.High, p.High, 5.1e-5},
		})
	}
}

// The rule of three, derived.
func TestRuleOfThree(t *testing.T) {
	for _, c := range []struct {
		n           int
		exact, rule float64
	}{{10, .25887, .3}, {20, .13911, .15}, {30, .09503, .1}, {60, .04870, .05}, {120, .02466, .025}} {
		exact, err := NoneUpper(c.n, .95)
		require.NoError(t, err)
		assert.InDelta(t, c.exact, exact, 5e-6, "n=%d", c.n)
		assert.InDelta(t, c.rule, ruleOfThree(c.n), 1e-15, "n=%d", c.n)
		assert.True(t, exact < c.rule && c.rule < 1.16*exact, "the rule is a little above, n=%d", c.n)
	}
}

// Beta-binomial [derived: r, lbeta].
func TestAtLeastOne(t *testing.T) {
	for _, c := range []struct {
		k, n, next  int
		prior, want float64
	}{
		{2, 120, 12, Jeffreys, .21314488},
		{0, 60, 12, Jeffreys, .086812056},
		{2, 120, 12, 1, .24869425},
	} {
		got, err := AtLeastOne(c.k, c.n, c.next, c.prior)
		require.NoError(t, err)
		assert.InDelta(t, c.want, got, 5e-9, "%+v", c)
	}
	none, err := AtLeastOne(3, 5, 0, Jeffreys)
	require.NoError(t, err)
	assert.Zero(t, none)
	nothing, err := AtLeastOne(0, 0, 1, Jeffreys)
	require.NoError(t, err)
	assert.InDelta(t, .5, nothing, 1e-15)
	_, err = AtLeastOne(3, 2, 1, Jeffreys)
	assert.ErrorIs(t, err, ErrShape)
	_, err = AtLeastOne(1, 2, -1, Jeffreys)
	assert.ErrorIs(t, err, ErrRange)
	_, err = AtLeastOne(1, 2, 1, 0)
	assert.ErrorIs(t, err, ErrRange)
}

func TestProportionEdges(t *testing.T) {
	for _, f := range []func(k, n int, c float64) (Interval, error){Wilson, ClopperPearson} {
		_, err := f(0, 0, .95)
		assert.ErrorIs(t, err, ErrTooFew)
		_, err = f(3, 2, .95)
		assert.ErrorIs(t, err, ErrShape)
		_, err = f(-1, 2, .95)
		assert.ErrorIs(t, err, ErrRange)
		_, err = f(1, 2_000_000, .95)
		assert.ErrorIs(t, err, ErrRange)
		_, err = f(1, 2, 1)
		assert.ErrorIs(t, err, ErrRange)
		all, err := f(7, 7, .95)
		require.NoError(t, err)
		assert.Equal(t, 1.0, all.High)
		none, err := f(0, 7, .95)
		require.NoError(t, err)
		assert.Equal(t, 0.0, none.Low)
	}
	_, err := NoneUpper(0, .95)
	assert.ErrorIs(t, err, ErrTooFew)
}

func TestProportionProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(1, 400).Draw(rt, "n")
		k := rapid.IntRange(0, n).Draw(rt, "k")
		c := rapid.Float64Range(.5, .999).Draw(rt, "confidence")
		p := float64(k) / float64(n)
		w, err := Wilson(k, n, c)
		require.NoError(rt, err)
		e, err := ClopperPearson(k, n, c)
		require.NoError(rt, err)
		assert.True(rt, w.Contains(p) && e.Contains(p))
		assert.True(rt, w.Low >= 0 && w.High <= 1 && e.Low >= 0 && e.High <= 1)
		// The exact ends are where the binomial tails are (1-c)/2.
		if k > 0 {
			tail := 1 - distuv.Binomial{N: float64(n), P: e.Low}.CDF(float64(k-1))
			assert.InDelta(rt, (1-c)/2, tail, 1e-9)
		}
		if k < n {
			assert.InDelta(rt, (1-c)/2, distuv.Binomial{N: float64(n), P: e.High}.CDF(float64(k)), 1e-9)
		}
		mirror, err := ClopperPearson(n-k, n, c)
		require.NoError(rt, err)
		assert.InDelta(rt, 1-e.High, mirror.Low, 1e-12)
		// One more trial without a success cannot raise the chance.
		a, err := AtLeastOne(k, n, 12, Jeffreys)
		require.NoError(rt, err)
		b, err := AtLeastOne(k, n+1, 12, Jeffreys)
		require.NoError(rt, err)
		assert.True(rt, a >= b && b >= 0 && a <= 1)
		// The upper bound of nothing seen is Clopper-Pearson's, one-sided.
		upper, err := NoneUpper(n, c)
		require.NoError(rt, err)
		twice, err := ClopperPearson(0, n, 2*c-1+1e-12)
		require.NoError(rt, err)
		assert.InDelta(rt, upper, twice.High, 1e-8)
	})
}
