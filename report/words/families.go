package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
)

// FamiliesSubtitle says which flights the families are of, "" where there are
// none.
func FamiliesSubtitle(d answers.Families) string {
	if d.Category == "" {
		return ""
	}
	return fmt.Sprintf("%s, %s", d.Category, Counted(d.Flights, "contest flight", "contest flights"))
}

// NoFamily is what has no family: not a family's name, so that no formula takes
// it for one.
const NoFamily = answers.NoFamily

// FamilyTitle says a family by key and in words. No formula can take it for a
// number, which "9.1" and "9.10" would be, the same.
func FamilyTitle(group string) string {
	name := GroupName(group)
	switch {
	case group == "":
		return NoFamily
	case name == "" || strings.HasPrefix(name, group):
		return name
	}
	return group + " " + name
}

// WeakSentence names the weak families, or says that none can be named.
func WeakSentence(d answers.Families) string {
	var weak []string
	for _, g := range d.Groups {
		if g.Weak {
			weak = append(weak, fmt.Sprintf("%s (about %s %%, %s to %s)", GroupTitle(g.Group), g.Shrunken.Text(0), g.Low.Text(0), g.High.Text(0)))
		}
	}
	switch {
	case len(d.Groups) == 0:
		return "No figure of a family in any contest flight of this selection."
	case !d.Tau2.Known():
		return "The levels of the families cannot be compared: " + levelsLack(d.Reason, len(d.Groups), d.Limits.Families) + "."
	case len(weak) > 0:
		return "Really weaker than the pilot's other families: " + strings.Join(weak, "; ") + "."
	case d.Tau2.Float64() == 0:
		return "So far the figures do not show any family to be really weaker than another: the spread is what chance gives."
	default:
		return "No family is told apart from chance as weaker than the others."
	}
}

// levelsLack says why the levels of the families cannot be compared.
func levelsLack(why answers.FamiliesReason, flown, least int) string {
	switch why {
	case answers.FewFamilies:
		return Counted(flown, "family was", "families were") + " flown; at least " + NumberWord(least) + " are needed"
	case answers.NoTwoFigures:
		return "no family has two figures"
	default:
		return "within each family the figures never differ against their flight, so that nothing can be said of chance"
	}
}

// MovingSentence names the families that move against the rest.
func MovingSentence(d answers.Families) string {
	var firm, soft []string
	tooFew, flat := 0, 0
	for _, g := range d.Groups {
		text := fmt.Sprintf("%s %s (%s points", GroupTitle(g.Group), g.Trend.Word, change(g.Trend.Season))
		switch g.Trend.Word {
		case answers.Improving, answers.Declining:
			firm = append(firm, text+")")
		case answers.MayImprove, answers.MayDecline:
			soft = append(soft, fmt.Sprintf("%s; chance alone gives this %s)", text, trendChance(g.Trend)))
		case answers.TooFew:
			tooFew++
		case answers.Flat:
			flat++
		}
	}
	var parts []string
	if len(firm) > 0 {
		parts = append(parts, "Against the rest of the same flights: "+strings.Join(firm, "; ")+".")
	}
	if len(soft) > 0 {
		parts = append(parts, "Not ruled out as chance: "+strings.Join(soft, "; ")+".")
	}
	switch {
	case len(parts) > 0:
		return strings.Join(parts, " ")
	case tooFew == len(d.Groups):
		return "Too few flights to tell a trend of any family."
	case flat == len(d.Groups)-tooFew:
		return fmt.Sprintf("Flat against the rest, within %s points either way: %s.", d.Limits.Change.Text(0), Counted(flat, "family", "families"))
	case flat > 0:
		return fmt.Sprintf("Flat against the rest, within %s points either way: %s. No other family's trend can be told from chance.", d.Limits.Change.Text(0), Counted(flat, "family", "families"))
	default:
		return "No family's trend can be told from chance."
	}
}

// The words of the page of families that stand for themselves.
const (
	Weak          = "weak"           // a level below the others'
	NotToldApart  = "not told apart" // a level that is not
	TooFewFlights = "too few flights"

	ShrunkenExplained   = "shrunken: drawn towards the pilot's other families by how much of the spread is chance; the interval is rough where few families were flown"
	VersusRestExplained = "vs rest, change: percent points of the family against the rest of the same flight, so that a contest's judges and weather fall out; " +
		"change over the flights compared: only flights of one sequence with each other, or unknowns"
	AlikeExplained = "flights of one contest came out alike within a family: p, q and the ranges count them as fewer flights"
)

// WithoutZeros says what a family would be without its zeroed figures.
func WithoutZeros(g answers.Group) string {
	return fmt.Sprintf("%s: %s %% without the figures that were zeroed", GroupTitle(g.Group), g.WithoutZeros.Text(PercentDecimals))
}

// OneContest says that a family was flown at one contest only.
func OneContest(g answers.Group) string {
	return GroupTitle(g.Group) + ": flown in one contest only, and carries that contest's judges"
}

// SpreadBetweenFamilies says how far the families' true levels lie apart.
func SpreadBetweenFamilies(d answers.Families) string {
	return fmt.Sprintf("spread between families beyond chance: about %s points; up to %s is not excluded", RootText(d.Tau2), d.TauHigh.Text(1))
}

// FirmWord says what a firm verdict on a trend needs.
func FirmWord(d answers.Families) string {
	return fmt.Sprintf("a firm word needs p and q of at most %s and a change beyond %s points; q allows for %s looked at",
		d.Limits.Chance.Text(2), d.Limits.Change.Text(0), Counted(d.Compared, "family", "families"))
}

// ZeroSign stands behind a percent that a zeroed figure is in.
const ZeroSign = "°"

// ConfidenceNote says how sure the ranges of the changes are, which so few flights
// choose; "" where there is no range.
func ConfidenceNote(d answers.Families) string {
	var sure []report.Number
	for _, g := range d.Groups {
		if g.Trend.Confidence.Known() {
			sure = append(sure, g.Trend.Confidence)
		}
	}
	if len(sure) == 0 {
		return "no change is shown where the flights are too few for a verdict: any direction would be as good as another"
	}
	byValue := func(a, b report.Number) int { return cmp.Compare(a.Float64(), b.Float64()) }
	low, high := Confidence(slices.MinFunc(sure, byValue)), Confidence(slices.MaxFunc(sure, byValue))
	text := "from, to: the range of the change, " + low + " sure"
	if low != high {
		text = fmt.Sprintf("from, to: the range of the change, between %s and %s sure", low, high)
	}
	return text
}

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
