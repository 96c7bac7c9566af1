package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// dyestuff is the yield of five preparations from each of six batches.
// [derived: lme4, Dyestuff], after Davies 1947 [memory].
var dyestuff = [][]float64{
	{1545, 1440, 1440, 1520, 1580},
	{1540, 1555, 1490, 1560, 1495},
	{1595, 1550, 1605, 1510, 1560},
	{1445, 1440, 1595, 1465, 1545},
	{1595, 1630, 1515, 1635, 1625},
	{1520, 1455, 1450, 1480, 1445},
}

// clustered lists clusters of values at one time.
func clustered(clusters [][]float64) Clustered {
	var g Clustered
	for c, values := range clusters {
		for _, y := range values {
			g.X, g.Y = append(g.X, 0), append(g.Y, y)
			g.Stratum, g.Cluster = append(g.Stratum, 0), append(g.Cluster, c)
		}
	}
	return g
}

// In a balanced table at one time the moments are those of one-way analysis of
// variance, which REML equals. Variances 1764.05 and 2451.25 from the vignette of
// lme4 [memory], and [derived] from the table here.
func TestClusterSharesOneWay(t *testing.T) {
	shares, err := ClusterShares([]Clustered{clustered(dyestuff)})
	require.NoError(t, err)
	assert.InDelta(t, 1764.05/(1764.05+2451.25), shares[0], 1e-12)

	within, between, total := 0.0, 0.0, 0.0
	means := make([]float64, len(dyestuff))
	for c, values := range dyestuff {
		for _, y := range values {
			means[c] += y / 5
		}
		total += means[c] / 6
	}
	for c, values := range dyestuff {
		for _, y := range values {
			within += (y - means[c]) * (y - means[c]) / 24
		}
		between += 5 * (means[c] - total) * (means[c] - total) / 5
	}
	assert.InDelta(t, (between-within)/5/((between-within)/5+within), shares[0], 1e-12)
}

// A straight line through the clusters is no likeness of theirs, whatever its
// slope; nor are levels of strata.
func TestClusterSharesLeavesOutLineAndStrata(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var g Clustered
	for i := range 24 {
		g.X, g.Y = append(g.X, float64(7*i)), append(g.Y, r.NormFloat64())
		g.Stratum, g.Cluster = append(g.Stratum, i%2), append(g.Cluster, i/3)
	}
	plain, err := ClusterShares([]Clustered{g})
	require.NoError(t, err)
	moved := g
	moved.Y = nil
	for i, y := range g.Y {
		moved.Y = append(moved.Y, y+0.5*g.X[i]+40*float64(g.Stratum[i]))
	}
	shifted, err := ClusterShares([]Clustered{moved})
	require.NoError(t, err)
	assert.InDelta(t, plain[0], shifted[0], 1e-9)
}

// Shares that are known come back on the mean: thirteen groups of twelve values
// in clusters of two and three, with a common trend, a third of the variance
// being the clusters'.
func TestClusterSharesKnownTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for _, size := range []int{2, 3} {
		for _, truth := range []float64{0, 1.0 / 3, 2.0 / 3} {
			sum, n := 0.0, 400
			for range n {
				groups := make([]Clustered, 13)
				for i := range groups {
					effect := 0.0
					for k := range 12 {
						if k%size == 0 {
							effect = r.NormFloat64()
						}
						groups[i].X = append(groups[i].X, float64(k))
						groups[i].Y = append(groups[i].Y, 0.2*float64(k)+math.Sqrt(truth)*effect+math.Sqrt(1-truth)*r.NormFloat64())
						groups[i].Stratum, groups[i].Cluster = append(groups[i].Stratum, 0), append(groups[i].Cluster, k/size)
					}
				}
				shares, err := ClusterShares(groups)
				require.NoError(t, err)
				sum += shares[0]
			}
			// Without any, what chance gives above 0 remains.
			assert.InDelta(t, truth, sum/float64(n), 0.08, "clusters of %d, share %.2f", size, truth)
		}
	}
}

