package analysis

import "slices"

// withoutZeros are the points that have no zero.
func withoutZeros(points []TrendPoint) []TrendPoint {
	return slices.DeleteFunc(slices.Clone(points), func(p TrendPoint) bool { return p.Zero })
}

// moves reports whether the verdict is of a change.
func (t Trend) moves() bool { return way(t.Word) != 0 }

// way is 1 for a verdict of a rise, -1 for one of a fall, 0 for any other.
func way(w Word) int {
	switch w {
	case Improving, MayImprove:
		return 1
	case Declining, MayDecline:
		return -1
	default:
		return 0
	}
}

// hang keeps the days of the zeros where without them the verdict would be of no
// change this way; where they leave too few flights for a verdict, the size of the
// change decides.
func (t *Trend) hang(points []TrendPoint, without Word) {
	stands := way(without) == way(t.Word)
	if without == TooFew {
		stands = float64(way(t.Word))*t.WithoutZero > SmallChange
	}
	if stands {
		return
	}
	sizes := map[string]int{}
	for _, p := range points {
		sizes[p.Stratum]++
	}
	for _, p := range points {
		if p.Zero && sizes[p.Stratum] > 1 && !slices.Contains(t.HangsOn, p.Day) {
			t.HangsOn = append(t.HangsOn, p.Day)
		}
	}
}

// groupAlone is the verdict on one group's points at the limits of a group, by
// its own chance: how many groups are compared does not change with its zeros.
func groupAlone(points []TrendPoint, designEffect float64) Word {
	t := measure(points, designEffect)
	if t.N < LeastPoints || t.Least > FirmGroup {
		return TooFew
	}
	return t.verdict(t.P <= FirmGroup, t.P <= MayBe)
}
