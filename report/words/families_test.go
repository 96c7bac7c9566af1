package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

var familiesLimits = answers.FamiliesLimits{TrendLimits: trendLimits, Chance: report.Float(.1), MayBe: report.Float(.2), Families: 3, Confidence: report.Float(.9), WeakSure: report.Float(.92), WeakGap: report.Float(2)}

// What is flat, and what cannot be told from chance, is counted.
func TestMovingSentence(t *testing.T) {
	families := func(said ...answers.TrendWord) answers.Families {
		d := answers.Families{Limits: familiesLimits}
		for _, word := range said {
			d.Groups = append(d.Groups, answers.Group{Group: "7", Trend: answers.Trend{Word: word}})
		}
		return d
	}
	assert.Equal(t, "No family's trend stands out from chance.", words.MovingSentence(families(answers.CannotTell, answers.TooFew)))
	assert.Equal(t, "Flat against the rest, within 3 percentage points either way: 1 family.", words.MovingSentence(families(answers.Flat, answers.TooFew)))
	assert.Equal(t, "Flat against the rest, within 3 percentage points either way: 1 family. No other family's trend stands out from chance.",
		words.MovingSentence(families(answers.Flat, answers.CannotTell)))
}

// Own marks come first and the comparison is named as one; where they point
// different ways the sentence says both. A "may be" has the chance of the set, and
// a fall against a firm riser is said to be that.
func TestMovingSentenceOfOwnMarks(t *testing.T) {
	group := func(key string, first, last, season, q float64, word answers.TrendWord) answers.Group {
		return answers.Group{
			Group: key, First: report.Float(first), Last: report.Float(last), Q: report.Float(q),
			Trend: answers.Trend{N: 6, Season: report.Float(season), Word: word},
		}
	}
	d := answers.Families{Limits: familiesLimits, Compared: 12, Groups: []answers.Group{group("7", 55, 69, -4.2, .13, answers.MayDecline)}}
	assert.Equal(t, "Loops, part loops and eights (family 7) rose from 55 to 69%, less than the rest: may be declining against the rest of the same flights, -4.2 percentage points over all of them; "+
		"with 12 families compared, chance alone gives one such sentence in about one season in seven.", words.MovingSentence(d))
	d.Groups = append(d.Groups, group("spins", 60, 72, 9, .01, answers.Improving))
	assert.Equal(t, "Spins rose from 60 to 72%, more than the rest: improving against the rest of the same flights, +9.0 percentage points over all of them. "+
		"Loops, part loops and eights (family 7) rose from 55 to 69%, less than the rest: may be declining against the rest of the same flights, -4.2 percentage points over all of them; "+
		"with 12 families compared, chance alone gives one such sentence in about one season in seven. "+
		"The rest includes spins, which clearly rises: a fall against the rest may be no more than that.", words.MovingSentence(d))
	wide := group("spins", 60, 72, 9.4, .01, answers.Improving)
	wide.Trend.Low, wide.Trend.High = report.Float(4), report.Float(15)
	overWinter := group("spins", 60, 72, 9, .01, answers.Improving)
	overWinter.Trend.LongestGap = report.Float(245)
	assert.Equal(t, "may be declining (chance alone: one season in seven)", words.FamilyTrend(d, answers.MayDecline))
	assert.Equal(t, "improving", words.FamilyTrend(d, answers.Improving))
	for want, g := range map[string]answers.Group{
		"of the same flights, +9 percentage points over all of them.":                    wide,
		"of the same flights, +9.0 percentage points drawn on across a gap of 245 days.": overWinter,
		"Spins fell from 72 to 60%, more than the rest: declining":                       group("spins", 72, 60, -9, .01, answers.Declining),
		"Spins fell from 72 to 70%, less than the rest: improving":                       group("spins", 72, 70, 9, .01, answers.Improving),
		"Spins stayed at 72% while the rest fell: improving":                             group("spins", 72.1, 72.2, 9, .01, answers.Improving),
		"Spins stayed at 72% while the rest rose: declining":                             group("spins", 72.2, 72.1, -9, .01, answers.Declining),
		"Spins: declining against the rest of the same flights, -9.0 percentage points.": {Group: "spins", Trend: answers.Trend{Season: report.Float(-9), Word: answers.Declining}},
	} {
		assert.Contains(t, words.MovingSentence(answers.Families{Limits: familiesLimits, Groups: []answers.Group{g}}), want)
	}
}

