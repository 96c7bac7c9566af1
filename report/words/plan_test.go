package words_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

var planLimits = answers.PlanLimits{MayBeWeak: report.Float(.6), LittleK: report.Float(.05), LevelConfidence: report.Float(.9)}

// Neighbours that are too close to call are named, and what only carries a lot of K is
// not called weak.
func TestPlanSentences(t *testing.T) {
	item := func(group string, apart bool) answers.PlanItem {
		return answers.PlanItem{Group: group, Gain: report.Float(1), Low: report.Float(0), High: report.Float(2), Apart: apart, Weak: true, WeakChance: report.Float(.95)}
	}
	d := answers.Plan{Sequence: "known-26", Limits: planLimits, Items: []answers.PlanItem{item("7", false), item("5", true), item("1", true)}}
	assert.Equal(t, "On known-26 practice pays most in loops, part loops and eights (family 7) or in stall turns (family 5), too close to call: about 1.0 percentage points, if either came up to the pilot's other families.", words.PlanSentence(d))
	d.Items[1].Gain = report.Float(0.5)
	assert.Contains(t, words.PlanSentence(d), "too close to call: about 1.0 and 0.5 percentage points, if either came up")
	// Gains that look far apart are not called close: it is their ranges that overlap.
	d.Items[1].Gain, d.Items[1].High = report.Float(0.2), report.Float(1.5)
	assert.Equal(t, "On known-26 practice pays most in loops, part loops and eights (family 7) or in stall turns (family 5): about 1.0 and 0.2 percentage points, if either came up to the pilot's other families; "+
		"their ranges, 0.0 to 2.0 and 0.0 to 1.5, overlap too much to say which pays more.", words.PlanSentence(d))
	d.Items[0].Apart = true
	assert.Equal(t, "On known-26 practice pays most in loops, part loops and eights (family 7): about 1.0 percentage points, if it came up to the pilot's other families.", words.PlanSentence(d))
	// A second that is not told to be weaker is no place where practice pays most.
	d.Items[0].Apart, d.Items[1].Weak = false, false
	const alone = "On known-26 practice pays most in loops, part loops and eights (family 7): about 1.0 percentage points, if it came up to the pilot's other families; too close to call with it: stall turns (family 5), about 0.2, "
	assert.Equal(t, alone+"which may be weaker (a chance of 95%).", words.PlanSentence(d))
	d.Items[1].WeakChance = report.Float(.4)
	assert.Equal(t, alone+"which cannot be told apart from the others and only carries a lot of K.", words.PlanSentence(d))
	d.Items[1].Weak = true
	assert.Equal(t, "1 and 2: too close to call, their intervals overlap by more than half", words.PlanNotes(d)[0])
	d.Items[0].Apart = true
	assert.Len(t, words.PlanNotes(d), 2)
	d.Unseen = []string{"9.9"}
	assert.Equal(t, "not graded in these flights, so nothing is said of it: positive flick rolls (family 9.9)", words.PlanNotes(d)[0])
}

