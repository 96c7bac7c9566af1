package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// groupDrill judges a drill on a family group by the group's percent against
// the rest of the same flight. Only flights of one stratum are compared, as in a
// trend: sequences differ in how hard a family is on them.
// The samples are those of all of the pilot's flights.
func groupDrill(l *season.Ledger, d *season.Drill, samples []familySample) DrillAnswer {
	groups := make([][]TrendPoint, len(samples))
	for i, s := range samples {
		groups[i] = s.points
	}
	target := slices.Index(season.Groups, d.Target)
	compared := samples[target].compared
	before, after, prompted := windows(l, d, compared)
	within := func(window []*season.Flight) []bool {
		marks := make([]bool, len(compared))
		for i, f := range compared {
			marks[i] = slices.Contains(window, f)
		}
		return marks
	}
	a := JudgeGroupDrill(groups, target, within(before), within(after))
	a.Drill, a.Prompted = d, prompted
	return a
}

// JudgeGroupDrill compares the points of one group before a drill with those
// since, both marked, within strata. All groups' points say how alike flights of
// one contest are.
func JudgeGroupDrill(groups [][]TrendPoint, target int, before, since []bool) DrillAnswer {
	a := DrillAnswer{P: 1, Least: 1}
	_, shares := contestShares(groups)
	a.judgeGroup(newComparison(groups[target], before, since), shares[target])
	return a
}

// comparison is a family's points on both sides of a drill, of the strata that
// were flown on both.
type comparison struct {
	points []TrendPoint
	since  []bool // of each point: it is of after
	apart  int    // points whose stratum was flown on one side only
}

func newComparison(points []TrendPoint, before, since []bool) comparison {
	sides := map[string][2]bool{}
	for i, p := range points {
		seen := sides[p.Stratum]
		sides[p.Stratum] = [2]bool{seen[0] || before[i], seen[1] || since[i]}
	}
	oneSided := !slices.Contains(before, true) || !slices.Contains(since, true) // there is nothing to compare, and nothing apart
	var kept comparison
	for i, p := range points {
		switch {
		case !before[i] && !since[i]:
		case oneSided || sides[p.Stratum] == [2]bool{true, true}:
			kept.points, kept.since = append(kept.points, p), append(kept.since, since[i])
		default:
			kept.apart++
		}
	}
	return kept
}

// splits are the points by stratum, those since the drill as A.
func (c comparison) splits() ([]stats.Split, [][2]int) {
	var names []string
	var splits []stats.Split
	for i, p := range c.points {
		at := slices.Index(names, p.Stratum)
		if at < 0 {
			at = len(names)
			names, splits = append(names, p.Stratum), append(splits, stats.Split{})
		}
		if c.since[i] {
			splits[at].A = append(splits[at].A, p.Value)
		} else {
			splits[at].B = append(splits[at].B, p.Value)
		}
	}
	sizes := make([][2]int, len(splits))
	for i, s := range splits {
		sizes[i] = [2]int{len(s.A), len(s.B)}
	}
	return splits, sizes
}

// side gives the values of one side.
func (c comparison) side(since bool) DrillSide {
	var side DrillSide
	for i, p := range c.points {
		if c.since[i] == since {
			side.Flights++
			side.Values = append(side.Values, p.Value)
		}
	}
	return side
}
