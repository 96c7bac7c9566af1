package stats

import (
	"math"
	"math/bits"
	"slices"
)

// levelGroup is one group's values as sums over sets of observations: a set is a
// word, and a table gives the sum for each value of each of its bytes.
type levelGroup struct {
	has     uint64
	tables  [wordBits / 8][256]float64
	left    float64
	leftN   int
	total   []float64 // by stratum
	squares []float64 // by stratum, about the stratum's mean
}

func (g *levelGroup) sum(set uint64) float64 {
	sum := 0.0
	for at := 0; set != 0; at++ {
		sum += g.tables[at][set&255]
		set >>= 8
	}
	return sum
}

// levelMasks are the groups, and the observations of each stratum that lies on
// both sides.
type levelMasks struct {
	groups      []levelGroup
	strata      []uint64
	all, before uint64
}

func (s Shifts) masks() *levelMasks {
	rows := slices.Concat(s.Before, s.After)
	m := &levelMasks{groups: make([]levelGroup, len(rows[0].Values)), all: lowBits(len(rows)), before: lowBits(len(s.Before))}
	for _, stratum := range strataOf(rows) {
		mask := uint64(0)
		for i, o := range rows {
			mask |= bitOf(o.Stratum == stratum, i)
		}
		if mask&m.before != 0 && mask&^m.before != 0 {
			m.strata = append(m.strata, mask)
		}
	}
	for g := range m.groups {
		m.groups[g].read(g, rows, s.Left)
		m.groups[g].spread(m.strata, g, rows)
	}
	return m
}

// strataOf are the strata in the order of their first observation.
func strataOf(rows []Levels) []int {
	var strata []int
	for _, o := range rows {
		if !slices.Contains(strata, o.Stratum) {
			strata = append(strata, o.Stratum)
		}
	}
	return strata
}

func (g *levelGroup) read(at int, rows, left []Levels) {
	for i, o := range rows {
		if !o.Has[at] {
			continue
		}
		g.has |= 1 << i
		for set := range 256 {
			if set>>(i%8)&1 == 1 {
				g.tables[i/8][set] += o.Values[at]
			}
		}
	}
	for _, o := range left {
		if o.Has[at] {
			g.left += o.Values[at]
			g.leftN++
		}
	}
}

func (g *levelGroup) spread(strata []uint64, at int, rows []Levels) {
	g.total, g.squares = make([]float64, len(strata)), make([]float64, len(strata))
	for s, stratum := range strata {
		set := stratum & g.has
		g.total[s] = g.sum(set)
		mean := g.total[s] / float64(max(1, bits.OnesCount64(set)))
		for i, o := range rows {
			if set>>i&1 == 1 {
				g.squares[s] += (o.Values[at] - mean) * (o.Values[at] - mean)
			}
		}
	}
}

// levelFit is the effect of after beside a level for each stratum.
type levelFit struct {
	change, weight, residual float64
	df                       int
}

// fit compares a group's values before and after, in the strata that have both.
func (m *levelMasks) fit(group int, before uint64) levelFit {
	g := &m.groups[group]
	out := levelFit{df: -1}
	squares := 0.0
	for s, stratum := range m.strata {
		b, a := stratum&g.has&before, stratum&g.has&^before
		nb, na := float64(bits.OnesCount64(b)), float64(bits.OnesCount64(a))
		if nb == 0 || na == 0 {
			continue
		}
		weight := na * nb / (na + nb)
		sum := g.sum(b)
		out.change += weight * ((g.total[s]-sum)/na - sum/nb)
		out.weight += weight
		out.df += int(na+nb) - 1
		squares += g.squares[s]
	}
	if out.weight > 0 {
		out.change /= out.weight
	}
	out.residual = squares - out.change*out.change*out.weight
	if out.residual <= noResidual*squares {
		out.residual = 0
	}
	return out
}

// noResidual is the part of the squares below which what is left is rounding.
const noResidual = 1e-12

func (f levelFit) se() float64 { return math.Sqrt(f.residual / float64(f.df) / f.weight) }

// t is the change over its standard error, -Inf where it cannot be told.
func (f levelFit) t() float64 {
	switch {
	case f.df < 1:
		return math.Inf(-1)
	case f.change == 0:
		return 0
	default:
		return f.change / f.se()
	}
}

// scores are how the groups stood before, +Inf where one has no value.
func (m *levelMasks) scores(before uint64, room []float64) []float64 {
	for i := range m.groups {
		g := &m.groups[i]
		set := before & g.has
		room[i] = math.Inf(1)
		if n := g.leftN + bits.OnesCount64(set); n > 0 {
			room[i] = (g.left + g.sum(set)) / float64(n)
		}
	}
	return room
}