// Where no family stands out, the page says so before it names a gain, which has its
// range; what stands out comes before what only carries a lot of K.
func TestPlanSaysThatNothingStandsOut(t *testing.T) {
	item := func(group string, gain, chance float64) answers.PlanItem {
		return answers.PlanItem{Group: group, Gain: report.Float(gain), Low: report.Float(0), High: report.Float(2), Apart: true, WeakChance: report.Float(chance), Of: []string{"known-26/1", "known-26/2"}, Different: 2}
	}
	d := answers.Plan{Sequence: "known-26", Confidence: report.Float(.9), Limits: planLimits, Items: []answers.PlanItem{item("7", 1, .59), item("spins", .5, .5)}}
	const nothing = "Nothing stands out on known-26: no family that counts there lies below the others by more than chance. "
	const gain = "The largest gain to expect, about 1.0 percentage points (0.0 to 2.0 at 90% confidence), is in loops, part loops and eights (family 7), "
	assert.Equal(t, nothing+gain+"which cannot be told apart from the others and only carries a lot of K.", words.PlanSentence(d))
	assert.Equal(t, "not told apart, only carries a lot of K", words.PlanWhy(d, d.Items[0]))
	d.Items[0].WeakChance = report.Float(.84)
	assert.Equal(t, nothing+gain+"which may be weaker (a chance of 84%).", words.PlanSentence(d), "which is no more than chance gives")
	d.Items[0].Apart = false
	assert.Equal(t, nothing+gain+"which may be weaker (a chance of 84%). Too close to call with it: spins, about 0.5.", words.PlanSentence(d))
	d.Items[0].Apart, d.Items[0].Different = true, 1
	assert.Equal(t, nothing+gain+"whose only figure may be weaker (a chance of 84%).", words.PlanSentence(d))

	d.LowFigures = []answers.LowFigure{{Figure: "known-26/5", Flights: 3, Gap: report.Float(-7)}}
	assert.Contains(t, words.PlanSentence(d), "(a chance of 84%). Below the pilot's other figures: figure 5 of known-26 (about 7 percentage points beyond chance, 3 flights).")
	d.LowFigures = nil

	d.Flights, d.Zeros = 8, answers.PlanZeros{Figures: 9, Flights: 7, Each: report.Float(1.04)}
	assert.Equal(t, "Zeros cost most, about 1.0 percentage points per flight, against the flight's other figures: 9 figures were zeroed in 7 of 8 flights. Nothing else"+strings.TrimPrefix(nothing, "Nothing")+gain+"whose only figure may be weaker (a chance of 84%).", words.PlanSentence(d))
	d.Zeros.Each = report.Float(.9)
	assert.Equal(t, nothing+gain+"whose only figure may be weaker (a chance of 84%).", words.PlanSentence(d), "less than the gain")

	d.Items[0].WeakChance, d.Items[1].Weak, d.Items[1].WeakChance = report.Float(.4), true, report.Float(.95)
	assert.Equal(t, "What stands out on known-26 is spins: about 0.5 percentage points, if it came up to the pilot's other families. "+
		gain+"which cannot be told apart from the others and only carries a lot of K.", words.PlanSentence(d))
	d.Items[1].Weak, d.Items[1].WeakFigure = false, "known-26/2"
	assert.Contains(t, words.PlanSentence(d), "What stands out on known-26 is figure 2 of known-26, in spins: about 0.5")
}