// Few flights say that they cannot tell, instead of that no family is weaker.
func TestFewFlightsCannotTellAWeakFamily(t *testing.T) {
	d := answers.Families{Limits: familiesLimits, Flights: 1, Tau2: report.Float(1), Groups: []answers.Group{
		{Group: "1", Percent: report.Float(70)}, {Group: "2-rolling", Percent: report.Float(55.25)}, {Group: "7", Percent: report.Float(40), WithoutZeros: report.Float(66)},
	}}
	assert.Equal(t, "1 flight cannot tell which family is weaker than the others; the lowest without zeros is rolling turns, 55.25%, with them loops, part loops and eights (family 7), 40.00%.", words.WeakSentence(d))
	d.Flights, d.Groups[2].WithoutZeros = 4, report.Float(50)
	assert.Equal(t, "4 flights cannot tell which family is weaker than the others; the lowest without zeros is loops, part loops and eights (family 7), 50.00%.", words.WeakSentence(d))
	d.Flights = familiesLimits.Flights
	assert.Equal(t, "No family lies below the others by more than chance in these 5 flights.", words.WeakSentence(d))
}

// A change that hangs on zeros says so in its own sentence.
func TestAChangeThatHangsOnZerosSaysSo(t *testing.T) {
	g := answers.Group{
		Group: "7", First: report.Float(53), Last: report.Float(69), Q: report.Float(.13),
		Trend: answers.Trend{Season: report.Float(8), Word: answers.MayImprove, HangsOnZeros: []string{"2026-03-21"}},
	}
	d := answers.Families{Limits: familiesLimits, Compared: 2, Groups: []answers.Group{g}}
	assert.Contains(t, words.MovingSentence(d), "+8.0 percentage points over all of them, but without the flight with a zero on 2026-03-21 this could not be said; with 2 families compared")
	d.Groups[0].Trend.HangsOnZeros = []string{"2026-03-21", "2026-03-22"}
	assert.Contains(t, words.MovingSentence(d), ", but without the flights with a zero on 2026-03-21 and 2026-03-22 this could not be said;")
	season := answers.Trend{Season: report.Float(8), Low: report.Float(1), High: report.Float(9), Confidence: report.Float(.9), P: report.Float(.1), Word: answers.MayImprove, HangsOnZeros: []string{"2026-03-21"}}
	assert.Equal(t, "May be improving: +8 percentage points (+1 to +9 at 90% confidence); chance alone: one season in ten; without the zero: not so.",
		words.TrendSentence(season, trendLimits))
	season.Word = answers.Improving
	assert.Contains(t, words.TrendSentence(season, trendLimits), "at 90% confidence); without the zero: not so. Chance alone")
	season.HangsOnZeros = []string{"2026-03-21", "2026-03-22"}
	assert.Contains(t, words.TrendSentence(season, trendLimits), "; without the zeros: not so. Chance alone")
	season.WithoutZeros = report.Float(4.7)
	assert.Equal(t, "+5 percentage points over the season, and the verdict would not stand; left out: 2026-03-21 and 2026-03-22", words.TrendWithoutZeros(season))
}

// Families whose flights are too few for any verdict are listed, where others are
// looked at.
func TestFamiliesNotLookedAt(t *testing.T) {
	few := answers.Group{Group: "spins", Trend: answers.Trend{Word: answers.TooFew}}
	d := answers.Families{Compared: 3, Groups: []answers.Group{few, {Group: "7", Trend: answers.Trend{Word: answers.Flat}}}}
	assert.Equal(t, "not compared, too few comparable flights: spins", words.NotLookedAt(d))
	d.Compared = 0
	assert.Empty(t, words.NotLookedAt(d))
}

