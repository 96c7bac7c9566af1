package words

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// ReversedNote says why a family that lies lower against the rest than one that is weak
// is not called so, "" where none does.
func ReversedNote(d answers.Families) string {
	highest := math.Inf(-1)
	for _, g := range d.Groups {
		if g.Weak && g.VersusRest.Known() {
			highest = max(highest, g.VersusRest.Float64())
		}
	}
	var said []string
	for _, g := range d.Groups {
		if g.Weak || !g.VersusRest.Known() || g.VersusRest.Float64() > highest-leastReversal {
			continue
		}
		text := GroupTitle(g.Group) + ": lower against the rest than what is weak, but "
		switch {
		case !g.Low.Known():
			text += "too little was flown to judge its level"
		case g.Different == 1:
			text += "of one figure"
		default:
			text += fmt.Sprintf("of %d figures it may be anywhere from %s to %s%%", g.Different, g.Low.Text(0), g.High.Text(0))
		}
		if g.WithoutZeros.Known() {
			text += ", and a zero in it says nothing of its level"
		}
		said = append(said, text)
	}
	return strings.Join(said, "; ")
}

// leastReversal is by how many percentage points a family must lie lower for a reader to
// wonder.
const leastReversal = 0.1

// WithoutZeros says what families would be without their zeroed figures; "" where
// none has any.
func WithoutZeros(d answers.Families) string {
	var said []string
	for _, g := range d.Groups {
		if g.WithoutZeros.Known() {
			said = append(said, fmt.Sprintf("%s %s%%", GroupTitle(g.Group), g.WithoutZeros.Text(PercentDecimals)))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return "without the figures that were zeroed, which count in vs rest too: " + strings.Join(said, "; ")
}

// FlightsWithoutFamilies names the flights that say nothing of families, and in the
// others the figures that do not; "" where all do.
func FlightsWithoutFamilies(d answers.Families) string {
	if len(d.Groups) == 0 {
		return ""
	}
	var said []string
	if n := len(d.LeftOut); n > 0 {
		said = append(said, fmt.Sprintf("not in the table: %s, since no figure of %s has a code", ListInWords(d.LeftOut), PluralWord(n, "it", "them")))
	}
	if n := min(len(d.Uncoded), mostNamed); n > 0 {
		titles := make([]string, n)
		for i, figure := range d.Uncoded[:n] {
			titles[i] = FigureTitle(figure)
		}
		said = append(said, "without a code, so in no family: "+andMore(titles, len(d.Uncoded)-n, "more figure", "more figures"))
	}
	return strings.Join(said, "; ")
}

// OneContest names the families that were flown at one contest only, where there are
// several; "" where none was.
func OneContest(d answers.Families) string {
	var once []string
	for _, g := range d.Groups {
		if g.Contests == 1 && d.Flights > 1 {
			once = append(once, GroupTitle(g.Group))
		}
	}
	if len(once) == 0 {
		return ""
	}
	return fmt.Sprintf("%s: flown at one contest only, so %s that contest's judges", strings.Join(once, "; "), PluralWord(len(once), "it reflects", "each reflects"))
}

// SpreadBetweenFamilies says how far the true levels of families and of figures lie
// apart.
func SpreadBetweenFamilies(d answers.Families) string {
	return fmt.Sprintf("spread between families: about %s percentage points, up to %s not ruled out; between figures of one family: about %s, up to %s (%s)",
		RootText(d.Tau2), d.TauHigh.Text(1), RootText(d.Tau2Figure), d.TauHighFigure.Text(1), Counted(d.Distinct, "distinct figure", "distinct figures"))
}

// NotPooled says that no figure can be named; "" where one could.
func NotPooled(d answers.Families) string {
	if d.Pooled || !d.Tau2.Known() {
		return ""
	}
	return "hardly any figure was flown twice, so none is named: how much one figure varies from flight to flight is not known"
}

// SameFigures says which families nothing can tell from each other; each is said
// once.
func SameFigures(d answers.Families) []string {
	var said []string
	done := map[string]bool{}
	for _, g := range d.Groups {
		if len(g.Alike) > 0 && !done[g.Group] {
			said = append(said, GroupTitle(g.Group)+": cannot be told apart from "+groupTitles(g.Alike)+", which is in the same figures")
		}
		for _, other := range g.Alike {
			done[other] = true
		}
	}
	return said
}

// WithinFigures says of a weak family and another one where all figures of one are half
// or more of the other's, each by the sequences that it is in: what is lost in them may be
// either's.
func WithinFigures(d answers.Families) []string {
	var said []string
	within := func(small, large answers.Group) bool {
		for _, figure := range small.Of {
			if !slices.Contains(large.Of, figure) {
				return false
			}
		}
		return len(small.Of) > 0 && len(small.Of) < len(large.Of) && 2*len(small.Of) >= len(large.Of)
	}
	for _, small := range d.Groups {
		for _, large := range d.Groups {
			if (small.Weak || large.Weak) && within(small, large) {
				said = append(said, fmt.Sprintf("%s: in %s of the %s of %s, and in no other; what is lost there may be either's",
					GroupTitle(small.Group), NumberWord(small.Different), distinctFigures(large), GroupTitle(large.Group)))
			}
		}
	}
	return said
}

// ConfidenceNote says how sure the ranges of the changes are, which so few flights
// choose; "" where there is no range.
func ConfidenceNote(d answers.Families) string {
	sure := changeConfidences(d)
	if len(sure) == 0 {
		return "no change is shown where there are too few flights for a verdict"
	}
	byValue := func(a, b report.Number) int { return cmp.Compare(a.Float64(), b.Float64()) }
	low, high := Confidence(slices.MinFunc(sure, byValue)), Confidence(slices.MaxFunc(sure, byValue))
	if low != high {
		low = shareEnds(low, high)
	}
	return "from, to: the exact range of the change, at the confidence nearest above " + Confidence(d.Limits.Confidence) + " that so few flights allow: " + low
}

// changeConfidences are those of the ranges of the changes, which so few flights
// choose.
func changeConfidences(d answers.Families) []report.Number {
	var sure []report.Number
	for _, g := range d.Groups {
		if g.Trend.Confidence.Known() {
			sure = append(sure, g.Trend.Confidence)
		}
	}
	return sure
}

// ChangesFrom is the title of the column that the ranges of the changes begin in.
func ChangesFrom(d answers.Families) string { return RangeFrom(changeConfidences(d)...) }

// GapNote says which changes are drawn across a winter; "" where none is.
func GapNote(d answers.Families) string {
	var names []string
	drawn, longest := 0, 0.0
	for _, g := range d.Groups {
		if !g.Trend.Season.Known() {
			continue
		}
		drawn++
		if LongGap(g.Trend, d.Limits.TrendLimits) {
			names = append(names, GroupTitle(g.Group))
			longest = max(longest, g.Trend.LongestGap.Float64())
		}
	}
	if len(names) == 0 {
		return ""
	}
	whose := "every change"
	if len(names) < drawn {
		whose = strings.Join(names, "; ") + ": the change"
	}
	return fmt.Sprintf("%s is drawn across a gap of up to %s days without a flight that can be compared", whose, report.Float(longest).Text(0))
}

// CutNote says of which families a change or an end of its range is cut to what was
// observed; "" where none is.
func CutNote(d answers.Families) string {
	var names []string
	shown := 0
	for _, g := range d.Groups {
		if !g.Trend.Season.Known() {
			continue
		}
		shown++
		if g.Trend.SeasonCut || g.Trend.LowCut || g.Trend.HighCut {
			names = append(names, GroupTitle(g.Group))
		}
	}
	switch len(names) {
	case 0:
		return ""
	case shown:
		names = []string{"every family"}
	}
	return "the change or an end of its range lay beyond what was observed, and is cut to that: " + strings.Join(names, "; ")
}