// Where a figure lies low and no family does, the figure leads, with all the families that
// have it, whatever stands first; what may be weaker beside it is said.
func TestPlanLeadsWithTheFigureWhereNoFamilyIsWeaker(t *testing.T) {
	item := func(group, figure string, gain, chance float64) answers.PlanItem {
		return answers.PlanItem{Group: group, Gain: report.Float(gain), Low: report.Float(0), High: report.Float(.4), WeakChance: report.Float(chance), WeakFigure: figure, Different: 3}
	}
	d := answers.Plan{Sequence: "known-26", Flights: 14, Confidence: report.Float(.9), Limits: planLimits, Items: []answers.PlanItem{
		item("9.1", "known-26/7", .12, .5), item("8", "known-26/7", .11, .61), item("spins", "", .1, .74),
	}}
	const figure = "What stands out on known-26 is figure 7 of known-26, in slow rolls (family 9.1) and combinations of lines, angles and loops (family 8): about 0.1 percentage points, if one of these came up to the pilot's other families. "
	const none = "No family that counts there lies below the others by more than chance. "
	assert.Equal(t, figure+none+"Spins may be weaker (a chance of 74%): about 0.1.", words.PlanSentence(d))
	assert.NotContains(t, strings.Join(words.PlanBrief(d), ""), "rest on the same figure", "it is said on top")
	// The worst figure stands in the list too.
	d.LowInItems = []answers.LowFigure{{Figure: "known-26/7", Flights: 4, Gap: report.Float(-4)}}
	assert.NotContains(t, words.PlanSentence(d), "Below the pilot's")
	d.LowFigures = []answers.LowFigure{{Figure: "known-26/6", Flights: 4, Gap: report.Float(-3)}}
	assert.Contains(t, words.PlanSentence(d), " Below the pilot's other figures: figure 7 of known-26 (about 4 percentage points beyond chance, 4 flights); figure 6 of known-26 (about 3 percentage points beyond chance, 4 flights).")
	d.LowFigures, d.LowInItems = nil, nil
	// A family that may be weaker and is not told to be leads no more where it stands first.
	d.Items = []answers.PlanItem{item("8", "", .4, .91), item("9.9", "known-26/7", .2, .89)}
	assert.Equal(t, "What stands out on known-26 is figure 7 of known-26, in positive flick rolls (family 9.9): about 0.2 percentage points, if it came up to the pilot's other families. "+none+
		"The largest gain to expect, about 0.4 percentage points (0.0 to 0.4 at 90% confidence), is in combinations of lines, angles and loops (family 8), which may be weaker (a chance of 91%). Too close to call with it: positive flick rolls (family 9.9), about 0.2.", words.PlanSentence(d))
	// A weak family comes before a figure, wherever it stands.
	d.Items = []answers.PlanItem{item("9.1", "known-26/7", .12, .5), item("8", "", .11, .95)}
	d.Items[1].Weak = true
	assert.Contains(t, words.PlanSentence(d), "What stands out on known-26 is combinations of lines, angles and loops (family 8): about 0.1")
	assert.Contains(t, words.PlanSentence(d), "is in slow rolls (family 9.1), figure 7 of known-26 above all, which cannot be told apart")
	// The only figure of a family is the figure, of a family that rises too.
	d.Items = []answers.PlanItem{item("spins", "known-26/2", .12, .9)}
	d.Items[0].Different, d.Items[0].Rising = 1, true
	assert.Equal(t, "What stands out on known-26 is figure 2 of known-26, in spins: about 0.1 percentage points, if it came up to the pilot's other families. Spins is already rising.", words.PlanSentence(d))
}

// What a gain rests on, and how sure it is, follow from the numbers of the answer.
func TestPlanEvidence(t *testing.T) {
	item := answers.PlanItem{
		Group: "7", Gain: report.Float(1.26), Low: report.Float(0), High: report.Float(2), Level: report.Float(71.4), LevelLow: report.Float(68.5), LevelHigh: report.Float(74.4),
		Share: report.Float(.234), WeakChance: report.Float(.7), Of: []string{"known-26/1", "known-26/2"}, Different: 2,
	}
	d := answers.Plan{Sequence: "known-26", Confidence: report.Float(.95), Limits: planLimits, Items: []answers.PlanItem{item}}
	said := words.SayPlan(d)
	assert.Equal(t, "may be weaker than the pilot's other families (a chance of 70%); level over two years about 71% (69 to 74 at 90% confidence), 23% of the K of known-26", said.Items[0].Evidence)
	assert.Empty(t, d.Items[0].Evidence)
	assert.Equal(t, "1.3 percentage points (0 to 2 at 95% confidence)", words.GainWords(d, d.Items[0]))
	assert.Equal(t, said, words.SayPlan(said))

	evidence := func(change func(i *answers.PlanItem)) string {
		changed := item
		change(&changed)
		d.Items = []answers.PlanItem{changed}
		return words.SayPlan(d).Items[0].Evidence
	}
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.Weak, i.WeakFigure = true, "known-26/2" }), "weaker than the pilot's other families, figure 2 of known-26 above all;")
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.Of, i.Different = i.Of[:1], 1 }), "figure 1 of known-26 may be weaker than the others (a chance of 70%), and is the only one of the family;")
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.Of, i.Different, i.WeakFigure = i.Of[:1], 1, "known-26/1" }), "figure 1 of known-26 lies below the others, and is the only one of the family;")
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.Different = 1 }), "figure 1 of known-26, the same in 2 sequences, may be weaker than the others (a chance of 70%), and is the only one of the family;")
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.WeakChance = report.Float(.59) }), "cannot be told apart from the others; it only carries a lot of K;")
	assert.Contains(t, evidence(func(i *answers.PlanItem) { i.Last, i.Ends, i.Rising = report.Float(74), 3, true }), "; 74% in the last 3 flights with it; already rising against the rest")
}

