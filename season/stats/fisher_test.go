package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/combin"
	"pgregory.net/rapid"
)

func TestFisher(t *testing.T) {
	// Fisher's tea tasting: its distribution 1 16 36 16 1 of 70 [published: tea-tasting,
	// distribution] [derived: r, fisher.test; scipy, fisher_exact].
	tea, err := Fisher(3, 1, 1, 3)
	require.NoError(t, err)
	right, err := Fisher(4, 0, 0, 4)
	require.NoError(t, err)
	// Convictions, in the R help of fisher.test [derived: r, fisher.test].
	convictions, err := Fisher(2, 15, 10, 3)
	require.NoError(t, err)
	runChecks(t, []check{
		{"tea one-sided", 17.0 / 70, tea.Greater, 1e-15},
		{"tea one-sided", .24285714, tea.Greater, 5e-9},
		{"tea two-sided", .48571429, tea.TwoSided, 5e-9},
		{"all right", 1.0 / 70, right.Greater, 1e-15},
		{"convictions less", .00046518, convictions.Less, 5e-9},
		{"convictions two-sided", .00053672412, convictions.TwoSided, 5e-12},
	})
	var ways []float64
	for a := range 5 {
		f, err := Fisher(a, 4-a, 4-a, a)
		require.NoError(t, err)
		ways = append(ways, math.Round(70*(f.Less+f.Greater-1)))
	}
	assert.Equal(t, []float64{1, 16, 36, 16, 1}, ways)
}

// How little counts can show, one-sided: k of n before, 0 of m since. [derived].
func TestFisherSmallCounts(t *testing.T) {
	for _, c := range []struct {
		before, of, since int
		want              float64
	}{
		{3, 6, 8, .055},
		{3, 6, 10, .036},
		{5, 10, 6, .058},
		{5, 10, 8, .029},
		{8, 10, 3, .035},
		{8, 10, 4, .015},
		{4, 12, 10, .068},
	} {
		f, err := Fisher(c.before, c.of-c.before, 0, c.since)
		require.NoError(t, err)
		assert.InDelta(t, c.want, f.Greater, 5e-4, "%+v", c)
	}
}

func TestFisherEdges(t *testing.T) {
	_, err := Fisher(0, 0, 0, 0)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = Fisher(-1, 0, 3, 0)
	assert.ErrorIs(t, err, ErrRange)
	_, err = Fisher(600_000, 1, 600_000, 1)
	assert.ErrorIs(t, err, ErrRange)
	for _, table := range [][4]int{{0, 5, 0, 7}, {0, 0, 3, 4}, {5, 0, 7, 0}, {1, 0, 0, 0}} {
		f, err := Fisher(table[0], table[1], table[2], table[3])
		require.NoError(t, err)
		assert.Equal(t, FisherTest{1, 1, 1}, f, "one margin is 0: only this table is possible")
	}
	large, err := Fisher(250_000, 250_000, 250_000, 250_000)
	require.NoError(t, err)
	assert.InDelta(t, 1, large.TwoSided, 1e-9)
}

func TestSmallestP(t *testing.T) {
	// Smallest p of a split, derived.
	for _, c := range []struct {
		a, b int
		want float64
		tol  float64
	}{{2, 2, .167, 5e-4}, {3, 2, .10, 1e-15}, {3, 3, .05, 1e-15}, {4, 3, .029, 5e-4}, {4, 4, .014, 5e-4}, {6, 2, .036, 5e-4}, {0, 3, 1, 0}, {-2, 3, 1, 0}} {
		assert.InDelta(t, c.want, SmallestFisherP(c.a, c.b), c.tol, "%+v", c)
	}
	f, err := Fisher(4, 0, 0, 3)
	require.NoError(t, err)
	assert.InDelta(t, SmallestFisherP(4, 3), f.Greater, 1e-15)
}

// Against sums of gonum's generalised binomials, which is how a hypergeometric
// can be had from it.
func TestFisherProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		count := rapid.IntRange(0, 25)
		a, b := count.Draw(rt, "a"), count.Draw(rt, "b")
		c, d := count.Draw(rt, "c"), count.Draw(rt, "d")
		if a+b+c+d == 0 {
			return
		}
		f, err := Fisher(a, b, c, d)
		require.NoError(rt, err)
		choose := func(n, k int) float64 { return combin.LogGeneralizedBinomial(float64(n), float64(k)) }
		prob := func(x int) float64 {
			return math.Exp(choose(a+b, x) + choose(c+d, a+c-x) - choose(a+b+c+d, a+c))
		}
		less, two := 0.0, 0.0
		for x := max(0, a-d); x <= min(a+b, a+c); x++ {
			if x <= a {
				less += prob(x)
			}
			if prob(x) <= prob(a)*(1+1e-7) {
				two += prob(x)
			}
		}
		assert.InDelta(rt, less, f.Less, 1e-9)
		assert.InDelta(rt, two, f.TwoSided, 1e-9)
		assert.InDelta(rt, 1+prob(a), f.Less+f.Greater, 1e-9)
		turned, err := Fisher(c, d, a, b)
		require.NoError(rt, err)
		assert.InDelta(rt, f.Less, turned.Greater, 1e-12)
		assert.GreaterOrEqual(rt, math.Min(f.Less, f.Greater), SmallestFisherP(a+b, c+d)-1e-15)
	})
}