// What is of one figure alone, which several sequences have, is said of the figure.
func TestWeakSentenceOfOneFigureInSeveralSequences(t *testing.T) {
	low := answers.Group{
		Group: "spins", Different: 1, WeakOne: true, Of: []string{"known-26/9", "free-26/6", "unknown-1/3"}, Gap: report.Float(-9), WeakChance: report.Float(.97),
		Shrunken: report.Float(61), Low: report.Float(54), High: report.Float(68),
	}
	d := answers.Families{Flights: 6, Limits: familiesLimits, Groups: []answers.Group{low, {Group: "5"}, {Group: "7"}}, Tau2: report.Float(4)}
	assert.Equal(t, "Figure 9 of known-26, the same in 3 sequences, lies below the others: spins, about 61% (54 to 68 at 90% confidence); nothing else of the family was flown.", words.WeakSentence(d))
	d.Groups[0].WeakOne = false
	assert.Equal(t, "No family lies below the others by more than chance in these 6 flights.", words.WeakSentence(d))
}

// Two distinct figures are named, of more the number; a figure that lies low by
// itself is named whatever its family; families in the same figures are said to be.
func TestWeakSentence(t *testing.T) {
	weak := answers.Group{
		Group: "7", Weak: true, Different: 2, Of: []string{"known-26/3", "known-26/7"}, Alike: []string{"9.1"},
		Shrunken: report.Float(58), Low: report.Float(52.6), High: report.Float(63),
	}
	d := answers.Families{Flights: 8, Limits: familiesLimits, Groups: []answers.Group{weak, {Group: "5"}, {Group: "9.1", Alike: []string{"7"}}}, Tau2: report.Float(4)}
	assert.Equal(t, "Weaker than the pilot's other families in these 8 flights, ranges at 90% confidence: loops, part loops and eights (family 7), about 58% (53 to 63, on figures 3 and 7 of known-26), which cannot be told apart from slow rolls (family 9.1).",
		words.WeakSentence(d))
	assert.Equal(t, []string{"loops, part loops and eights (family 7): cannot be told apart from slow rolls (family 9.1), which is in the same figures"}, words.SameFigures(d))
	d.Groups[1].Of, d.Groups[1].Different, d.Groups[2].Of = []string{"known-26/7"}, 1, d.Groups[0].Of
	assert.Equal(t, []string{"stall turns (family 5): in one of the 2 distinct figures of loops, part loops and eights (family 7), and in no other; what is lost there may be either's"}, words.WithinFigures(d))
	d.Groups[0].Different, d.Groups[0].Alike, d.Groups[0].Of = 3, nil, []string{"known-26/3", "known-26/7", "free-26/1"}
	assert.Contains(t, words.WeakSentence(d), "53 to 63, on 3 distinct figures).")
	d.Groups[0].Weak = false
	d.LowFigures = []answers.LowFigure{{Figure: "known-26/4", Flights: 9, Gap: report.Float(-6.2)}}
	assert.Equal(t, "Below the pilot's other figures: figure 4 of known-26 (about 6 percentage points beyond chance, 9 flights). No family lies below the others by more than chance in these 8 flights.", words.WeakSentence(d))
	d.LowFigures[0].WithZero = 1
	assert.Contains(t, words.WeakSentence(d), "(about 6 percentage points beyond chance, 9 flights, one with the zero of a judge in it).")
	assert.Equal(t, "figure 3 of known-26 and figure 3 of free-26", words.FiguresTitle([]string{"known-26/3", "free-26/3"}))
	assert.Equal(t, []string{"weak", "one figure", "cannot tell", ""}, []string{
		words.LevelVerdict(weak), words.LevelVerdict(answers.Group{Different: 1, Shrunken: report.Float(1)}),
		words.LevelVerdict(answers.Group{Different: 2, Shrunken: report.Float(1)}), words.LevelVerdict(answers.Group{}),
	})
}