// Zeros stand by themselves; the weak that are not chosen have their reason; what
// comes back has what it may cost.
func TestPlanBeside(t *testing.T) {
	d := answers.Plan{Sequence: "known-26", Flights: 12, Limits: planLimits}
	assert.Empty(t, words.PlanZerosSentence(d))
	d.Zeros = answers.PlanZeros{Figures: 2, Flights: 1, Points: report.Float(14.26), Cost: report.Float(171.1), Percent: report.Float(8.44)}
	zeros := "Zeros are a matter of their own: 2 figures were zeroed by the panel in 1 of 12 flights, which cost about 171 points, 8.4 percentage points, against the mean grade of the flight's other figures."
	assert.Equal(t, zeros, words.PlanZerosSentence(d), "there are no gains above")
	several := d
	several.Zeros.Flights = 2
	assert.Contains(t, words.PlanZerosSentence(several), "in 2 of 12 flights, which cost about 171 points in all, 8.4 percentage points in each of these flights on average, against")
	d.Items = make([]answers.PlanItem, 1)
	assert.Equal(t, zeros+" The gains above leave them out.", words.PlanZerosSentence(d))

	d.Zeros.Each = report.Float(.7) // more than any gain: it stands on top, of all flights
	d.Items[0].Gain = report.Float(.5)
	assert.Contains(t, words.PlanZerosSentence(d), "about 171 points, 8.4 percentage points in that flight (0.7 over all twelve), against")
	d.Zeros.Flights = 3
	assert.Contains(t, words.PlanZerosSentence(d), "171 points in all, 8.4 percentage points in each of these flights on average (0.7 over all twelve), against")
	d.Zeros.Flights = 12
	assert.Contains(t, words.PlanZerosSentence(d), "8.4 percentage points in each of these flights on average, against")
	for want, reason := range map[string]code.Reason{
		"known-26 has none of it": code.NotInSequence, "only 4% of the K of known-26": code.LittleK, "4% of the K of known-26, where others offer more": code.SmallerGain,
	} {
		d.Aside = []answers.PlanAside{{Group: "5", Level: report.Float(58), Share: report.Float(.04), Reason: reason}}
		assert.Equal(t, "stall turns (family 5): about 58%; "+want, words.AsideWords(words.SayPlan(d).Aside[0]))
	}
	assert.Equal(t, "line at the wrong angle: 3 of 8 flights that could show it, 96 points at stake",
		words.WithoutWords(answers.FaultKind{Kind: "line-angle", Says: "line at the wrong angle", Flights: 3, Exposed: 8, Points: report.Float(96)}))
	assert.Equal(t, "timing: 3 of 8 flights that could show it", words.WithoutWords(answers.FaultKind{Kind: "timing", Flights: 3, Exposed: 8}))
}

// Where the sequence's families were flown and none offers a gain, that is no lack of
// flights.
func TestPlanWithoutAGainStandsOutNowhere(t *testing.T) {
	d := answers.Plan{Sequence: "known-26", Flights: 24, Limits: planLimits, Lack: &answers.Lack{Reason: code.NoGain, Flights: 24, Families: 5}}
	d.Limits.Flights = 5
	const said = "stands out on known-26: no family that counts there lies below the others by more than chance, and none that was flown offers a gain."
	assert.Equal(t, "Nothing "+said, words.PlanSentence(words.SayPlan(d)))
	d.Zeros = answers.PlanZeros{Figures: 3, Flights: 3, Each: report.Float(2)}
	assert.Contains(t, words.PlanSentence(words.SayPlan(d)), " Nothing else "+said)
	d.Lack.Families = 0
	assert.Contains(t, words.PlanSentence(words.SayPlan(d)), "Cannot tell where practice pays: no family that was flown offers a gain")
	d.Lack.Families, d.Flights = 5, 4
	assert.Contains(t, words.PlanSentence(words.SayPlan(d)), "Cannot tell where practice pays: ")
}

