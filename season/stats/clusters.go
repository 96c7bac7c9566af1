package stats

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// Clustered is one group's dated values: X (say, days), Y, and of each value
// the stratum and the cluster it belongs to, all four the same length. Values
// of different strata are never compared; those of one cluster may be alike.
type Clustered struct {
	X, Y             []float64
	Stratum, Cluster []int
}

// ClusterShares estimates, for each group, the share of a value's variance that
// values of one cluster have in common, 0..1. What a cluster adds is taken to
// have one variance in all groups, since one group alone seldom has the values
// to tell it; what is left is each group's own.
//
// In a group of N values in strata of at least two, the residuals e about the
// stratum's mean and one common straight line over X (so that a trend is not
// taken for clusters that differ) have, with M the projection that makes them
// and B the matrix that is 1 for two values of one cluster,
//
//	E e'e  = w tr M    + c tr MB
//	E e'Be = w tr MB   + c tr MBMB
//
// which is solved for c, what a cluster adds, and w, what is left. The groups'
// c are averaged with the weights D/(tr M t^2), D the determinant and t the
// variance e'e/tr M drawn towards the groups' common one: near the inverse of
// their variance where clusters add nothing. A mean below 0 is 0. Each group's
// share is c/(w + c), w from its own e'e, at most 1.
//
// A group that cannot tell (no cluster of two values, or too few values to leave
// residuals) has no vote; with no vote at all every share is 0. It fails with
// ErrShape for different lengths and ErrRange for values that are not finite.
//
// [derived] (moments of quadratic forms, as in Searle, Casella and McCulloch
// 1992, Variance Components [memory]); checked against one-way analysis
// of variance.
func ClusterShares(groups []Clustered) ([]float64, error) {
	shares := make([]float64, len(groups))
	moments := make([]clusterMoments, len(groups))
	ee, trM := 0.0, 0.0
	for i, g := range groups {
		if err := g.check(); err != nil {
			return nil, err
		}
		m := g.moments()
		moments[i] = m
		if m.tells() {
			ee, trM = ee+m.ee, trM+m.trM
		}
	}
	sum, weights := 0.0, 0.0
	for _, m := range moments {
		if m.tells() {
			weight := m.weight(ee / trM)
			sum += weight * m.added()
			weights += weight
		}
	}
	if weights == 0 || sum <= 0 {
		return shares, nil
	}
	added := sum / weights
	for i, m := range moments {
		if total := m.total(added); total > 0 {
			shares[i] = math.Min(1, added/total)
		}
	}
	return shares, nil
}

func (g Clustered) check() error {
	for _, n := range []int{len(g.Y), len(g.Stratum), len(g.Cluster)} {
		if err := checkSameLength(len(g.X), n); err != nil {
			return err
		}
	}
	return checkValues(g.X, g.Y)
}

// TrendDesignEffect is the factor by which the variance of S of [MannKendall]
// grows when values of one cluster share the given part of their variance: with
// r the ranks in time about their stratum's mean and the share p,
//
//	1 + p (sum over clusters of (sum of r)^2 / sum of r^2 - 1)
//
// at least 1. It is exact for the linear statistic sum r y, with which S is
// correlated almost fully. It fails as [ClusterShares] does, and with ErrRange
// for a share outside 0..1.
//
// [derived]; Kish 1965's design effect [memory] for the form.
func TrendDesignEffect(g Clustered, share float64) (float64, error) {
	if err := g.check(); err != nil {
		return 0, err
	}
	return g.designEffect(g.timeRanks(), share)
}

// designEffect is that of the linear statistic with the given scores.
func (g Clustered) designEffect(scores []float64, share float64) (float64, error) {
	if !(share >= 0 && share <= 1) {
		return 0, fmt.Errorf("%w: share %g", ErrRange, share)
	}
	squares := floats.Dot(scores, scores)
	if squares == 0 {
		return 1, nil
	}
	return math.Max(1, 1+share*(floats.Dot(scores, g.sumByCluster(scores))/squares-1)), nil
}

