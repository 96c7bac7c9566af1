package stats

import (
	"fmt"
	"math"
	"math/bits"
)

// Notice is what one observation says of one kind of event.
type Notice byte

// An event could not be noticed, was not, or was.
const (
	Unseeable Notice = iota
	Unnoticed
	Noticed
)

// Notices are observations before and after a change that was aimed at one kind
// of event, each a [Notice] a kind; all have the same number of kinds. The
// change was aimed at the kind because of those before it, so the latest of
// these, Left, are in neither comparison and say only how bad each kind stood.
// Cluster numbers the observations of Before and then of After that belong
// together; nil where each stands alone.
type Notices struct {
	Target              int
	Left, Before, After [][]Notice
	Cluster             []int
}

// Tally counts observations with an event of those that could have had it.
type Tally struct{ Seen, Exposed int }

// NoticedFall is how an event's kind fell against the other kinds. Index 0 of a
// pair is before, 1 after.
type NoticedFall struct {
	// Target is the kind's tally, Others that of all other kinds together; Beside
	// counts events, one a kind and observation, in the observations that could
	// have had the target: Seen are the target's, of Exposed in all.
	Target, Others, Beside [2]Tally
	// Lambda is the log of the ratio by which the kind fell more than the others,
	// SE its standard error, Z their quotient; Fall is the difference of the kind's
	// own shares, -Inf where a side has none exposed.
	Lambda, SE, Z, Fall float64
	// Rank is how bad the kind stood before the change, 1 the worst.
	Rank int
	// PFisher is the one-sided chance of the target's tallies, PBeside that of
	// Beside. PZ and PFall are those of so large a Z and Fall when the kind that
	// stands at the same rank is taken again in every arrangement of before and
	// after. Least is the smallest PFisher that the numbers exposed can give.
	PFisher, PBeside, PZ, PFall, Least float64
	// Arrangements counts those looked at; Exact says that they are all there are.
	Arrangements int
	Exact        bool
}

// The slack by which ranks and statistics count as equal.
const (
	rankTie      = 1e-12 // scores of the kinds as observed
	rankedTie    = 1e-9  // scores in an arrangement
	noticedSlack = 1e-9  // z and fall
)

// FallOfNotices tests whether the target fell, and by more than the other kinds,
// with the choice of the target made again under chance. With t of e the
// target's tallies, o of g the others', 1 before and 2 after,
//
//	lambda = ln[(t1+.5)/(e1+1)] - ln[(t2+.5)/(e2+1)] - ln[(o1+.5)/(g1+1)] + ln[(o2+.5)/(g2+1)]
//	s^2    = 1/(t1+.5) - 1/(e1+1) + 1/(t2+.5) - 1/(e2+1) + 1/(o1+.5) + 1/(o2+.5)
//	score  = (seen in Left + t1)/max(1, exposed in Left + e1)
//
// and the rank is one more than the number of kinds of a higher score. In every
// arrangement of the labels before and after, as many before as there were, the
// kinds at that rank count by the share of them whose z (fall) is at least the
// one observed. Where clusters have several observations whole clusters change
// places, and one on both sides stays. Up to 20 000 arrangements are enumerated;
// of more, 20 000 are taken, the observed one and others drawn with a fixed seed.
//
// It fails with ErrTooFew for no kinds, ErrShape for observations of different
// kinds or a target outside them, and ErrRange for more than 64 observations
// before and after. [derived], check values [derived: two-programs,
// Python and R].
func FallOfNotices(n Notices) (NoticedFall, error) {
	out, err := DescribeNotices(n)
	if err == nil {
		out.permute(n.masks(), n)
	}
	return out, err
}

// DescribeNotices is [FallOfNotices] without PZ and PFall, which are NaN: they cost
// nearly all of it. It fails as that does.
func DescribeNotices(n Notices) (NoticedFall, error) {
	if err := n.check(); err != nil {
		return NoticedFall{}, err
	}
	m := n.masks()
	seen := m.at(m.before)
	out := m.describe(seen, n.Target)
	out.Rank = seen.rankOf(n.Target)
	out.PZ, out.PFall = math.NaN(), math.NaN()
	out.Arrangements, out.Exact = n.places().number()
	return out, nil
}

