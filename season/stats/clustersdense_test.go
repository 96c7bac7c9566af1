package stats

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/floats"
	"pgregory.net/rapid"
)

// The same by vectors as long as there are values, one a stratum, and by every pair
// of values: as the rules say it, and slow.

func denseRanks(g Clustered) []float64 {
	ranks := make([]float64, len(g.X))
	for i := range g.X {
		for j := range g.X {
			switch {
			case g.Stratum[j] != g.Stratum[i]:
			case g.X[j] < g.X[i]:
				ranks[i]++
			case g.X[j] > g.X[i]:
				ranks[i]--
			}
		}
	}
	return ranks
}

func denseLevel(g Clustered) [][]float64 {
	var vectors [][]float64
	line := slices.Clone(g.X)
	seen := map[int]bool{}
	for _, stratum := range g.Stratum {
		if seen[stratum] {
			continue
		}
		seen[stratum] = true
		mean := make([]float64, len(g.X))
		for i, s := range g.Stratum {
			if s == stratum {
				mean[i] = 1
			}
		}
		vectors = append(vectors, unit(mean))
	}
	line = without(line, vectors)
	if spread := floats.Norm(line, 2); spread > lineSlack*(1+floats.Norm(g.X, 2)) {
		vectors = append(vectors, unit(line))
	}
	return vectors
}

func unit(v []float64) []float64 {
	floats.Scale(1/floats.Norm(v, 2), v)
	return v
}

// without takes from v its parts along orthonormal vectors.
func without(v []float64, vectors [][]float64) []float64 {
	v = slices.Clone(v)
	for _, q := range vectors {
		floats.AddScaled(v, -floats.Dot(q, v), q)
	}
	return v
}

func denseMoments(g Clustered) clusterMoments {
	g = g.paired()
	level := denseLevel(g)
	e := without(g.Y, level)
	n := float64(len(g.Y))
	m := clusterMoments{
		ee: floats.Dot(e, e), eBe: floats.Dot(e, g.sumByCluster(e)),
		trM: n - float64(len(level)), trMB: n,
	}
	ones := make([]float64, len(g.Y))
	for i := range ones {
		ones[i] = 1
	}
	m.trMBM = floats.Sum(g.sumByCluster(ones))
	for _, q := range level {
		bq := g.sumByCluster(q)
		m.trMB -= floats.Dot(q, bq)
		m.trMBM -= 2 * floats.Dot(bq, bq)
		for _, other := range level {
			m.trMBM += math.Pow(floats.Dot(other, bq), 2)
		}
	}
	return m
}

// drawnClusters are values of a few strata and clusters, some alone, X with ties.
func drawnClusters(t *rapid.T) Clustered {
	var g Clustered
	strata, clusters := rapid.IntRange(1, 12).Draw(t, "strata"), rapid.IntRange(1, 12).Draw(t, "clusters")
	for range rapid.IntRange(0, 60).Draw(t, "values") {
		g.X = append(g.X, float64(rapid.IntRange(0, 40).Draw(t, "x")))
		g.Y = append(g.Y, float64(rapid.IntRange(-50, 50).Draw(t, "y"))/7)
		g.Stratum = append(g.Stratum, rapid.IntRange(0, strata-1).Draw(t, "stratum"))
		g.Cluster = append(g.Cluster, 100+rapid.IntRange(0, clusters-1).Draw(t, "cluster"))
	}
	return g
}

func TestMomentsAreTheDenseOnes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := drawnClusters(t)
		require.Equal(t, denseRanks(g), g.timeRanks())
		want, got := denseMoments(g), g.moments()
		for i, pair := range [][2]float64{{want.ee, got.ee}, {want.eBe, got.eBe}, {want.trM, got.trM}, {want.trMB, got.trMB}, {want.trMBM, got.trMBM}} {
			require.InDelta(t, pair[0], pair[1], 1e-8*(1+math.Abs(pair[0])), "moment %d", i)
		}
	})
}

// Pairs counted by merging are the pairs one by one, equal values among them.
func TestConcordanceIsOfEveryPair(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SliceOfN(rapid.Map(rapid.IntRange(0, 30), func(n int) float64 { return float64(n) / 3 }), 0, 120).Draw(t, "y")
		want := 0
		for j, later := range y {
			for _, earlier := range y[:j] {
				switch {
				case later > earlier:
					want++
				case later < earlier:
					want--
				}
			}
		}
		before := slices.Clone(y)
		require.Equal(t, want, concordance(y))
		require.Equal(t, before, y, "the values stay as they are")
	})
}
