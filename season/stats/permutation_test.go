package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestPermutation(t *testing.T) {
	// Darwin's maize in eighths of an inch: 863 of 32 768 patterns of signs reach
	// the sum 314, 835 above and 28 equal. [derived]; Fisher 1935 section 21 [memory]
	// (that the data are used there is seen in the help of R's HistData).
	maize := []float64{49, -67, 8, 16, 6, 23, 28, 41, 14, 29, 56, 24, 75, 60, -48}
	darwin := paired(maize)
	// [derived: r, exactRankTests; scipy, permutation_test]: 10 of 462.
	two, err := TwoSample([]float64{7, 7.5, 6.5, 8, 7}, []float64{6, 6.5, 5.5, 6.5, 7, 5})
	require.NoError(t, err)
	// Mann-Whitney [derived: scipy, mannwhitneyu].
	ranks, err := mannWhitney([]float64{1.1, 2.2, 3.3, 4.4}, []float64{5.5, 6.6, 7.7})
	require.NoError(t, err)
	runChecks(t, []check{
		{"maize", 863.0 / 32768, darwin.Greater, 1e-15},
		{"maize", .026337, darwin.Greater, 5e-7},
		{"maize, equal", 28.0 / 32768, darwin.Greater + darwin.Less - 1, 1e-15},
		{"maize, mean", 314.0 / 15, darwin.Difference, 1e-13},
		{"maize, patterns", 32768, float64(darwin.Arrangements), 0},
		{"two samples", 10.0 / 462, two.Greater, 1e-15},
		{"two samples", .021645, two.Greater, 5e-7},
		{"two samples, splits", 462, float64(two.Arrangements), 0},
		{"two samples, difference", 7.2 - 36.5/6, two.Difference, 1e-14},
		{"Mann-Whitney", .0571428571, ranks.TwoSided, 5e-11},
	})
	assert.True(t, two.Exact && ranks.Exact)
}

// The smallest p is 1 in the number of splits, met when the sides do not overlap.
func TestPermutationSmallest(t *testing.T) {
	for _, c := range [][2]int{{2, 2}, {3, 2}, {3, 3}, {4, 3}, {4, 4}, {6, 2}, {10, 10}} {
		var a, b []float64
		for i := range c[0] {
			a = append(a, 100+float64(i*i)/3)
		}
		for i := range c[1] {
			b = append(b, float64(i*i)/7)
		}
		r, err := TwoSample(a, b)
		require.NoError(t, err)
		assert.True(t, r.Exact)
		assert.InDelta(t, SmallestFisherP(c[0], c[1]), r.Greater, 1e-15, "%v", c)
	}
}

func TestPermutationEdges(t *testing.T) {
	_, err := TwoSample(nil, []float64{1})
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = TwoSample([]float64{math.NaN()}, []float64{1})
	assert.ErrorIs(t, err, ErrRange)
	_, err = TwoSampleShift([]float64{1}, nil, .9)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = TwoSampleShift([]float64{1}, []float64{1}, 1)
	assert.ErrorIs(t, err, ErrRange)

	equal, err := TwoSample([]float64{.1, .1, .1}, []float64{.1, .1})
	require.NoError(t, err)
	assert.Equal(t, [3]float64{1, 1, 1}, [3]float64{equal.Greater, equal.Less, equal.TwoSided})
	noise, err := TwoSample([]float64{.1 + .2, .3}, []float64{.3, .3})
	require.NoError(t, err)
	assert.Equal(t, 1.0, noise.Greater, "a last digit is no difference")
	assert.Equal(t, 1.0, paired([]float64{0, 0, 0}).TwoSided)

	// Sums that are equal but for rounding count as equal: 0.1 + 0.2 and 0.3.
	assert.InDelta(t, 5.0/16, paired([]float64{.1, .2, -.3, 5}).Greater, 1e-15)
}

