package words

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// SayPlan fills the sentences of an answer: what the items rest on, or why there
// are none, and why a weak family is none of them.
func SayPlan(d answers.Plan) answers.Plan {
	items := make([]answers.PlanItem, len(d.Items))
	for i, item := range d.Items {
		item.Evidence = planEvidence(d, item)
		items[i] = item
	}
	aside := make([]answers.PlanAside, len(d.Aside))
	for i, a := range d.Aside {
		a.Why = asideWhy(d, a)
		aside[i] = a
	}
	d.Items, d.Aside, d.Why = items, aside, ""
	if d.Lack != nil {
		d.Why = lack(*d.Lack).plan(daysTo(d.Days, d.To))
	}
	return d
}

// planEvidence says what a gain rests on.
func planEvidence(d answers.Plan, i answers.PlanItem) string {
	level := Range{i.LevelLow, i.Level, i.LevelHigh, d.Limits.LevelConfidence}
	text := fmt.Sprintf("%s; level over two years about %s%% (%s), %s%% of the K of %s", weakness(d, i), level.About(), level.EndsAt(), Percent(i.Share).Text(0), d.Sequence)
	if i.Last.Known() {
		text += "; " + lately(i)
	}
	if i.Rising {
		text += "; already rising against the rest"
	}
	return text
}

// weakness says whether a family is weaker than the others, what may be so with
// its chance. One distinct figure says nothing of a family.
func weakness(d answers.Plan, i answers.PlanItem) string {
	may := mayBeWeak(d, i)
	text := "cannot be told apart from the others; it only carries a lot of K"
	if fewToTell(d) {
		text = "so few flights cannot tell it apart from the others"
	}
	switch {
	case i.Weak:
		text = "weaker than the pilot's other families"
	case i.WeakOne:
		return onlyFigure(i.Of[0], i.Of) + " lies below the others, and is the only one of the family"
	case i.WeakFigure != "" && i.Different == 1:
		return onlyFigure(i.WeakFigure, i.Of) + " lies below the others, and is the only one of the family"
	case may && i.Different == 1:
		return onlyFigure(i.Of[0], i.Of) + " may be weaker than the others (a chance of " + share(i.WeakChance.Float64()) + "), and is the only one of the family"
	case may:
		text = "may be weaker than the pilot's other families (a chance of " + share(i.WeakChance.Float64()) + ")"
	}
	if i.WeakFigure != "" {
		text += ", " + FigureTitle(i.WeakFigure) + " above all"
	}
	return text
}

// onlyFigure is a figure with where else it stands, of the figures that are the same.
func onlyFigure(figure string, same []string) string {
	if len(same) == 1 {
		return FigureTitle(figure)
	}
	return FigureTitle(figure) + ", the same in " + Counted(len(same), "sequence", "sequences") + ","
}

// PlanWhy says in short why a recommendation is one.
func PlanWhy(d answers.Plan, i answers.PlanItem) string {
	may := mayBeWeak(d, i)
	only := i.Different == 1 && !i.Weak && (may || i.WeakFigure != "")
	text := "not told apart, only carries a lot of K"
	if fewToTell(d) {
		text = "too few flights to tell it apart"
	}
	switch {
	case i.Weak && hasRisen(i):
		text = fmt.Sprintf("weaker, but %s%% lately, already rising", i.Last.Text(0))
	case i.Weak:
		text = "weaker than the others"
	case only && (i.WeakOne || i.WeakFigure != ""):
		text = "its only figure lies below the others"
	case only:
		text = "its only figure may be weaker (" + share(i.WeakChance.Float64()) + ")"
	case may:
		text = "may be weaker (" + share(i.WeakChance.Float64()) + ")"
	}
	if i.Weak && hasRisen(i) && i.WeakFigure != "" {
		_, number := cutFigure(i.WeakFigure)
		return text + "; figure " + number + " above all"
	}
	if i.WeakFigure != "" && !only {
		_, number := cutFigure(i.WeakFigure)
		text += ", figure " + number + " above all"
	}
	if i.Rising && !(i.Weak && hasRisen(i)) {
		text += "; already rising"
	}
	return text
}

// hasRisen reports whether a level over all flights is one that the family has
// left: it rises already, and what it scored last is known.
func hasRisen(i answers.PlanItem) bool { return i.Rising && i.Last.Known() }

