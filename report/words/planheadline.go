package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// PlanSentence is the first recommendation, or why there is none; where no family stands
// out, it says so before any gain, whatever the sequence's K, and names the figure that does. Where the first rises already, it says so, and names
// the first that does not. Figures that lie low come last, where one is of a family that is
// not named.
// What zeros cost comes before a gain that is less.
func PlanSentence(d answers.Plan) string {
	text := planFamilies(d)
	switch {
	case zerosAlone(d):
		text = zerosAloneSaid(d) + " " + text
	case zerosCostMost(d):
		text = fmt.Sprintf("Zeros cost most, about %s percentage points per flight, against the flight's other figures: %s zeroed in %s%s. %s", d.Zeros.Each.Text(1),
			Counted(d.Zeros.Figures, "figure was", "figures were"), ofSeveral(d.Zeros.Flights, d.Flights, "flight", "flights"), zeroedOften(d.Zeros), text)
	}
	if len(d.LowFigures) == 0 {
		return text
	}
	return text + " " + lowFigures(lowInPlan(d))
}

// lowInPlan are all of the sequence's figures that lie low, lowest first: the worst is not
// left out for standing in a row.
func lowInPlan(d answers.Plan) []answers.LowFigure {
	low := slices.Concat(d.LowInItems, d.LowFigures)
	slices.SortStableFunc(low, func(a, b answers.LowFigure) int { return cmp.Compare(a.Gap.Float64(), b.Gap.Float64()) })
	return low
}

func planFamilies(d answers.Plan) string {
	if len(d.Items) == 0 {
		if l := d.Lack; l != nil && l.Reason == code.NoGain && l.Families > 0 && !fewToTell(d) {
			return strings.TrimSuffix(nothingStandsOut(d), ".") + ", and none that was flown offers a gain."
		}
		where := ""
		if d.Category != "" {
			where = " " + AtCategory(d.Category)
		}
		return "Cannot tell where practice pays" + where + ": " + d.Why + "."
	}
	first := d.Items[0]
	out := firstOut(d.Items)
	switch {
	case out < 0:
		return nothingStandsOut(d) + " The " + largestGain(d, d.Items)
	case !d.Items[out].Weak:
		return figureStandsOut(d, out)
	case out > 0:
		return fmt.Sprintf("What stands out on %s is %s The %s", d.Sequence, outSaid(d, d.Items[out]), largestGain(d, d.Items))
	case !first.Rising:
		return "On " + d.Sequence + " practice pays most in " + paysMost(d, d.Items, "the pilot's other families") + "."
	}
	text := fmt.Sprintf("On %s most is lost in %s, %s.", d.Sequence, GroupTitle(first.Group), strings.TrimPrefix(risesAlready(first), "is "))
	at := slices.IndexFunc(d.Items, func(i answers.PlanItem) bool { return !i.Rising })
	switch {
	case len(d.Items) == 1:
		return text
	case at < 0:
		return text + " The others here rise too."
	case !d.Items[at].Weak && !mayBeWeak(d, d.Items[at]):
		return text + " Of the others, the " + largestGain(d, d.Items[at:])
	}
	return text + " Of the others, practice pays most in " + paysMost(d, d.Items[at:], "the rest") + "."
}

// nothingStandsOut says that no family does on the sequence, or that the flights are too
// few to tell.
func nothingStandsOut(d answers.Plan) string {
	if fewToTell(d) {
		return noneWeaker(d.Flights) + "."
	}
	nothing := "Nothing"
	if zerosCostMost(d) {
		nothing = "Nothing else"
	}
	return fmt.Sprintf("%s stands out on %s: no family that counts there lies below the others by more than chance.", nothing, d.Sequence)
}

// firstOut is the first family that is weaker, where none is the first with a figure that
// stands out; -1 where nothing does.
func firstOut(items []answers.PlanItem) int {
	if weak := slices.IndexFunc(items, func(i answers.PlanItem) bool { return i.Weak }); weak >= 0 {
		return weak
	}
	return slices.IndexFunc(items, standsOut)
}

// outSaid is a family that stands out, with its gain.
func outSaid(d answers.Plan, i answers.PlanItem) string {
	text := paysMost(d, []answers.PlanItem{i}, "the pilot's other families") + "."
	if i.Rising {
		text += " It " + risesAlready(i) + "."
	}
	return text
}