// The note says whose change crosses a gap where not all do, and how sure
// ranges are where they differ.
func TestFamilyTrendNotesOfSome(t *testing.T) {
	group := func(key string, confidence, gap float64) answers.Group {
		return answers.Group{Group: key, Trend: answers.Trend{
			N: 6, Season: report.Float(1), Confidence: report.Float(confidence), LongestGap: report.Float(gap), Word: answers.CannotTell,
		}}
	}
	d := answers.Families{Limits: familiesLimits, Groups: []answers.Group{group("7", 0.9167, 200), group("5", 0.98, 30)}}
	assert.Equal(t, "loops, part loops and eights (family 7): the change is drawn across a gap of up to 200 days without a flight that can be compared", words.GapNote(d))
	assert.Equal(t, "from, to: the exact range of the change, at the confidence nearest above 90% that so few flights allow: 91 to 98%", words.ConfidenceNote(d))
}

// What the levels lack is said, and that hardly any figure was flown twice.
func TestLevelsThatCannotBeCompared(t *testing.T) {
	d := answers.Families{Groups: make([]answers.Group, 2), Limits: familiesLimits}
	assert.Equal(t, "The levels of the families cannot be compared: 2 families were flown; at least three are needed.", words.WeakSentence(d))
	d.Groups = make([]answers.Group, 6)
	assert.Equal(t, "The levels of the families cannot be compared: fewer than three families have a figure that was not zeroed.", words.WeakSentence(d))
	d.Groups = d.Groups[:2]
	assert.Empty(t, words.NotPooled(d))
	d.Tau2 = report.Float(3)
	assert.Contains(t, words.NotPooled(d), "hardly any figure was flown twice")
	d.Pooled = true
	assert.Empty(t, words.NotPooled(d))
}

// One family that was flown at one contest only is said as one, and none not at all.
func TestOneContest(t *testing.T) {
	d := answers.Families{Flights: 2, Groups: []answers.Group{{Group: "7", Contests: 2}, {Group: "spins", Contests: 1}}}
	assert.Equal(t, "spins: flown at one contest only, so it reflects that contest's judges", words.OneContest(d))
	assert.Empty(t, words.OneContest(answers.Families{Flights: 1, Groups: d.Groups}), "one flight: that goes without saying")
	assert.Empty(t, words.WithoutZeros(d))
}

// A level in a sentence is told from the percent of the table where it is named, and both
// sides of the spread are rounded alike.
func TestLevelsAreToldFromPercents(t *testing.T) {
	weak := answers.Group{Group: "7", Weak: true}
	assert.True(t, words.SaysLevels(answers.Families{Tau2: report.Float(4), Groups: []answers.Group{weak, {Group: "2"}}}))
	assert.False(t, words.SaysLevels(answers.Families{Tau2: report.Float(4), Groups: []answers.Group{{Group: "2"}}}))
	assert.False(t, words.SaysLevels(answers.Families{Groups: []answers.Group{weak}}))
	spread := words.SpreadBetweenFamilies(answers.Families{
		Tau2: report.Float(4), TauHigh: report.Float(7), Tau2Figure: report.Float(1), TauHighFigure: report.Float(3), Distinct: 40,
	})
	assert.Equal(t, "spread between families: about 2.0 percentage points, up to 7.0 not ruled out; between figures of one family: about 1.0, up to 3.0 (40 distinct figures)", spread)
}

// A family without a mark that lies lower than one that is weak has its reason beside it.
func TestReversedFamilies(t *testing.T) {
	group := func(name string, rest float64, weak bool, distinct int) answers.Group {
		return answers.Group{Group: name, VersusRest: report.Float(rest), Weak: weak, Different: distinct, Low: report.Float(60.2), High: report.Float(81.7)}
	}
	d := answers.Families{Groups: []answers.Group{group("9.1", -1.3, true, 9), group("8", -3.4, false, 2), group("7", .4, false, 3)}}
	assert.Equal(t, "combinations of lines, angles and loops (family 8): lower against the rest than what is weak, but of 2 figures it may be anywhere from 60 to 82%", words.ReversedNote(d))
	d.Groups[1].WithoutZeros = report.Float(70)
	assert.Contains(t, words.ReversedNote(d), ", and a zero in it says nothing of its level")
	d.Groups[1].Different = 1
	assert.Contains(t, words.ReversedNote(d), "but of one figure")
	d.Groups[0].Weak = false
	assert.Empty(t, words.ReversedNote(d))
}

