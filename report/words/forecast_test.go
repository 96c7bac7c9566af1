package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// A confidence is said as times where it is such a fraction.
func TestTimesOutOf(t *testing.T) {
	for confidence, want := range map[float64]string{
		.8: "four times out of five", .9: "nine times out of ten", .75: "three times out of four", .95: "19 times out of 20",
		2. / 3: "two times out of three", .99: "99% of the time", .5: "two times out of four",
	} {
		assert.Equal(t, want, words.TimesOutOf(report.Float(confidence)))
	}
}

// Another confidence, another span: the sentence, the titles and the notes follow.
func TestForecastWordsFollowTheAnswer(t *testing.T) {
	d := answers.Forecast{
		Sequence: "next", Flights: 6, Contests: 5, Days: 1095, Confidence: report.Float(.9), Unseen: []string{"6", "9.10", "spins"}, NeverFlown: []string{"6", "9.10"},
		Uncoded: []int{2, 7}, Figures: []answers.FigureForecast{{Number: 2}, {Number: 7, Wide: true}}, Percent: report.Float(65.12), Low: report.Float(60), High: report.Float(70),
		Lines: []answers.ForecastLine{{Line: "positioning", K: 20, Percent: report.Float(71), Flights: 1}, {Line: "harmony", K: 10}},
		Zeros: answers.ForecastZeros{Figures: 1, Of: 60, Chance: report.Float(.2), Partly: 2}, Penalties: answers.ForecastPenalties{Flights: 1, Of: 7, Points: report.Float(30)},
		LeftOut: []string{"2026-04-26/ines/unknown"}, Past: answers.Past{Inside: 1, Of: 1},
	}
	assert.Equal(t, "About 65% if nothing is zeroed; nine times out of ten between 60 and 70%.", words.ForecastSentence(d))
	assert.Equal(t, "90% from", words.RangeFrom(d.Confidence))
	assert.Equal(t, "from 6 contest flights of the last three years", words.ForecastSubtitle(d))
	assert.Equal(t, []string{
		"never flown: tailslides (family 6), negative flick rolls (family 9.10)",
		"not graded in a contest in the last three years: spins",
		"without codes: figures 2 and 7",
		"the range of figure 7 is wider because of that",
		"positioning, K 20, counts with 71.0%, as in the one flight that has it",
		"harmony was never graded in these flights, and counts as the figures do",
		"zeros not included: 1 of 60 figures was zeroed by the panel; at least one zeroed in about 20% of flights like these; included: 2 figures with a zero in a mean above 0, which the chance of a zero in `ready` counts too",
		"penalties not included: 1 of 7 flights had one, 30.0 points each on average",
		"not in the forecast: 2026-04-26/ines/unknown, since no figure of it has a code; zeros and penalties of it count",
		"past forecasts: 1 of 1 past flight inside the 90% range forecast from the flights before, 0 above it, 0 below it",
	}, words.ForecastNotes(d))
	d.Days = 400
	assert.Equal(t, "from 6 contest flights of the last 400 days", words.ForecastSubtitle(d))
	d.Days = 365
	assert.Equal(t, "from 6 contest flights of the last year", words.ForecastSubtitle(d))
}

// In a category never flown the first sentence says on whose grades the percent rests
// and what nobody has graded; the range of the level says what it is of.
func TestForecastOfCategoryNeverFlown(t *testing.T) {
	d := answers.Forecast{
		Category: "advanced", NewCategory: true, Days: 730, Percent: report.Float(69), Low: report.Float(66), High: report.Float(72), Confidence: report.Float(.8),
		Unseen: []string{"2-rolling"}, NotFlown: answers.NotFlown{Groups: []string{"9.10"}},
		Level: answers.Level{
			Category: "intermediate", Of: 15, Percent: report.Float(68), Low: report.Float(64), High: report.Float(71), Confidence: report.Float(.8),
			Next: &answers.Range{Low: report.Float(63), High: report.Float(73)},
		},
	}
	assert.Equal(t, []string{
		"By grades given at intermediate: about 69% if nothing is zeroed; but not known before the first flight there: no panel has graded the pilot at advanced, nor rolling turns in the last two years; " +
			"not in this aircraft: negative flick rolls. Four times out of five between 66 and 72%, if advanced is judged alike.",
		"Level now, of any sequence and with zeros and penalties: about 68%; four times out of five it lies between 64 and 71%, and the next flight between 63 and 73%.",
	}, words.ForecastSentences(d))
	d.Reach = &answers.Reach{Percent: report.Float(60), Mean: report.Float(5.94), Chance: report.Float(.99)}
	assert.Contains(t, words.ForecastSentence(d), "60% takes a mean grade of 5.94 in the figures; nobody can say yet how often that would be reached.")
	d.NewCategory, d.Reach = false, nil
	assert.Equal(t, "About 69% if nothing is zeroed; four times out of five between 66 and 72%.", words.ForecastSentence(d))
}

// What qualifies a forecast is said with the numbers of its reason.
func TestForecastQualified(t *testing.T) {
	d := answers.Forecast{
		Contests: 3, On: "2026-05-01", Stale: true, SteadyOnly: true, Same: true, Percent: report.Float(65), Confidence: report.Float(.8),
		Low: report.Float(62), High: report.Float(68),
		Level: answers.Level{AsOf: "2026-11-29", Category: "intermediate", Limits: answers.LevelLimits{HoldsLow: report.Float(.6), HoldsHigh: report.Float(.9)}},
	}
	assert.Equal(t, []string{
		"three contests cannot show a drift; the range holds 60 to 90% in simulation",
		"the same score each time",
	}, words.ForecastNotes(d)[:2])
	assert.Equal(t, "On 2026-05-01, the last flight with marks, about 65% if nothing was zeroed; four times out of five between 62 and 68%: too long ago to say for 2026-11-29.",
		words.ForecastSentence(d))
	d.NewCategory, d.Category = true, "advanced"
	assert.Equal(t, "By grades given at intermediate, on 2026-05-01, the last flight with marks: about 65% if nothing is zeroed; but not known before the first flight there: no panel has graded the pilot at advanced. "+
		"Four times out of five between 62 and 68%, if advanced is judged alike: too long ago to say for 2026-11-29.", words.ForecastSentence(d))
}