// Too many arrangements: a sample from a fixed seed, never p = 0.
func TestPermutationSampled(t *testing.T) {
	var a, b []float64
	for i := range 12 {
		a = append(a, 50+float64(i))
		b = append(b, float64(i)/3)
	}
	first, err := TwoSample(a, b)
	require.NoError(t, err)
	again, err := TwoSample(a, b)
	require.NoError(t, err)
	assert.Equal(t, first, again, "the same data give the same answer")
	assert.False(t, first.Exact)
	assert.Equal(t, 1.0/20_001, first.Greater)
	assert.Equal(t, 20_001, first.Arrangements)

	// A sample of a case that can be enumerated nearly so must come close to the
	// truth: 11 and 11 values against the normal approximation.
	near, err := TwoSample(rippled(11, .3), rippled(11, 0))
	require.NoError(t, err)
	assert.False(t, near.Exact)
	pooled := append(rippled(11, .3), rippled(11, 0)...)
	se := math.Sqrt(sumSquares(pooled, mean(pooled)) / 21 * 2 / 11)
	assert.InDelta(t, normalUpper(near.Difference/se), near.Greater, .02)

	shift, err := TwoSampleShift(a, b, .9)
	require.NoError(t, err)
	assert.True(t, shift.Interval.Contains(first.Difference))
	assert.InDelta(t, .9, shift.Confidence, 1e-3)
}

func TestMidranks(t *testing.T) {
	assert.Equal(t, []float64{5, 1, 3, 3, 3}, midranks([]float64{30, 10, 20, 20, 20}))
}

func drawSide(rt *rapid.T, name string) []float64 {
	half := rapid.Custom(func(rt *rapid.T) float64 { return float64(rapid.IntRange(0, 20).Draw(rt, "half")) / 2 })
	return rapid.SliceOfN(half, 1, 5).Draw(rt, name)
}

func TestPermutationProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		a, b := drawSide(rt, "a"), drawSide(rt, "b")
		r, err := TwoSample(a, b)
		require.NoError(rt, err)
		floor := 1 / float64(r.Arrangements)
		for _, p := range []float64{r.Greater, r.Less, r.TwoSided} {
			assert.True(rt, p >= floor && p <= 1)
		}
		assert.InDelta(rt, SmallestFisherP(len(a), len(b)), floor, 1e-15)
		turned, err := TwoSample(b, a)
		require.NoError(rt, err)
		assert.InDelta(rt, r.Greater, turned.Less, 1e-15)
	})
}

// The interval holds what the test would not reject: just inside its ends the
// shifted data are not significant, just outside they are.
func TestShiftInvertsTest(t *testing.T) {
	const step = 1e-6
	shifted := func(x []float64, by float64) []float64 {
		y := make([]float64, len(x))
		for i, v := range x {
			y[i] = v - by
		}
		return y
	}
	rapid.Check(t, func(rt *rapid.T) {
		a, b := drawSide(rt, "a"), drawSide(rt, "b")
		c := rapid.SampledFrom([]float64{.5, .8, .9, .95}).Draw(rt, "confidence")
		two, err := TwoSampleShift(a, b, c)
		require.NoError(rt, err)
		checkEnds(rt, two, mean(a)-mean(b), func(by float64) Permutation {
			r, err := TwoSample(shifted(a, by), b)
			require.NoError(rt, err)
			return r
		}, step)
		checkEnds(rt, pairedShift(a, c), mean(a), func(by float64) Permutation { return paired(shifted(a, by)) }, step)
	})
}

func checkEnds(rt *rapid.T, s Shift, estimate float64, test func(by float64) Permutation, step float64) {
	assert.True(rt, s.Interval.Low <= estimate+1e-9 && s.Interval.High >= estimate-1e-9, "holds the estimate")
	tail := (1 - s.Confidence) / 2
	assert.LessOrEqual(rt, test(s.Interval.Low-step).Greater, tail+1e-9)
	assert.Greater(rt, test(s.Interval.Low+step).Greater, tail+1e-9)
	assert.LessOrEqual(rt, test(s.Interval.High+step).Less, tail+1e-9)
	assert.Greater(rt, test(s.Interval.High-step).Less, tail+1e-9)
}