// Where nothing else was measured, there is nothing that zeros cost more than, and they are
// told once.
func TestPlanOfZerosAlone(t *testing.T) {
	d := answers.Plan{Flights: 3, Category: "intermediate", Limits: planLimits, Why: "3 contest flights", Lack: &answers.Lack{Reason: code.FewFlights, Flights: 3}}
	d.Zeros = answers.PlanZeros{Figures: 1, Flights: 1, Points: report.Float(51), Cost: report.Float(153), Percent: report.Float(8.4), Each: report.Float(2.8)}
	assert.Equal(t, "Zeros cost about 2.8 percentage points per flight, against the mean grade of the flight's other figures: 1 figure was zeroed in 1 of 3 flights, "+
		"which cost about 153 points, 8.4 percentage points in that flight. Cannot tell where practice pays at intermediate: 3 contest flights.", words.PlanSentence(d))
	assert.Empty(t, words.PlanZerosSentence(d))
	d.Zeros.Figures, d.Zeros.Flights = 4, 2
	assert.Contains(t, words.PlanSentence(d), "4 figures were zeroed in 2 of 3 flights, which cost about 153 points in all, 8.4 percentage points in each of these flights on average. ")
	d.Zeros.Flights = 3
	assert.Contains(t, words.PlanSentence(d), "which cost about 153 points in all. ")
	// families that were held against each other are something to be more than
	d.Lack = &answers.Lack{Reason: code.NoGain, Families: 5}
	assert.Contains(t, words.PlanSentence(d), "Zeros cost most, about 2.8 percentage points per flight")
	assert.NotEmpty(t, words.PlanZerosSentence(d))
}

// Flights that cannot tell a weaker family on the families' page do not on the plan's.
func TestPlanTellsNoMoreThanTheFamilies(t *testing.T) {
	item := answers.PlanItem{Group: "9.1", Gain: report.Float(.3), Low: report.Float(0), High: report.Float(.9), Apart: true, WeakChance: report.Float(.71), Different: 3}
	d := answers.Plan{Sequence: "known-26", Flights: 4, Confidence: report.Float(.9), Limits: planLimits, Items: []answers.PlanItem{item}}
	d.Limits.Flights = 5
	said := words.SayPlan(d)
	assert.Equal(t, "4 flights cannot tell which family is weaker than the others. The largest gain to expect, about 0.3 percentage points (0.0 to 0.9 at 90% confidence), is in slow rolls (family 9.1), which so few flights cannot tell apart from the others.", words.PlanSentence(said))
	assert.Equal(t, "too few flights to tell it apart", words.PlanWhy(said, said.Items[0]))
	assert.NotContains(t, said.Items[0].Evidence+strings.Join(words.PlanBrief(said), ""), "may be")
	said.Items[0].Weak = true
	assert.Equal(t, "weaker than the others", words.PlanWhy(said, said.Items[0]), "which few flights can tell where it is far")
	said.Flights, said.Items[0].Weak = 5, false
	assert.Equal(t, "may be weaker (71%)", words.PlanWhy(said, said.Items[0]))
}

// What is lacking is said with its own numbers.
func TestPlanLacks(t *testing.T) {
	for want, lack := range map[string]answers.Lack{
		"1 contest flight with marks (2 more with an official total only) in the last two years; at least six are needed": {Reason: code.FewFlights, Flights: 1, Least: 6, Bare: 2},
		"1 family was flown; at least two are needed":             {Reason: code.FewFamilies, Families: 1, LeastFamilies: 2},
		"no family that was flown offers a gain on that sequence": {Reason: code.NoGain},
	} {
		d := words.SayPlan(answers.Plan{Days: 730, Lack: &lack})
		assert.Equal(t, want, d.Why)
		assert.Equal(t, "Cannot tell where practice pays: "+want+".", words.PlanSentence(d))
	}
}