// figureStandsOut names the figure that stands out where no family does: that of the item
// given, with all the families here that are low by it. What else may be weaker comes last,
// and before it the largest gain, where that is of another family.
func figureStandsOut(d answers.Plan, out int) string {
	var of, others []answers.PlanItem
	figure := outFigure(d.Items[out])
	for _, i := range d.Items {
		if standsOut(i) && outFigure(i) == figure {
			of = append(of, i)
		} else {
			others = append(others, i)
		}
	}
	var families, gains []string
	for _, i := range of {
		families = append(families, GroupTitle(i.Group))
		if gain := i.Gain.Text(1); !slices.Contains(gains, gain) {
			gains = append(gains, gain)
		}
	}
	came := "it came"
	if len(of) > 1 {
		came = "one of these came"
	}
	text := fmt.Sprintf("What stands out on %s is %s in %s: about %s percentage points, if %s up to the pilot's other families.",
		d.Sequence, figure, ListInWords(families), ListInWords(gains), came)
	for _, i := range of {
		if i.Rising {
			text += " " + Sentence(GroupTitle(i.Group)) + " " + risesAlready(i) + "."
		}
	}
	if slices.ContainsFunc(of, func(i answers.PlanItem) bool { return i.Different != 1 }) {
		text += " " + noFamilyBelow(d) + "."
	}
	if out > 0 {
		return text + " The " + largestGain(d, d.Items)
	}
	for _, i := range others {
		if mayBeWeak(d, i) {
			text += fmt.Sprintf(" %s %s: about %s.", Sentence(GroupTitle(i.Group)), mayBeWeaker(i), i.Gain.Text(1))
		}
	}
	return text
}

// outFigure is the figure by which a family that is not weak stands out.
func outFigure(i answers.PlanItem) string {
	if i.WeakOne {
		return onlyFigure(i.Of[0], i.Of)
	}
	return FigureTitle(i.WeakFigure) + ","
}

// noFamilyBelow says that no family of the sequence is weaker, or that the flights are too
// few to tell.
func noFamilyBelow(d answers.Plan) string {
	if fewToTell(d) {
		return noneWeaker(d.Flights)
	}
	return "No family that counts there lies below the others by more than chance"
}

// largestGain is the first gain of these families with its range, where that family does
// not stand out, and what can be said of it.
func largestGain(d answers.Plan, items []answers.PlanItem) string {
	i := items[0]
	text := fmt.Sprintf("largest gain to expect, about %s percentage points (%s at %s), is in %s, ",
		i.Gain.Text(1), gainEnds(i), AtConfidence(d.Confidence), GroupTitle(i.Group))
	if i.WeakFigure != "" {
		text += FigureTitle(i.WeakFigure) + " above all, "
	}
	text += untold(d, i)
	if i.Rising {
		text += "; it " + risesAlready(i)
	}
	if text += "."; len(items) > 1 && !i.Apart {
		text += fmt.Sprintf(" Too close to call with it: %s, about %s.", GroupTitle(items[1].Group), items[1].Gain.Text(1))
	}
	return text
}

// untold is what can be said of a family that is not told to be weaker.
func untold(d answers.Plan, i answers.PlanItem) string {
	switch {
	case fewToTell(d):
		return "which so few flights cannot tell apart from the others"
	case !mayBeWeak(d, i):
		return "which cannot be told apart from the others and only carries a lot of K"
	case i.Different == 1:
		return "whose only figure " + mayBeWeaker(i)
	default:
		return "which " + mayBeWeaker(i)
	}
}

// mayBeWeaker is a family's chance of being so.
func mayBeWeaker(i answers.PlanItem) string {
	return "may be weaker (a chance of " + share(i.WeakChance.Float64()) + ")"
}

// paysMost says where practice pays most: the first of these families, or the
// first two where they are too close to call, if they came up to the others. A second
// that rises already or is not told to be weaker is none, and of a first that only may be
// weaker that is said.
func paysMost(d answers.Plan, items []answers.PlanItem, others string) string {
	came := "came up to " + others
	first := items[0]
	in, one := GroupTitle(first.Group), GroupTitle(first.Group)
	if !first.Weak { // the table has the chance
		one += ", " + onlyIts(first) + "maybe weaker"
		in = one + ","
	}
	text := fmt.Sprintf("%s: about %s percentage points, if it %s", one, first.Gain.Text(1), came)
	if len(items) == 1 || first.Apart {
		return text
	}
	second := items[1]
	switch {
	case second.Rising:
		return fmt.Sprintf("%s; %s, too close to call, %s", text, GroupTitle(second.Group), risesAlready(second))
	case !second.Weak:
		return fmt.Sprintf("%s; too close to call with it: %s, about %s, %s", text, GroupTitle(second.Group), second.Gain.Text(1), untold(d, second))
	}
	either := in + " or in " + GroupTitle(second.Group)
	gains := first.Gain.Text(1)
	if other := second.Gain.Text(1); other != gains {
		gains += " and " + other
	}
	if second.Gain.Float64() < closeGains*first.Gain.Float64() {
		return fmt.Sprintf("%s: about %s percentage points, if either %s; their ranges, %s and %s, overlap too much to say which pays more",
			either, gains, came, gainEnds(first), gainEnds(second))
	}
	return fmt.Sprintf("%s, too close to call: about %s percentage points, if either %s", either, gains, came)
}

// onlyIts is whose a family is that has one figure only.
func onlyIts(i answers.PlanItem) string {
	if i.Different == 1 {
		return "its only figure "
	}
	return ""
}

// gainEnds is the range of a gain, with the decimals that gains have in the sentence.
func gainEnds(i answers.PlanItem) string { return i.Low.Text(1) + " to " + i.High.Text(1) }

// closeGains is from which part of the larger gain on two gains look close to each
// other: where they do not, it is their ranges that keep them from being told apart.
const closeGains = .5
