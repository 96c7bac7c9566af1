package stats

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
)

// Levels are one observation of several groups: the value of each that has one.
// Observations of one Stratum can be compared; those of one Cluster may be alike.
type Levels struct {
	Values           []float64
	Has              []bool
	Stratum, Cluster int
}

// Shifts are observations before and after a change that was aimed at one
// group; Left are those just before it, which prompted it and are in neither
// comparison. All have the same number of groups, and all of Before and After
// have a value of the target.
type Shifts struct {
	Target              int
	Left, Before, After []Levels
}

// GroupShift is how the target moved. With one stratum Change is the mean after
// less the mean before, T the pooled two-sample t on DF degrees of freedom and SE
// the standard error of Change; with several, the least-squares effect of after
// beside a level for each stratum. T is infinite where nothing else varies.
type GroupShift struct {
	Change, T, SE float64
	DF            int
	// Rank is how low the target's mean stood before the change, Left included, 1
	// the lowest.
	Rank int
	// P is the one-sided chance of so large a change of the target, PRanked that of
	// so large a t of the group that stands at the same rank, taken again in every
	// arrangement. Both, and Least, the smallest that P can be, are widened by Effect.
	P, PRanked, Least float64
	// Effect is 1 + (m - 1) r: m the mean number of observations of a cluster, r
	// the share of variance between clusters.
	Effect       float64
	Arrangements int
	Exact        bool
}

// ShiftOfGroup tests whether the target rose, with the choice of the target made
// again under chance: the labels before and after are rearranged within strata,
// up to 20 000 arrangements enumerated, of more 20 000 taken, the observed one
// and others drawn with a fixed seed. Values of a stratum that lies on one side
// only are compared with nothing; those before still say how a group stood.
//
// The share r is that of a one-way analysis of variance of the values about their
// group's mean in the stratum, sums of squares and degrees of freedom added over
// all groups, 0 at the least.
//
// It fails with ErrShape for observations of different groups, a target outside
// them or without a value, ErrRange for values out of range or more than 64
// observations before and after, and ErrTooFew where no stratum lies on both
// sides or fewer than three values can be compared. [derived], check values
// [derived: two-programs, Python and R].
func ShiftOfGroup(s Shifts) (GroupShift, error) {
	if err := s.check(); err != nil {
		return GroupShift{}, err
	}
	m := s.masks()
	fit := m.fit(s.Target, m.before)
	if fit.df < 1 {
		return GroupShift{}, tooFew(fit.df+2, 3)
	}
	out := GroupShift{Change: fit.change, T: fit.t(), SE: fit.se(), DF: fit.df, Effect: s.designEffect(m)}
	scores := m.scores(m.before, make([]float64, len(m.groups)))
	out.Rank = 1
	for _, score := range scores {
		if score < scores[s.Target]-rankTie {
			out.Rank++
		}
	}
	out.permute(m, s.Target)
	return out, nil
}

func (s Shifts) check() error {
	compared := slices.Concat(s.Before, s.After)
	if len(compared) > wordBits {
		return fmt.Errorf("%w: %d observations", ErrRange, len(compared))
	}
	if len(compared) == 0 {
		return tooFew(0, 1)
	}
	groups := len(compared[0].Values)
	for i, o := range slices.Concat(compared, s.Left) {
		if len(o.Values) != groups || len(o.Has) != groups || s.Target < 0 || s.Target >= groups || i < len(compared) && !o.Has[s.Target] {
			return fmt.Errorf("%w: observation %d", ErrShape, i)
		}
		if err := checkValues(o.Values); err != nil {
			return err
		}
	}
	return nil
}

// permute finds P and PRanked.
func (g *GroupShift) permute(m *levelMasks, target int) {
	scores, ranked := make([]float64, len(m.groups)), make([]float64, 0, g.Rank+1)
	plain, matched := 0.0, 0.0
	slack := levelSlack * (1 + math.Abs(g.Change))
	visit := func(before uint64) {
		if m.fit(target, before).change >= g.Change-slack {
			plain++
		}
		m.scores(before, scores)
		for i := range scores {
			scores[i] = -scores[i] // the lowest level is the largest of these
		}
		nth := nthLargest(scores, g.Rank, ranked)
		tied, high := 0.0, 0.0
		for i, score := range scores {
			if score == nth || math.Abs(score-nth) <= rankedTie {
				tied++
				if m.fit(i, before).t() >= g.T-levelSlack {
					high++
				}
			}
		}
		matched += high / tied
	}
	ways := m.places()
	g.Arrangements, g.Exact = ways.each(m.before, visit)
	all := float64(g.Arrangements)
	g.P, _ = WidenedP(plain/all, g.Effect)
	g.PRanked, _ = WidenedP(min(1, matched/all), g.Effect)
	g.Least, _ = WidenedP(ways.least(), g.Effect)
}

// levelSlack is the slack by which changes and t count as equal.
const levelSlack = 1e-9

// places are the strata within which the observations change places.
func (m *levelMasks) places() arrangements {
	out := arrangements{stays: m.before}
	for _, stratum := range m.strata {
		out.stays &^= stratum
		b := block{before: bits.OnesCount64(stratum & m.before)}
		for rest := stratum; rest != 0; rest &= rest - 1 {
			b.units = append(b.units, rest&-rest)
		}
		out.blocks = append(out.blocks, b)
	}
	return out
}

// Interval bounds Change with the given confidence by its t, widened by the root
// of Effect. It fails with ErrRange for a confidence outside 0..0.999999.
func (g GroupShift) Interval(confidence float64) (Interval, error) {
	if err := checkConfidence(confidence); err != nil {
		return Interval{}, err
	}
	half := studentCritical(confidence, g.DF) * g.SE * math.Sqrt(g.Effect)
	return Interval{g.Change - half, g.Change + half}, nil
}