// lately says what a family scored in its last flights.
func lately(i answers.PlanItem) string {
	return fmt.Sprintf("%s%% in %s", i.Last.Text(0), theLast(i.Ends, "flight with it", "flights with it"))
}

// PlanFault says in short a recommendation's fault, with how often it comes back.
func PlanFault(i answers.PlanItem) string {
	if i.Untold != nil {
		return i.Untold.Kind + ", " + seenSinceShort(*i.Untold)
	}
	if i.Fault == "" {
		return ""
	}
	text := fmt.Sprintf("%s, %d of %s", i.Fault, i.SeenInFamily, Counted(i.ExposedInFamily, "flight", "flights"))
	if i.BeforeDrill {
		text += beforeDrill
	}
	return text
}

// asideWhy says why a weak family is not among the items.
func asideWhy(d answers.Plan, a answers.PlanAside) string {
	switch a.Reason {
	case code.NotInSequence:
		return d.Sequence + " has none of it"
	case code.LittleK:
		return fmt.Sprintf("only %s%% of the K of %s", Percent(a.Share).Text(0), d.Sequence)
	default:
		return fmt.Sprintf("%s%% of the K of %s, where others offer more", Percent(a.Share).Text(0), d.Sequence)
	}
}

// PlanSubtitle says why the sequence is the one, and what a plan rests on; "" where nothing was flown.
func PlanSubtitle(d answers.Plan) string {
	if d.Category == "" {
		return ""
	}
	text := fmt.Sprintf("from %s of %s", Counted(d.Flights, "contest flight", "contest flights"), daysTo(d.Days, d.To))
	if d.LeftOut > 0 {
		text += ", " + CatalogueAlone(d.Catalogue, d.LeftOut)
	}
	if d.LatestKnown {
		text = fmt.Sprintf("the latest known sequence of %s; %s", d.Category, text)
	}
	return Sentence(text)
}

// PlanHeading stands over one recommendation, numbered from 1.
func PlanHeading(number int, i answers.PlanItem) string {
	return fmt.Sprintf("%d. %s", number, GroupTitle(i.Group))
}