// WidenedP is a one-sided probability when the statistic's variance is larger by
// a design effect: that of its normal quantile over the root of the effect. Below
// 1/2 it grows. It fails with ErrRange for a probability outside 0..1 or a
// design effect below 1. [derived].
func WidenedP(p, designEffect float64) (float64, error) {
	if err := checkDesignEffect(designEffect); err != nil {
		return 0, err
	}
	switch {
	case !(p >= 0 && p <= 1):
		return 0, fmt.Errorf("%w: probability %g", ErrRange, p)
	case p == 0 || p == 1 || designEffect == 1:
		return p, nil
	}
	return normalCDF(normalQuantile(p) / math.Sqrt(designEffect)), nil
}

func checkDesignEffect(d float64) error {
	if !(d >= 1 && d <= largest) {
		return fmt.Errorf("%w: design effect %g", ErrRange, d)
	}
	return nil
}

// timeRanks are the places of the values in the order of X within their
// stratum, about the stratum's mean and doubled; equal X share a place: how many of
// the stratum come before less how many come after.
func (g Clustered) timeRanks() []float64 {
	order := make([]int, len(g.X))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(g.Stratum[a], g.Stratum[b]), cmp.Compare(g.X[a], g.X[b]))
	})
	ranks := make([]float64, len(g.X))
	for rest := order; len(rest) > 0; {
		stratum := rest[:runOf(rest, func(i int) bool { return g.Stratum[i] == g.Stratum[rest[0]] })]
		rest = rest[len(stratum):]
		for from := 0; from < len(stratum); {
			alike := stratum[from : from+runOf(stratum[from:], func(i int) bool { return g.X[i] == g.X[stratum[from]] })]
			after := from + len(alike)
			for _, i := range alike {
				ranks[i] = float64(from - (len(stratum) - after))
			}
			from = after
		}
	}
	return ranks
}

// runOf is how many places at the front hold.
func runOf(places []int, holds func(int) bool) int {
	if n := slices.IndexFunc(places, func(i int) bool { return !holds(i) }); n >= 0 {
		return n
	}
	return len(places)
}

// sumByCluster is Bv: for each value, the sum of v over its cluster.
func (g Clustered) sumByCluster(v []float64) []float64 {
	sums := make(map[int]float64, len(v))
	for i, c := range g.Cluster {
		sums[c] += v[i]
	}
	out := make([]float64, len(v))
	for i, c := range g.Cluster {
		out[i] = sums[c]
	}
	return out
}

// determinant of the two equations; 0 where clusters cannot be told from the
// rest.
func (m clusterMoments) determinant() float64 {
	d := m.trM*m.trMBM - m.trMB*m.trMB
	if d < determinantSlack*m.trM*m.trMBM {
		return 0
	}
	return d
}

const determinantSlack = 1e-9

// added solves the equations for what a cluster adds.
func (m clusterMoments) added() float64 {
	return (m.trM*m.eBe - m.trMB*m.ee) / m.determinant()
}

// tells reports whether the group can tell clusters from the rest.
func (m clusterMoments) tells() bool { return m.trM > 0 && m.ee > 0 && m.determinant() > 0 }

// commonValues is how many residuals' worth of the groups' common variance a
// group's own is drawn by before it decides the group's vote: a variance that is
// small by chance goes with little difference between clusters, and would weigh
// most, halving the shares.
const commonValues = 30

// weight is the group's vote, given the groups' common variance.
func (m clusterMoments) weight(common float64) float64 {
	t := (m.ee + commonValues*common) / (m.trM + commonValues)
	return m.determinant() / (m.trM * t * t)
}

// total is the variance of a value when clusters add the given part, 0 where
// the group has no residuals.
func (m clusterMoments) total(added float64) float64 {
	if m.trM <= 0 || m.ee <= 0 {
		return 0
	}
	return math.Max(added, m.ee/m.trM+added*(1-m.trMB/m.trM))
}