// Flights that are too few are said of their category, and another one that has
// enough is the page to ask.
func TestPlanNamesTheCategoryThatHasEnough(t *testing.T) {
	d := words.SayPlan(answers.Plan{Pilot: "ines", Days: 730, Category: "advanced", Elsewhere: "sportsman", Lack: &answers.Lack{Reason: code.FewFlights, Flights: 1, Least: 4}})
	assert.Equal(t, "Cannot tell where practice pays at advanced: 1 contest flight with marks in the last two years; at least four are needed.", words.PlanSentence(d))
	assert.Contains(t, words.FurtherFromPlan(d), "Where practice pays at sportsman, where there are enough: boxbook plan ines --category sportsman\n")
	d.Elsewhere = ""
	assert.NotContains(t, words.FurtherFromPlan(d), "--category")
	home := answers.Home{Pilot: "ines", Last: &answers.LastFlight{}, PlanCategory: "sportsman", Planned: true}
	assert.Equal(t, "boxbook plan ines --category sportsman", words.SayHome(home).Next)
	home.PlanCategory, home.Planned = "", false
	assert.Equal(t, "boxbook season ines", words.SayHome(home).Next, "printed totals alone: neither a plan nor where the points went")
	home.Last.Marked = true
	assert.Equal(t, "boxbook flight ines", words.SayHome(home).Next)
}

// A level that the family has left is said with what it scored last; two ranks on one
// figure are said to be.
func TestPlanSaysWhatHasRisen(t *testing.T) {
	item := answers.PlanItem{Group: "7", Gain: report.Float(.8), Apart: true, Weak: true, WeakChance: report.Float(.99), WeakFigure: "known-26/5", Last: report.Float(69), Ends: 4, Rising: true}
	d := answers.Plan{Sequence: "known-26", Days: 730, Limits: planLimits, Items: []answers.PlanItem{item}}
	assert.Equal(t, "weaker, but 69% lately, already rising; figure 5 above all", words.PlanWhy(d, item))
	item.Rising = false
	assert.Equal(t, "weaker than the others, figure 5 above all", words.PlanWhy(d, item))
	d.Items = []answers.PlanItem{item, {Group: "1", Apart: true}, item}
	assert.NotContains(t, words.PlanSentence(d), "rising")
	assert.Contains(t, words.PlanBrief(d), "1 and 3 rest on the same figure above all, figure 5 of known-26")
	assert.Contains(t, words.PlanNotes(d), "1 and 3 rest on the same figure above all, figure 5 of known-26")
	assert.NotContains(t, words.PlanBrief(answers.Plan{Items: []answers.PlanItem{item}})[0], "same figure")
}

// Figures without a family are a note of the plan, short and whole, with what such
// figures lose and how they get one; so are families that nothing tells apart.
func TestPlanSaysWhatItIsSilentAbout(t *testing.T) {
	d := answers.Plan{Sequence: "known-26", Days: 730, Limits: planLimits, Uncoded: []int{4, 5, 9}, UncodedLost: report.Float(.327), Items: []answers.PlanItem{
		{Group: "1", Alike: []string{"spins"}},
		{Group: "7", Weak: true, Of: []string{"a/1", "a/2", "a/3", "a/4"}, Different: 3},
		{Group: "9.1", Of: []string{"a/2", "a/4"}, Different: 2},
		{Group: "5", Of: []string{"a/2"}},
	}}
	for _, notes := range [][]string{words.PlanBrief(d), words.PlanNotes(d)} {
		assert.Contains(t, notes, "without codes: figures 4, 5 and 9 of known-26, so nothing is said of them; such figures have 33% of the points lost in these flights; a family behind the K names it, as in K 14 2-rolling")
		assert.Contains(t, notes, "lines and angles (family 1): cannot be told apart from spins, which is in the same figures")
		within := slices.DeleteFunc(notes, func(note string) bool { return !strings.Contains(note, "either's") })
		assert.Equal(t, []string{"slow rolls (family 9.1): in two of the 3 distinct figures of loops, part loops and eights (family 7), and in no other; what is lost there may be either's"}, within)
	}
	d.Uncoded, d.UncodedLost = []int{4}, report.Number{}
	assert.Contains(t, words.PlanBrief(d), "without codes: figure 4 of known-26, so nothing is said of it; a family behind the K names it, as in K 14 2-rolling")
}