// The headings of a plan.
const (
	PlanZerosHeading   = "Zeros"
	PlanAsideHeading   = "Weak, but not among these"
	PlanDrilledHeading = "Comes back with its drill open"
	PlanWithoutHeading = "Comes back without an open drill"
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

// zerosCostMost reports whether zeros, which no gain has in it, cost more than the
// largest gain would bring, over all of the plan's flights.
func zerosCostMost(d answers.Plan) bool {
	if !d.Zeros.Each.Known() || d.Zeros.Figures == 0 {
		return false
	}
	return len(d.Items) == 0 || d.Zeros.Each.Float64() > d.Items[0].Gain.Float64()
}

// zerosAlone reports whether what zeros cost is all that a plan knows: no gain was measured
// that it could be more than.
func zerosAlone(d answers.Plan) bool {
	measured := d.Lack != nil && d.Lack.Reason == code.NoGain && d.Lack.Families > 0
	return zerosCostMost(d) && len(d.Items) == 0 && !measured
}

// zerosAloneSaid is all that is said of zeros there.
func zerosAloneSaid(d answers.Plan) string {
	z := d.Zeros
	text := fmt.Sprintf("Zeros cost about %s percentage points per flight, against the mean grade of the flight's other figures: %s zeroed in %s%s, which cost about %s points%s",
		z.Each.Text(1), Counted(z.Figures, "figure was", "figures were"), ofSeveral(z.Flights, d.Flights, "flight", "flights"), zeroedOften(z), z.Cost.Text(0), inAll(z.Flights))
	switch {
	case z.Flights == d.Flights:
	case z.Flights == 1:
		text += fmt.Sprintf(", %s percentage points in that flight", z.Percent.Text(1))
	default:
		text += fmt.Sprintf(", %s percentage points in each of these flights on average", z.Percent.Text(1))
	}
	return text + "."
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
		return nothingStandsOut(d) + " " + largestGain(d)
	case !d.Items[out].Weak:
		return figureStandsOut(d, out)
	case out > 0:
		return fmt.Sprintf("What stands out on %s is %s %s", d.Sequence, outSaid(d.Items[out]), largestGain(d))
	case !first.Rising:
		return "On " + d.Sequence + " practice pays most in " + paysMost(d.Items, "the pilot's other families") + "."
	}
	text := fmt.Sprintf("On %s most is still lost in %s, which %s.", d.Sequence, GroupTitle(first.Group), risesAlready(first))
	at := slices.IndexFunc(d.Items, func(i answers.PlanItem) bool { return !i.Rising })
	switch {
	case len(d.Items) == 1:
		return text
	case at < 0:
		return text + " The others here rise too."
	}
	return text + " Of the others, practice pays most in " + paysMost(d.Items[at:], "the rest") + "."
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

// fewToTell reports whether the flights are too few to tell which family is weaker, by the
// rule of the families' page.
func fewToTell(d answers.Plan) bool { return d.Flights < d.Limits.Flights }

// standsOut reports whether a family, or a figure of it, lies below the others by more
// than chance.
func standsOut(i answers.PlanItem) bool { return i.Weak || i.WeakOne || i.WeakFigure != "" }

// firstOut is the first family that is weaker, where none is the first with a figure that
// stands out; -1 where nothing does.
func firstOut(items []answers.PlanItem) int {
	if weak := slices.IndexFunc(items, func(i answers.PlanItem) bool { return i.Weak }); weak >= 0 {
		return weak
	}
	return slices.IndexFunc(items, standsOut)
}

// mayBeWeak reports whether the chance that a family is weaker is worth a word: of enough
// flights.
func mayBeWeak(d answers.Plan, i answers.PlanItem) bool {
	return !fewToTell(d) && i.WeakChance.Float64() >= d.Limits.MayBeWeak.Float64()
}

// outSaid is a family that stands out, with its gain.
func outSaid(i answers.PlanItem) string {
	text := paysMost([]answers.PlanItem{i}, "the pilot's other families") + "."
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
		return text + " " + largestGain(d)
	}
	for _, i := range others {
		if mayBeWeak(d, i) {
			text += fmt.Sprintf(" %s may be weaker (a chance of %s): about %s.", Sentence(GroupTitle(i.Group)), share(i.WeakChance.Float64()), i.Gain.Text(1))
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

// largestGain is the first gain with its range, of a family that does not stand out, and
// what can be said of that family.
func largestGain(d answers.Plan) string {
	i := d.Items[0]
	text := fmt.Sprintf("The largest gain to expect, about %s percentage points (%s at %s), is in %s, ",
		i.Gain.Text(1), gainEnds(i), AtConfidence(d.Confidence), GroupTitle(i.Group))
	if i.WeakFigure != "" {
		text += FigureTitle(i.WeakFigure) + " above all, "
	}
	may := "may be weaker (a chance of " + share(i.WeakChance.Float64()) + ")"
	switch {
	case fewToTell(d):
		text += "which so few flights cannot tell apart from the others"
	case !mayBeWeak(d, i):
		text += "which cannot be told apart from the others and only carries a lot of K"
	case i.Different == 1:
		text += "whose only figure " + may
	default:
		text += "which " + may
	}
	if i.Rising {
		text += "; it " + risesAlready(i)
	}
	if text += "."; len(d.Items) > 1 && !i.Apart {
		second := d.Items[1]
		text += fmt.Sprintf(" Too close to call with it: %s, about %s.", GroupTitle(second.Group), second.Gain.Text(1))
	}
	return text
}

// risesAlready says of a family that it rises, and what it scored last.
func risesAlready(i answers.PlanItem) string {
	if !i.Last.Known() {
		return "is already rising"
	}
	return "is already rising: " + lately(i)
}

// paysMost says where practice pays most: the first of these families, or the
// first two where they are too close to call, if they came up to the others. A second
// that rises already is none.
func paysMost(items []answers.PlanItem, others string) string {
	came := "came up to " + others
	first := items[0]
	text := fmt.Sprintf("%s: about %s percentage points, if it %s", GroupTitle(first.Group), first.Gain.Text(1), came)
	switch {
	case len(items) == 1 || first.Apart:
		return text
	case items[1].Rising:
		return fmt.Sprintf("%s; %s, too close to call, %s", text, GroupTitle(items[1].Group), risesAlready(items[1]))
	}
	second := items[1]
	either := GroupTitle(first.Group) + " or in " + GroupTitle(second.Group)
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

// gainEnds is the range of a gain, with the decimals that gains have in the sentence.
func gainEnds(i answers.PlanItem) string { return i.Low.Text(1) + " to " + i.High.Text(1) }

// closeGains is from which part of the larger gain on two gains look close to each
// other: where they do not, it is their ranges that keep them from being told apart.
const closeGains = .5

// PlanZerosSentence says what zeros cost; "" where there were none, or where all of it
// stands on top.
func PlanZerosSentence(d answers.Plan) string {
	z := d.Zeros
	if z.Figures == 0 || zerosAlone(d) {
		return ""
	}
	said := fmt.Sprintf("Zeros are a matter of their own: %s zeroed by the panel in %s",
		Counted(z.Figures, "figure was", "figures were"), ofSeveral(z.Flights, d.Flights, "flight", "flights"))
	if !zerosCostMost(d) { // else it is said on top
		said += zeroedOften(z)
	}
	if !z.Points.Known() {
		return said + "; what that cost is not known, because no other figure of a flight has a grade."
	}
	each := ""
	if z.Flights > 1 {
		each = " in each of these flights on average"
	}
	if z.Flights < d.Flights && zerosCostMost(d) { // what stands on top is of all flights
		if z.Flights == 1 {
			each = " in that flight"
		}
		each += fmt.Sprintf(" (%s over all %s)", z.Each.Text(1), NumberWord(d.Flights))
	}
	said = fmt.Sprintf("%s, which cost about %s points%s, %s percentage points%s, against the mean grade of the flight's other figures.",
		said, z.Cost.Text(0), inAll(z.Flights), z.Percent.Text(1), each)
	if len(d.Items) == 0 {
		return said
	}
	return said + " The gains above leave them out."
}

// mostZeroed is how many figures that were zeroed more than once are named.
const mostZeroed = 3

// zeroedOften names the figures that were zeroed more than once, those that were most often
// first: what practice of zeros is of.
func zeroedOften(z answers.PlanZeros) string {
	var said []string
	for _, f := range z.Of[:min(mostZeroed, len(z.Of))] {
		if f.Times > 1 {
			said = append(said, fmt.Sprintf("%s, %s times", FigureTitle(f.Figure), NumberWord(f.Times)))
		}
	}
	if len(said) == 0 {
		return ""
	}
	return " (most often " + strings.Join(said, "; ") + ")"
}

// inAll says of a sum over several flights that it is one.
func inAll(flights int) string {
	if flights > 1 {
		return " in all"
	}
	return ""
}

// AsideWords say a weak family that is none of the items, with the reason.
func AsideWords(a answers.PlanAside) string {
	return fmt.Sprintf("%s: about %s%%; %s", GroupTitle(a.Group), a.Level.Text(0), a.Why)
}

// WithoutWords say a fault that comes back and has no drill, with what it may cost.
func WithoutWords(k answers.FaultKind) string {
	text := fmt.Sprintf("%s: %d of %s that could show it%s", name(k), k.Flights, Counted(k.Exposed, "flight", "flights"), beforeIts(k))
	if k.Points.Known() && k.Points.Float64() > 0 {
		text += fmt.Sprintf(", %s points at stake", k.Points.Text(0))
	}
	return text
}

// GainWords say a gain with its interval.
func GainWords(d answers.Plan, i answers.PlanItem) string {
	r := GainRange(d, i)
	return fmt.Sprintf("%s percentage points (%s)", i.Gain.Text(1), r.EndsAt())
}

// GainRange is the range of a gain.
func GainRange(d answers.Plan, i answers.PlanItem) Range {
	return Range{i.Low, i.Gain, i.High, d.Confidence}
}

// FaultWords say a recommendation's fault, and in how many flights it was noted.
func FaultWords(i answers.PlanItem) string {
	if i.Untold != nil {
		return i.Untold.Kind + ", " + seenSince(*i.Untold) + ", with the family; too few to tell whether it comes back"
	}
	text := fmt.Sprintf("%s, in %d of %s with the family", i.Fault, i.SeenInFamily, Counted(i.ExposedInFamily, "flight", "flights"))
	if i.BeforeDrill {
		text += beforeDrill + " (" + unshownSince + ")"
	}
	return text
}

// DrillWords says a drill with its date and text.
func DrillWords(i answers.PlanItem) string {
	text := fmt.Sprintf("%s, since %s", GroupTitle(i.Drill), i.Since+drillEnd(i.Ended))
	if i.Text != "" {
		text += ": " + i.Text
	}
	return text
}

// PlanDrill says in short since when a recommendation's drill is set; what it is
// on goes without saying where that is the fault or the family of its row.
func PlanDrill(i answers.PlanItem) string {
	text := "since " + i.Since + drillEnd(i.Ended)
	if i.Drill == i.Fault || i.Drill == i.Group || i.Untold != nil && i.Drill == i.Untold.Kind {
		return text
	}
	return GroupTitle(i.Drill) + ", " + text
}

// PlanBrief says what is weak and none of the recommendations, and what a plan
// leaves out.
func PlanBrief(d answers.Plan) []string {
	var notes []string
	for _, a := range d.Aside {
		notes = append(notes, "weak, but not among these: "+AsideWords(a))
	}
	if out := firstOut(d.Items); out < 0 || d.Items[out].Weak { // else the sentence on top names the families
		notes = append(notes, sameFigure(d)...)
	}
	notes = append(notes, alikeItems(d)...)
	if len(d.Items) > 0 {
		notes = append(notes, "weaker: over "+daysTo(d.Days, d.To)+"; `families` shows one season; gain: in percentage points"+mayBeNote(d))
	}
	if slices.ContainsFunc(d.Items, func(i answers.PlanItem) bool { return i.Fault != "" || i.Untold != nil }) {
		note := "comes back: the family's commonest fault, of its flights since its last drill"
		if slices.ContainsFunc(d.Items, func(i answers.PlanItem) bool { return i.BeforeDrill }) {
			note += ";" + beforeDrill + ": " + unshownSince
		}
		notes = append(notes, note)
	}
	return append(notes, planWithout(d)...)
}

// mayBeNote explains the chance behind "may be", "" where none stands there.
func mayBeNote(d answers.Plan) string {
	if fewToTell(d) {
		return ""
	}
	return "; a percentage after \"may be\" is the chance that it is so"
}

// FurtherFromPlan names the pages that a plan rests on.
func FurtherFromPlan(d answers.Plan) string {
	said := fmt.Sprintf("What it rests on: boxbook faults %[1]s; boxbook drills %[1]s; boxbook families %[1]s", d.Pilot)
	if d.Sequence != "" {
		said += fmt.Sprintf("; boxbook forecast %s %s", d.Pilot, d.Sequence)
	}
	if d.Elsewhere != "" {
		said = "Where practice pays " + AtCategory(d.Elsewhere) + ", where there are enough: " + planCommand(d.Pilot, d.Elsewhere) + "\n" + said
	}
	if len(d.Items) == 0 {
		return said
	}
	return said + "\n" + MoreNumbers("plan", d.Pilot, d.Sequence)
}

// PlanNotes say which recommendations are not told apart, what is left out, and
// what a gain is.
func PlanNotes(d answers.Plan) []string {
	var notes []string
	for i := 0; i+1 < len(d.Items); i++ {
		if !d.Items[i].Apart {
			notes = append(notes, fmt.Sprintf("%d and %d: too close to call, their intervals overlap by more than half", i+1, i+2))
		}
	}
	notes = append(notes, sameFigure(d)...)
	notes = append(notes, alikeItems(d)...)
	notes = append(notes, planWithout(d)...)
	if len(d.Items) == 0 {
		return notes
	}
	notes = append(notes, "levels are from these flights, whatever their season; `families` has those of one season")
	return append(notes, fmt.Sprintf("gain: the family's share of the K of %s times how far it is expected to be below the pilot's other families; zeroed figures left out", d.Sequence))
}

// PlanHelp says what the command of that name does.
func PlanHelp() string {
	return `Show where practice pays on SEQUENCE, else on the latest known of the present
category: at most ` + NumberWord(answers.PlanItems) + ` families, with the gain if each came up to the pilot's
other families, the confidence in it, and the fault and the drill that belong to
it; then zeros, what else is weak, and what comes back without a drill. --all
adds the evidence and the intervals. The plan is made from the contest flights
of ` + lastDays(answers.PlanDays) + `.`
}

// PlanSpan says what a plan goes by instead of flags that choose flights.
func PlanSpan() string {
	return "it is made from the contest flights of " + lastDays(answers.PlanDays) + "; --asof, --until and --season choose the last day"
}