// Nothing to tell: single values, no residuals, all equal, nothing at all.
func TestClusterSharesNothingToTell(t *testing.T) {
	alone := Clustered{X: []float64{0, 1, 2, 3}, Y: []float64{4, 2, 5, 1}, Stratum: []int{0, 0, 0, 0}, Cluster: []int{0, 1, 2, 3}}
	two := Clustered{X: []float64{0, 1}, Y: []float64{4, 2}, Stratum: []int{0, 0}, Cluster: []int{0, 0}}
	equal := clustered([][]float64{{3, 3}, {3, 3}})
	one := clustered([][]float64{{1, 2, 3, 4}})
	strata := Clustered{X: []float64{0, 1, 2}, Y: []float64{4, 2, 5}, Stratum: []int{0, 1, 2}, Cluster: []int{0, 0, 0}}
	shares, err := ClusterShares([]Clustered{alone, two, equal, one, strata, {}})
	require.NoError(t, err)
	assert.Equal(t, make([]float64, 6), shares)
	_, err = ClusterShares([]Clustered{{X: []float64{1}, Y: []float64{1}}})
	require.ErrorIs(t, err, ErrShape)
	_, err = ClusterShares([]Clustered{{X: []float64{1}, Y: []float64{math.NaN()}, Stratum: []int{0}, Cluster: []int{0}}})
	require.ErrorIs(t, err, ErrRange)
}

// Two clusters of two: ranks -3 -1 1 3, sums -4 and 4, so 1 + p (32/20 - 1).
// [derived] by hand.
func TestTrendDesignEffectByHand(t *testing.T) {
	g := Clustered{X: []float64{0, 1, 50, 51}, Y: make([]float64, 4), Stratum: []int{0, 0, 0, 0}, Cluster: []int{0, 0, 1, 1}}
	for _, share := range []float64{0, .25, 1} {
		d, err := TrendDesignEffect(g, share)
		require.NoError(t, err)
		assert.InDelta(t, 1+.6*share, d, 1e-15)
	}
	_, err := TrendDesignEffect(g, 1.1)
	require.ErrorIs(t, err, ErrRange)
	_, err = TrendDesignEffect(g, math.NaN())
	require.ErrorIs(t, err, ErrRange)
	d, err := TrendDesignEffect(Clustered{}, .5)
	require.NoError(t, err)
	assert.Equal(t, 1.0, d)
	// A cluster that is spread over a season makes nothing wider.
	spread := Clustered{X: []float64{0, 1, 2, 3}, Y: make([]float64, 4), Stratum: []int{0, 0, 0, 0}, Cluster: []int{0, 1, 1, 0}}
	d, err = TrendDesignEffect(spread, .9)
	require.NoError(t, err)
	assert.Equal(t, 1.0, d)
}

// The exact variance of S for normal values with the clusters' correlation is a
// sum over pairs of pairs of (2/pi) asin of the correlation of their differences
// (Sheppard 1899 [memory]); the design effect comes near its growth.
func TestTrendDesignEffectAgainstNormalValues(t *testing.T) {
	for _, c := range []struct{ n, size int }{{12, 2}, {12, 3}, {20, 2}, {20, 4}} {
		for _, share := range []float64{.1, .25, .5} {
			g := Clustered{}
			for i := range c.n {
				g.X, g.Y = append(g.X, float64(i)), append(g.Y, 0)
				g.Stratum, g.Cluster = append(g.Stratum, 0), append(g.Cluster, i/c.size)
			}
			got, err := TrendDesignEffect(g, share)
			require.NoError(t, err)
			want := varianceOfS(g.Cluster, share) / varianceOfS(g.Cluster, 0)
			assert.InEpsilon(t, want, got, .06, "%d values in clusters of %d, share %.2f", c.n, c.size, share)
			assert.GreaterOrEqual(t, got, want*.995, "not narrower than it should be")
		}
	}
}

func varianceOfS(cluster []int, share float64) float64 {
	cov := func(i, j int) float64 {
		switch {
		case i == j:
			return 1
		case cluster[i] == cluster[j]:
			return share
		}
		return 0
	}
	sum := 0.0
	for j := range cluster {
		for i := range j {
			for l := range cluster {
				for k := range l {
					c := cov(j, l) - cov(j, k) - cov(i, l) + cov(i, k)
					spread := math.Sqrt((2 - 2*cov(i, j)) * (2 - 2*cov(k, l)))
					sum += 2 / math.Pi * math.Asin(math.Max(-1, math.Min(1, c/spread)))
				}
			}
		}
	}
	return sum
}