// A family that rises already is not what to practise first: the first that does
// not is named.
func TestPlanPassesOverWhatRises(t *testing.T) {
	item := func(group string, gain float64, rising bool) answers.PlanItem {
		return answers.PlanItem{Group: group, Gain: report.Float(gain), Low: report.Float(0), High: report.Float(.9), Weak: true, WeakChance: report.Float(.99), Last: report.Float(69), Ends: 4, Rising: rising}
	}
	d := answers.Plan{Sequence: "known-26", Confidence: report.Float(.9), Limits: planLimits, Items: []answers.PlanItem{item("7", .8, true), item("1", .4, false), item("spins", .3, false)}}
	const lost = "On known-26 most is lost in loops, part loops and eights (family 7), already rising: 69% in the last 4 flights with it."
	assert.Equal(t, lost+" Of the others, practice pays most in lines and angles (family 1) or in spins, too close to call: about 0.4 and 0.3 percentage points, if either came up to the rest.", words.PlanSentence(d))
	d.Items[1].Weak, d.Items[1].WeakChance, d.Items[1].Different = false, report.Float(.84), 3
	assert.Equal(t, lost+" Of the others, practice pays most in lines and angles (family 1), maybe weaker, or in spins, too close to call: about 0.4 and 0.3 percentage points, if either came up to the rest.", words.PlanSentence(d))
	d.Items[1].WeakChance = report.Float(.5)
	assert.Equal(t, lost+" Of the others, the largest gain to expect, about 0.4 percentage points (0.0 to 0.9 at 90% confidence), is in lines and angles (family 1), which cannot be told apart from the others and only carries a lot of K. Too close to call with it: spins, about 0.3.", words.PlanSentence(d))
	d.Items[1].Weak, d.Items[1].Apart = true, true
	assert.Equal(t, lost+" Of the others, practice pays most in lines and angles (family 1): about 0.4 percentage points, if it came up to the rest.", words.PlanSentence(d))
	d.Items[1].Rising = true
	assert.Equal(t, lost+" Of the others, practice pays most in spins: about 0.3 percentage points, if it came up to the rest.", words.PlanSentence(d))
	d.Items = d.Items[:2]
	assert.Equal(t, lost+" The others here rise too.", words.PlanSentence(d))
	d.Items = d.Items[:1]
	assert.Equal(t, lost, words.PlanSentence(d))
	d.Items = []answers.PlanItem{item("1", .4, false), item("7", .3, true)}
	assert.Equal(t, "On known-26 practice pays most in lines and angles (family 1): about 0.4 percentage points, if it came up to the pilot's other families; "+
		"loops, part loops and eights (family 7), too close to call, is already rising: 69% in the last 4 flights with it.", words.PlanSentence(d))
	d.Items[0].Rising, d.Items[0].WeakChance, d.Items[0].Weak, d.Items[1].Weak = true, report.Float(.5), false, false
	assert.Contains(t, words.PlanSentence(d), "and only carries a lot of K; it is already rising: 69% in the last 4 flights with it.")
	d.Items[0].Last = report.Number{}
	assert.Contains(t, words.PlanSentence(d), "and only carries a lot of K; it is already rising.")
}

// Where all of a kind was noted is not what could have shown it.
func TestKindsSayWhereTheyWereNoted(t *testing.T) {
	bank := answers.FaultKind{Kind: "bank", Says: "bank off", Group: "2-rolling", Flights: 2, Exposed: 15}
	assert.Equal(t, "bank off (noted in rolling turns alone): 2 of 15 flights that could show it", words.WithoutWords(bank))
}