func (n Notices) check() error {
	all := [][][]Notice{n.Left, n.Before, n.After}
	kinds := -1
	for _, side := range all {
		for _, o := range side {
			if kinds >= 0 && len(o) != kinds {
				return fmt.Errorf("%w: %d and %d kinds", ErrShape, kinds, len(o))
			}
			kinds = len(o)
		}
	}
	observations := len(n.Before) + len(n.After)
	switch {
	case kinds < 1:
		return tooFew(0, 1)
	case n.Target < 0 || n.Target >= kinds:
		return fmt.Errorf("%w: target %d of %d kinds", ErrShape, n.Target, kinds)
	case observations > wordBits:
		return fmt.Errorf("%w: %d observations", ErrRange, observations)
	case n.Cluster != nil:
		return checkSameLength(observations, len(n.Cluster))
	}
	return nil
}

// noticeMasks hold for each kind the observations with it and those that could
// have had it, a bit each, Before first, and the tally of Left.
type noticeMasks struct {
	seen, exposed []uint64
	left, whole   []Tally
	sum           Tally // of whole, over the kinds
	all, before   uint64
	logs          noticeLogs
}

func (n Notices) masks() *noticeMasks {
	rows := append(append([][]Notice{}, n.Before...), n.After...)
	kinds := n.kinds()
	m := &noticeMasks{
		seen: make([]uint64, kinds), exposed: make([]uint64, kinds), left: make([]Tally, kinds), whole: make([]Tally, kinds),
		all: lowBits(len(rows)), before: lowBits(len(n.Before)), logs: newNoticeLogs(kinds * len(rows)),
	}
	for k := range kinds {
		for i, o := range rows {
			m.seen[k] |= bitOf(o[k] == Noticed, i)
			m.exposed[k] |= bitOf(o[k] != Unseeable, i)
			m.whole[k].Add(o[k])
			m.sum.Add(o[k])
		}
		for _, o := range n.Left {
			m.left[k].Add(o[k])
		}
	}
	return m
}

func (n Notices) kinds() int {
	for _, side := range [][][]Notice{n.Before, n.After, n.Left} {
		if len(side) > 0 {
			return len(side[0])
		}
	}
	return 0
}

// Add counts one observation.
func (t *Tally) Add(n Notice) {
	if n != Unseeable {
		t.Exposed++
	}
	if n == Noticed {
		t.Seen++
	}
}

// noticeTallies are the tallies of all kinds in one arrangement; those after are
// what the whole leaves.
type noticeTallies struct {
	before []Tally
	score  []float64
	sum    Tally // before, over the kinds
}

func (m *noticeMasks) newTallies() *noticeTallies {
	return &noticeTallies{before: make([]Tally, len(m.seen)), score: make([]float64, len(m.seen))}
}

func (m *noticeMasks) at(before uint64) *noticeTallies {
	t := m.newTallies()
	m.fill(t, before)
	return t
}

// fill counts one arrangement: the observations that are taken for before.
func (m *noticeMasks) fill(t *noticeTallies, before uint64) {
	t.sum = Tally{}
	for k := range m.seen {
		b := Tally{bits.OnesCount64(m.seen[k] & before), bits.OnesCount64(m.exposed[k] & before)}
		t.before[k] = b
		t.sum.Seen += b.Seen
		t.sum.Exposed += b.Exposed
		t.score[k] = float64(m.left[k].Seen+b.Seen) / float64(max(1, m.left[k].Exposed+b.Exposed))
	}
}

// sides are a kind's tallies and those of all other kinds.
func (m *noticeMasks) sides(t *noticeTallies, k int) (own, others [2]Tally) {
	own = [2]Tally{t.before[k], m.whole[k].less(t.before[k])}
	return own, [2]Tally{t.sum.less(own[0]), m.sum.less(t.sum).less(own[1])}
}

func (t Tally) less(o Tally) Tally { return Tally{t.Seen - o.Seen, t.Exposed - o.Exposed} }

func (t *noticeTallies) rankOf(target int) int {
	rank := 1
	for _, s := range t.score {
		if s > t.score[target]+rankTie {
			rank++
		}
	}
	return rank
}

// fallOf is the difference of a kind's shares, -Inf where a side has none.
func fallOf(own [2]Tally) float64 {
	if own[0].Exposed == 0 || own[1].Exposed == 0 {
		return math.Inf(-1)
	}
	return float64(own[0].Seen)/float64(own[0].Exposed) - float64(own[1].Seen)/float64(own[1].Exposed)
}

// noticeLogs are the logarithms and reciprocals of n + .5 and n + 1.
type noticeLogs struct{ logHalf, logOne, overHalf, overOne []float64 }

func newNoticeLogs(most int) noticeLogs {
	l := noticeLogs{make([]float64, most+1), make([]float64, most+1), make([]float64, most+1), make([]float64, most+1)}
	for i := range most + 1 {
		n := float64(i)
		l.logHalf[i], l.logOne[i], l.overHalf[i], l.overOne[i] = math.Log(n+.5), math.Log(n+1), 1/(n+.5), 1/(n+1)
	}
	return l
}