// S over the root of the design effect, where it falls on a size that S can
// have, has the exact tail of that size: 11/9 of 11 and 9 of six points, whose
// tails R's C_pKendall gives.
func TestClusteredMannKendall(t *testing.T) {
	rising := []float64{1, 2, 3, 4, 6, 5} // S = 13
	wide, err := ClusteredMannKendall(13.0*13/(9*9), rising)
	require.NoError(t, err)
	assert.Equal(t, 13, wide.S)
	assert.InDelta(t, 2*.06806, wide.P, 2e-5)
	assert.InDelta(t, 28.333333333333332*169/81, wide.VarS, 1e-12)
	half, err := ClusteredMannKendall(1.69, rising) // S of 10, between 9 and 11
	require.NoError(t, err)
	assert.InDelta(t, 2*math.Sqrt(.06806*.02778), half.P, 2e-5)
	assert.InDelta(t, half.Smallest, SmallestClusteredTrendP(1.69, 6), 1e-15)
	assert.Equal(t, SmallestTrendP(6, 3), SmallestClusteredTrendP(1, 6, 3, 1))
	_, err = ClusteredMannKendall(.99, rising)
	require.ErrorIs(t, err, ErrRange)
	_, err = ClusteredTheilSen(math.Inf(1), .9, Series{[]float64{0, 1}, []float64{1, 2}})
	require.ErrorIs(t, err, ErrRange)
}

// A wider null makes nothing more certain: p rises, intervals hold each other,
// and the interval leaves out a flat line only where p says so.
func TestClusteredIsMonotone(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(2, 70).Draw(rt, "n")
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = float64(i), rapid.Float64Range(-5, 5).Draw(rt, "y")
		}
		d := rapid.Float64Range(1, 6).Draw(rt, "d")
		more := d + rapid.Float64Range(0, 3).Draw(rt, "more")
		a, err := ClusteredMannKendall(d, y)
		require.NoError(rt, err)
		b, err := ClusteredMannKendall(more, y)
		require.NoError(rt, err)
		assert.GreaterOrEqual(rt, b.P, a.P-1e-12)
		assert.GreaterOrEqual(rt, b.P, b.Smallest-1e-12)
		narrow, err := ClusteredTheilSen(d, .9, Series{x, y})
		require.NoError(rt, err)
		broad, err := ClusteredTheilSen(more, .9, Series{x, y})
		require.NoError(rt, err)
		assert.LessOrEqual(rt, broad.Interval.Low, narrow.Interval.Low)
		assert.GreaterOrEqual(rt, broad.Interval.High, narrow.Interval.High)
		assert.Equal(rt, narrow.Slope, broad.Slope)
		if n <= ExactPoints && narrow.Interval.Low > 0 {
			assert.LessOrEqual(rt, a.P, 1-narrow.Confidence+1e-9)
		}
	})
}

// [derived: r, pnorm, qnorm]: pnorm(qnorm(.05)/1.2) and pnorm(qnorm(.013)/1.5).
func TestWidenedP(t *testing.T) {
	for _, c := range []struct{ p, effect, want float64 }{{.05, 1.44, 0.0852324767198}, {.013, 2.25, 0.068885735265}} {
		p, err := WidenedP(c.p, c.effect)
		require.NoError(t, err)
		assert.InDelta(t, c.want, p, 1e-12)
	}
	for _, same := range []float64{0, .5, 1} {
		p, err := WidenedP(same, 3)
		require.NoError(t, err)
		assert.InDelta(t, same, p, 1e-15)
	}
	for _, bad := range []float64{-.1, 1.1, math.NaN()} {
		_, err := WidenedP(bad, 2)
		require.ErrorIs(t, err, ErrRange)
	}
	_, err := WidenedP(.1, .9)
	require.ErrorIs(t, err, ErrRange)
}