// Misses on one side are said in the first sentences, and so is a percent that was
// asked about.
func TestForecastLeansAndReaches(t *testing.T) {
	d := answers.Forecast{Percent: report.Float(65), Low: report.Float(60), High: report.Float(70), Confidence: report.Float(.8)}
	first := "About 65% if nothing is zeroed; four times out of five between 60 and 70%."
	d.Past = answers.Past{Inside: 6, Below: 3, Of: 9, Leaning: answers.Below}
	assert.Equal(t, first+" It is probably too high: of the last 9 flights, three came out below their range and none above.", words.ForecastSentence(d))
	d.Past = answers.Past{Inside: 6, Above: 4, Of: 10, Leaning: answers.Above}
	assert.Equal(t, first+" It is probably too low: of the last 10 flights, four came out above their range and none below.", words.ForecastSentence(d))
	d.Past = answers.Past{}
	d.Reach = &answers.Reach{Percent: report.Float(70), Mean: report.Float(7.046), Chance: report.Float(.1)}
	assert.Equal(t, first+" 70% or more: about 10% of flights like these if nothing is zeroed; it takes a mean grade of 7.05 in the figures.", words.ForecastSentence(d))
	d.Reach.Mean, d.Reach.Chance = report.Number{}, report.Float(0)
	assert.Equal(t, first+" 70%: out of reach, even with the best grades in the figures.", words.ForecastSentence(d))
}

// What is lacking is said with its own numbers.
func TestForecastLacks(t *testing.T) {
	for want, lack := range map[string]answers.Lack{
		"1 contest flight with graded figures and codes in the last two years; at least six are needed":                         {Reason: code.FewFlights, Flights: 1, Least: 6},
		"2 contest flights with graded figures and codes (5 more without codes) in the last two years; at least six are needed": {Reason: code.FewFlights, Flights: 2, Uncoded: 5, Least: 6},
		"the flights are of 2 contests; at least three are needed":                                                              {Reason: code.FewContests, Flights: 4, Contests: 2, Least: 3},
		"the grades flown do not allow a range":                                                                                 {Reason: code.NoRange},
	} {
		d := words.SayForecast(answers.Forecast{Days: 730, Lack: &lack})
		assert.Equal(t, want, d.Why)
		assert.Equal(t, "Cannot tell: "+want+".", words.ForecastSentence(d))
	}
}

// What the command says of itself names the days and the confidence of the
// analysis.
func TestForecastHelp(t *testing.T) {
	assert.Contains(t, words.ForecastHelp(), words.TimesOutOf(report.Float(answers.ForecastConfidence)))
	assert.Contains(t, words.ForecastHelp(), "cost in the contest flights of the last two years")
	assert.Equal(t, "a forecast rests on all contest flights of the two years up to today, and --asof sets another day", words.ForecastSpan())
}

// The chance of reaching a percent is of flights in which nothing is zeroed, and says so;
// beside it stands how many came to it as they were flown.
func TestForecastReachIsWithoutZeros(t *testing.T) {
	d := answers.Forecast{Percent: report.Float(74), Low: report.Float(70), High: report.Float(79), Confidence: report.Float(.8)}
	d.Reach = &answers.Reach{Percent: report.Float(70), Mean: report.Float(6.97), Chance: report.Float(.91), AsFlown: &answers.ReachFlown{Flights: 3, Of: 12}}
	said := func() string { return words.ForecastSentence(d) }
	assert.True(t, strings.HasSuffix(said(), "70% or more: about 91% of flights like these if nothing is zeroed; it takes a mean grade of 6.97 in the figures."), said())
	d.Zeros.Figures = 10
	assert.Contains(t, said(), "in the figures. With their zeros, 3 of the 12 flights behind it came to it.")
	d.Penalties.Flights, d.Reach.AsFlown.Flights = 1, 0
	assert.Contains(t, said(), "With their zeros and penalties, none of the 12 flights behind it came to it.")
	d.Reach.AsFlown.Of = 0
	assert.NotContains(t, said(), "behind it")
}

// What no grades come to is out of reach, and has no chance of one in a hundred;
// where there is no forecast there is no chance.
func TestForecastReach(t *testing.T) {
	d := answers.Forecast{Percent: report.Float(69.3), Low: report.Float(66), High: report.Float(72), Confidence: report.Float(.8)}
	d.Reach = &answers.Reach{Percent: report.Float(70), Mean: report.Float(7), Chance: report.Float(.39)}
	assert.Contains(t, words.ForecastSentence(d), "70% or more: about 39% of flights like these if nothing is zeroed; it takes a mean grade of 7.00 in the figures.")
	d.Reach = &answers.Reach{Percent: report.Float(100), Chance: report.Float(0)}
	assert.Contains(t, words.ForecastSentence(d), "100%: out of reach, even with the best grades in the figures.")
	assert.NotContains(t, words.ForecastSentence(d), "1% of flights")
	d = answers.Forecast{Why: "3 contest flights", Reach: &answers.Reach{Percent: report.Float(70)}}
	assert.Equal(t, "Cannot tell: 3 contest flights. Nor can a chance of reaching 70% be given.", words.ForecastSentence(d))
}