// level is the log of a tally's share.
func (l *noticeLogs) level(t Tally) float64 { return l.logHalf[t.Seen] - l.logOne[t.Exposed] }

// contrast is lambda and s of a kind against its others.
func (l *noticeLogs) contrast(own, others [2]Tally) (lambda, s float64) {
	lambda = l.level(own[0]) - l.level(own[1]) - l.level(others[0]) + l.level(others[1])
	variance := l.overHalf[own[0].Seen] - l.overOne[own[0].Exposed] + l.overHalf[own[1].Seen] - l.overOne[own[1].Exposed] +
		l.overHalf[others[0].Seen] + l.overHalf[others[1].Seen]
	return lambda, math.Sqrt(variance)
}

// describe makes what is said of the target as observed.
func (m *noticeMasks) describe(t *noticeTallies, target int) NoticedFall {
	var out NoticedFall
	out.Target, out.Others = m.sides(t, target)
	out.Lambda, out.SE = m.logs.contrast(out.Target, out.Others)
	out.Z, out.Fall = out.Lambda/out.SE, fallOf(out.Target)
	out.Beside = m.beside(target)
	out.Least = SmallestFisherP(out.Target[0].Exposed, out.Target[1].Exposed)
	out.PFisher, out.PBeside = fallP(out.Target), fallP(out.Beside)
	return out
}

// fallP is Fisher's one-sided chance of so small a share after, 1 where there is
// nothing to test.
func fallP(t [2]Tally) float64 {
	test, err := Fisher(t[1].Seen, t[1].Exposed-t[1].Seen, t[0].Seen, t[0].Exposed-t[0].Seen)
	if err != nil {
		return 1
	}
	return test.Less
}

// beside counts the events in the observations that could have had the target.
func (m *noticeMasks) beside(target int) [2]Tally {
	var out [2]Tally
	for side, mask := range [2]uint64{m.before, m.all &^ m.before} {
		mask &= m.exposed[target]
		out[side].Seen = bits.OnesCount64(m.seen[target] & mask)
		for _, seen := range m.seen {
			out[side].Exposed += bits.OnesCount64(seen & mask)
		}
	}
	return out
}

// permute finds PZ and PFall.
func (f *NoticedFall) permute(m *noticeMasks, n Notices) {
	t := m.newTallies()
	ranked := make([]float64, 0, f.Rank+1)
	z, fall := 0.0, 0.0
	count := func(before uint64) {
		m.fill(t, before)
		least := nthLargest(t.score, f.Rank, ranked)
		at, highZ, highFall := 0.0, 0.0, 0.0
		for k, score := range t.score {
			if math.Abs(score-least) > rankedTie {
				continue
			}
			at++
			own, others := m.sides(t, k)
			if lambda, s := m.logs.contrast(own, others); lambda/s >= f.Z-noticedSlack {
				highZ++
			}
			if fallOf(own) >= f.Fall-noticedSlack {
				highFall++
			}
		}
		z, fall = z+highZ/at, fall+highFall/at
	}
	f.Arrangements, f.Exact = n.places().each(m.before, count)
	f.PZ, f.PFall = z/float64(f.Arrangements), fall/float64(f.Arrangements)
}

// nthLargest is the n-th largest of values, of which there are as many, with
// room to sort in.
func nthLargest(values []float64, n int, room []float64) float64 {
	room = room[:0]
	for _, v := range values {
		if len(room) == n && v <= room[n-1] {
			continue
		}
		if len(room) < n {
			room = append(room, v)
		}
		at := len(room) - 1
		for ; at > 0 && room[at-1] < v; at-- {
			room[at] = room[at-1]
		}
		room[at] = v
	}
	return room[len(room)-1]
}

// places are the clusters that lie on one side, which change places; one on both
// sides stays where it is.
func (n Notices) places() arrangements {
	var order []int
	masks := map[int]uint64{}
	for i := range len(n.Before) + len(n.After) {
		cluster := i
		if n.Cluster != nil {
			cluster = n.Cluster[i]
		}
		if masks[cluster] == 0 {
			order = append(order, cluster)
		}
		masks[cluster] |= 1 << i
	}
	before := lowBits(len(n.Before))
	var whole block
	stays := uint64(0)
	for _, cluster := range order {
		switch mask := masks[cluster]; {
		case mask&before == mask:
			whole.units, whole.before = append(whole.units, mask), whole.before+1
		case mask&before == 0:
			whole.units = append(whole.units, mask)
		default:
			stays |= mask & before
		}
	}
	return arrangements{[]block{whole}, stays}
}
