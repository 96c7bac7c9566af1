package stats

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/floats"
)

// clusterLevel are orthonormal vectors of what the residuals of a group leave out:
// each stratum's mean, and one line over X about those means where X differs. A
// mean's vector is 1/root of the size within its stratum and 0 elsewhere, so that
// only its places are kept: with as many strata as there are sequences a vector
// each would be their square times the values.
type clusterLevel struct {
	strata [][]int // places of the values
	line   []float64
}

// level wants strata numbered from 0 in the order in which they first come.
func (g Clustered) level() clusterLevel {
	var l clusterLevel
	for i, s := range g.Stratum {
		if s == len(l.strata) {
			l.strata = append(l.strata, nil)
		}
		l.strata[s] = append(l.strata[s], i)
	}
	line := l.without(g.X)
	if spread := floats.Norm(line, 2); spread > lineSlack*(1+floats.Norm(g.X, 2)) {
		floats.Scale(1/spread, line)
		l.line = line
	}
	return l
}

// lineSlack is the least spread of X about its strata's means, as a part of its
// size, that is taken for more than rounding.
const lineSlack = 1e-9

// count is how many vectors there are.
func (l clusterLevel) count() int {
	if l.line == nil {
		return len(l.strata)
	}
	return len(l.strata) + 1
}

// without takes from v its parts along the vectors.
func (l clusterLevel) without(v []float64) []float64 {
	out := make([]float64, len(v))
	for _, places := range l.strata {
		mean := 0.0
		for _, i := range places {
			mean += v[i]
		}
		mean /= float64(len(places))
		for _, i := range places {
			out[i] = v[i] - mean
		}
	}
	if l.line != nil {
		floats.AddScaled(out, -floats.Dot(l.line, out), l.line)
	}
	return out
}

// paired leaves out the values that stand alone in their stratum, and numbers the
// strata and clusters that are left from 0 in the order in which they come.
func (g Clustered) paired() Clustered {
	sizes := map[int]int{}
	for _, s := range g.Stratum {
		sizes[s]++
	}
	var kept Clustered
	strata, clusters := map[int]int{}, map[int]int{}
	for i, s := range g.Stratum {
		if sizes[s] > 1 {
			kept.X, kept.Y = append(kept.X, g.X[i]), append(kept.Y, g.Y[i])
			kept.Stratum = append(kept.Stratum, numbered(strata, s))
			kept.Cluster = append(kept.Cluster, numbered(clusters, g.Cluster[i]))
		}
	}
	return kept
}

// numbered is the number of a name, the next one for a new name.
func numbered(names map[int]int, name int) int {
	n, known := names[name]
	if !known {
		n = len(names)
		names[name] = n
	}
	return n
}

// clusterMoments are a group's two quadratic forms with what they expect.
type clusterMoments struct {
	ee, eBe          float64 // e'e and e'Be
	trM, trMB, trMBM float64 // the last is tr MBMB
}

// moments are found in as many steps as there are values and, of each cluster,
// pairs of strata in it: with Q the vectors of the level,
//
//	tr MB   = n - tr Q'BQ
//	tr MBMB = tr BB - 2 tr Q'BBQ + sum of the squares of Q'BQ
//
// For a stratum s with n_s values, N_sc of them in the cluster c of n_c,
// q_s'Bq_s is the sum over c of N_sc^2/n_s, |Bq_s|^2 that of n_c N_sc^2/n_s, and
// q_s'Bq_o that of N_sc N_oc over the root of n_s n_o.
func (g Clustered) moments() clusterMoments {
	g = g.paired()
	l := g.level()
	e := l.without(g.Y)
	n := float64(len(g.Y))
	m := clusterMoments{ee: floats.Dot(e, e), eBe: floats.Dot(e, g.sumByCluster(e)), trM: n - float64(l.count()), trMB: n}
	clusters := g.inClusters()
	var pairs strataPairs
	for _, c := range clusters {
		m.trMBM += c.values * c.values
		for at, own := range c.strata {
			size := float64(len(l.strata[own.stratum]))
			m.trMB -= own.values * own.values / size
			m.trMBM -= 2 * c.values * own.values * own.values / size
			for _, other := range c.strata[at:] {
				pairs.add([2]int{own.stratum, other.stratum}, own.values*other.values)
			}
		}
	}
	for _, pair := range pairs.list {
		term := pair.sum * pair.sum / float64(len(l.strata[pair.of[0]])*len(l.strata[pair.of[1]]))
		if pair.of[0] != pair.of[1] {
			term *= 2 // both ways round
		}
		m.trMBM += term
	}
	if l.line != nil {
		m.addLine(l, g.sumByCluster(l.line))
	}
	return m
}

// addLine adds what the line's vector q takes away, given Bq.
func (m *clusterMoments) addLine(l clusterLevel, bq []float64) {
	own := floats.Dot(l.line, bq)
	m.trMB -= own
	m.trMBM += own*own - 2*floats.Dot(bq, bq)
	for _, places := range l.strata {
		sum := 0.0
		for _, i := range places {
			sum += bq[i]
		}
		m.trMBM += 2 * sum * sum / float64(len(places))
	}
}

// clusterCount is a cluster: how many values, and how many of each stratum in it,
// strata in the order of their numbers.
type clusterCount struct {
	values float64
	strata []stratumCount
}

type stratumCount struct {
	stratum int
	values  float64
}

// inClusters counts the clusters, numbered from 0 in the order in which they come.
func (g Clustered) inClusters() []clusterCount {
	var clusters []clusterCount
	for i, c := range g.Cluster {
		if c == len(clusters) {
			clusters = append(clusters, clusterCount{})
		}
		clusters[c].add(g.Stratum[i])
	}
	return clusters
}

func (c *clusterCount) add(stratum int) {
	c.values++
	at, known := slices.BinarySearchFunc(c.strata, stratum, func(s stratumCount, n int) int { return cmp.Compare(s.stratum, n) })
	if !known {
		c.strata = slices.Insert(c.strata, at, stratumCount{stratum: stratum})
	}
	c.strata[at].values++
}

// strataPairs are the pairs of strata that share clusters, one with itself too, with
// the sum of N_sc N_oc; in the order in which they come, so that a sum over them is
// always the same.
type strataPairs struct {
	list []strataPair
	at   map[[2]int]int
}

type strataPair struct {
	of  [2]int
	sum float64
}

func (p *strataPairs) add(of [2]int, n float64) {
	at, known := p.at[of]
	if !known {
		if p.at == nil {
			p.at = map[[2]int]int{}
		}
		at = len(p.list)
		p.at[of] = at
		p.list = append(p.list, strataPair{of: of})
	}
	p.list[at].sum += n
}