// A change that lay beyond what was observed is said to be cut to that.
func TestCutNote(t *testing.T) {
	d := answers.Families{Groups: []answers.Group{
		{Group: "7", Trend: answers.Trend{Season: report.Float(2)}}, {Group: "spins", Trend: answers.Trend{Season: report.Float(3), LowCut: true}}, {Group: "5"},
	}}
	assert.Equal(t, "the change or an end of its range lay beyond what was observed, and is cut to that: spins", words.CutNote(d))
	d.Groups[0].Trend.SeasonCut = true
	assert.Contains(t, words.CutNote(d), "cut to that: every family")
	assert.Empty(t, words.CutNote(answers.Families{}))
}

// What lies low by the figures that it shares is said with what it shares them with; which
// of them it is, only where one of them stands by itself.
func TestFamiliesLowTogether(t *testing.T) {
	lines := answers.Group{Group: "1", LowWith: []string{"spins"}, Of: []string{"known-26/1", "known-26/4", "unknown-26/6"}}
	spins := answers.Group{Group: "spins", Of: []string{"known-26/1", "unknown-26/6"}}
	d := answers.Families{Flights: 12, Tau2: report.Float(3), Groups: []answers.Group{lines, spins}}
	assert.Equal(t, "Lines and angles (family 1): low only in figures that have spins too (figure 1 of known-26 and figure 6 of unknown-26); they cannot be told apart.", words.WeakSentence(d))
	d.Groups[1].LowWith = []string{"1"}
	assert.Equal(t, 1, strings.Count(words.WeakSentence(d), "low only"), "each two of them once")
	d.Groups[1].LowWith, d.Groups[1].Weak = nil, true
	assert.Contains(t, words.WeakSentence(d), "low only in figures that have spins too (figure 1 of known-26 and figure 6 of unknown-26).")
	plan := answers.Plan{Items: []answers.PlanItem{{Group: "1", LowWith: []string{"spins"}}}}
	for _, notes := range [][]string{words.PlanBrief(plan), words.PlanNotes(plan)} {
		assert.Contains(t, notes, "lines and angles (family 1): low only in figures that have spins too; they cannot be told apart")
	}
}

// What was found: a family with eight of twelve figures zeroed stood under a page that said
// that none lies low, and no plan said which figures the zeros were.
func TestZerosAreNamed(t *testing.T) {
	d := answers.Families{Flights: 12, Tau2: report.Float(0), Groups: []answers.Group{{Group: "1", Figures: 36, Zeros: 8}, {Group: "9.9", Figures: 12, Zeros: 8}, {Group: "7", Figures: 2, Zeros: 1}}}
	assert.Equal(t, "No family lies below the others by more than chance in these 12 flights. Zeros stand apart, most in positive flick rolls (family 9.9): 8 of 12 figures zeroed.", words.WeakSentence(d))
	d.Groups = d.Groups[2:]
	assert.NotContains(t, words.WeakSentence(d), "Zeros", "one is none of a pattern")
	plan := answers.Plan{Flights: 12, Zeros: answers.PlanZeros{
		Figures: 9, Flights: 8, Each: report.Float(6.5), Of: []answers.OftenZeroed{{Figure: "known-26/8", Times: 4}, {Figure: "free-26/8", Times: 4}, {Figure: "free-26/2", Times: 1}},
	}}
	often := "9 figures were zeroed in 8 of 12 flights (most often figure 8 of known-26, four times; figure 8 of free-26, four times)"
	assert.Contains(t, words.PlanSentence(plan), often)
	assert.NotContains(t, words.PlanZerosSentence(plan), "often", "it is said on top")
	plan.Items = []answers.PlanItem{{Group: "7", Gain: report.Float(7)}}
	assert.Contains(t, words.PlanZerosSentence(plan), "in 8 of 12 flights (most often figure 8 of known-26, four times; figure 8 of free-26, four times)")
}
