package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

var trendLimits = answers.TrendLimits{Flights: 5, Change: report.Float(3), GapDays: 150}

// Sentences whose trend no small ledger makes easily.
func TestTrendSentenceParts(t *testing.T) {
	limits := trendLimits
	known := func(word answers.TrendWord, low, high, p float64) answers.Trend {
		return answers.Trend{
			N: 8, S: 4, P: report.Float(p), Season: report.Float((low + high) / 2), Low: report.Float(low), High: report.Float(high),
			Confidence: report.Float(0.999), Word: word, Contests: &answers.ContestTrend{N: 8, S: 4, P: report.Float(p / 2)},
		}
	}
	assert.Equal(t, "Cannot tell: -2 to +9 percentage points by the trend of these flights (99% confidence); flat and improving both fit.", words.TrendSentence(known(answers.CannotTell, -2, 9, .3), limits))
	assert.Equal(t, "Cannot tell: -9 to +2 percentage points by the trend of these flights (99% confidence); flat and declining both fit.", words.TrendSentence(known(answers.CannotTell, -9, 2, .3), limits))
	assert.Equal(t, "Cannot tell: +17 to +25 percentage points by the trend of these flights (99% confidence), but chance alone gives as much in about one season in five.",
		words.TrendSentence(known(answers.CannotTell, 17, 25, .275), limits), "its range leaves no flat season open")
	assert.Equal(t, "Cannot tell: -2 to +2 percentage points by the trend of these flights (99% confidence).", words.TrendSentence(known(answers.CannotTell, -2, 2, .3), limits))
	assert.Equal(t, "May be declining: -4 percentage points by the trend of these flights (-9 to +1 at 99% confidence), but chance alone gives as much in about one season in seven.", words.TrendSentence(known(answers.MayDecline, -9, 1, .14), limits))
	// A chance far below one in a thousand is not spelt out.
	assert.Contains(t, words.TrendSentence(known(answers.Improving, 4, 9, 1e-98), limits), "Chance alone gives as much in less than one season in 100.")
	assert.Contains(t, words.TrendSentence(known(answers.Improving, 4, 9, .012), limits), "in about one season in 100.")
	shown := known(answers.CannotTell, -9, 9, .3)
	shown.Detectable = report.Float(11.6)
	assert.Contains(t, words.TrendSentence(shown, limits), "all fit. Flights like these would have shown a change of about 12 percentage points.")
	shown.Detectable = report.Float(40)
	assert.Contains(t, words.TrendSentence(shown, limits), "all fit. Flights like these show no likely change: only one of about 40 percentage points would have stood out.")
	shown.Detectable = report.Float(78)
	assert.Contains(t, words.TrendSentence(shown, limits), "all fit. Flights like these could not have shown any likely change.")
	assert.Equal(t, "Cannot tell: all flights were on one day.", words.TrendSentence(answers.Trend{N: 5, Word: answers.CannotTell, Reason: answers.TrendOneDay, P: report.Float(1)}, limits))
	few := answers.Trend{N: 6, P: report.Float(.25), Word: answers.TooFew, Reason: answers.TrendFewAlike, Contests: &answers.ContestTrend{N: 6, P: report.Float(.7)}}
	assert.Equal(t, "6 flights that can be compared: no trend can be judged, too few of them are of one sequence.", words.TrendSentence(few, limits),
		"six there are")
}

// A range that leaves 0 out stands beside a chance that does not rule a steady form out:
// the sentence says which test each is of. What was cut to what was observed is said.
func TestTrendSaysWhatItsRangeIs(t *testing.T) {
	d := answers.Trend{
		N: 8, S: 16, P: report.Float(.06), Season: report.Float(5), Low: report.Float(1), High: report.Float(7), Confidence: report.Float(.92),
		Word: answers.MayImprove, Contests: &answers.ContestTrend{N: 5, S: 6, P: report.Float(.14)},
	}
	assert.Equal(t, "May be improving: +5 percentage points by the trend of these flights (+1 to +7 at 92% confidence); that is each flight by itself, but flights of one contest share judges and weather, "+
		"and by contest means chance alone gives as much in about one season in seven.", words.TrendSentence(d, trendLimits))
	cannot := d
	cannot.Word, cannot.Low, cannot.Contests = answers.CannotTell, report.Float(4), &answers.ContestTrend{N: 5, S: 6, P: report.Float(.24)}
	assert.Equal(t, "Cannot tell: +4 to +7 percentage points by the trend of these flights (92% confidence); that is each flight by itself, but flights of one contest share judges and weather, "+
		"and by contest means chance alone gives as much in about one season in five.", words.TrendSentence(cannot, trendLimits))
	d.Contests.P = report.Float(.05)
	assert.Contains(t, words.TrendSentence(d, trendLimits), "(+1 to +7 at 92% confidence), but chance alone", "both are of the flights")
	d.HighCut = true
	assert.Contains(t, words.TrendSentence(d, trendLimits), "(+1 to +7 at 92% confidence, +7 cut to what was observed), but chance")
	d.SeasonCut = true
	assert.Contains(t, words.TrendSentence(d, trendLimits), ", the change and +7 cut to what was observed)")
	d.SeasonCut, d.LowCut, d.Word = false, true, answers.Improving
	assert.Contains(t, words.TrendSentence(d, trendLimits), ", both ends cut to what was observed). Chance alone")
	d.HighCut, d.Word = false, answers.CannotTell
	assert.Contains(t, words.TrendSentence(d, trendLimits), "(92% confidence, +1 cut to what was observed)")
}

// Too few flights are said as they were flown, and what lacks is named.
func TestTooFewForATrend(t *testing.T) {
	three := answers.Trend{N: 3, Word: answers.TooFew, Reason: answers.TrendFewFlights, First: report.Float(61.25), Last: report.Float(64), Contests: &answers.ContestTrend{N: 3}}
	assert.Equal(t, "3 flights that can be compared: no trend can be judged with fewer than five.", words.TrendSentence(three, trendLimits))
	four := three
	four.N, four.Contests = 4, &answers.ContestTrend{N: 4}
	assert.Equal(t, "4 flights that can be compared: no trend can be judged with fewer than five (first 61.25%, last 64.00%, as flown).", words.TrendSentence(four, trendLimits))
	four.Sequences, four.EndsApart = 2, true
	assert.Equal(t, "4 flights that can be compared, each only with those of its sequence: no trend can be judged with fewer than five.", words.TrendSentence(four, trendLimits),
		"a first of one sequence and a last of another are no pair")
	none := answers.Trend{Word: answers.TooFew, Reason: answers.TrendFewFlights, First: report.Float(61.25), Last: report.Float(64), Contests: &answers.ContestTrend{}}
	assert.Equal(t, "No two flights can be compared: no trend can be judged.", words.TrendSentence(none, trendLimits))
	alike := answers.Trend{N: 8, Word: answers.TooFew, Reason: answers.TrendFewContests, First: report.Float(61.25), Last: report.Float(64), Contests: &answers.ContestTrend{N: 3}}
	assert.Equal(t, "8 flights that can be compared in 3 contests: no trend can be judged with fewer than five contests (first 61.25%, last 64.00%, as flown).", words.TrendSentence(alike, trendLimits))
}

// Natural frequencies are round: nearest of a few.
func TestOneSeasonIn(t *testing.T) {
	for p, want := range map[float64]string{
		.2: "about one season in five", .19: "about one season in five", .15: "about one season in seven", .11: "about one season in ten",
		.05: "about one season in 20", .03: "about one season in 20", .021: "about one season in 50", .011: "about one season in 100", .0099: "less than one season in 100",
	} {
		assert.Equal(t, want, words.OneSeasonIn(p), p)
	}
}

// A sentence names the limits of its answer, and no other.
func TestTrendSentencesFollowTheLimits(t *testing.T) {
	limits := answers.TrendLimits{Flights: 7, Change: report.Float(4), GapDays: 90}
	few := answers.Trend{N: 6, Word: answers.TooFew, Reason: answers.TrendFewFlights}
	assert.Equal(t, "6 flights that can be compared: no trend can be judged with fewer than seven.", words.TrendSentence(few, limits))
	flat := answers.Trend{
		N: 9, Word: answers.Flat, Season: report.Float(1), Low: report.Float(-3.5), High: report.Float(3.5), Confidence: report.Float(.9),
		LongestGap: report.Float(91),
	}
	assert.Contains(t, words.TrendSentence(flat, limits), "within 4 either way")
	assert.True(t, words.LongGap(flat, limits))
	assert.False(t, words.LongGap(flat, trendLimits))
	flat.Word = answers.CannotTell
	assert.NotContains(t, words.TrendSentence(flat, limits), "fit")
	assert.Contains(t, words.TrendSentence(flat, trendLimits), "improving, flat and declining all fit")
}

// What holds of several categories is said once; the latest category's trend stays
// the last, which is the one that a booklet begins with.
func TestTrendSentencesOfSeveralCategories(t *testing.T) {
	trend := func(category string, n int) answers.CategoryTrend {
		return answers.CategoryTrend{Category: category, Trend: answers.Trend{N: n, Word: answers.TooFew, Reason: answers.TrendFewFlights}}
	}
	d := answers.Season{Trends: []answers.CategoryTrend{trend("sportsman", 2), trend("intermediate", 3), trend("advanced", 2)}}
	d.Limits.TrendLimits = trendLimits
	assert.Equal(t, []string{
		"intermediate: 3 flights that can be compared: no trend can be judged with fewer than five.",
		"sportsman and advanced: 2 flights that can be compared: no trend can be judged with fewer than five.",
	}, words.TrendSentences(d))
	d.Trends = d.Trends[:1]
	assert.Equal(t, []string{"2 flights that can be compared: no trend can be judged with fewer than five."}, words.TrendSentences(d))
}

// A confidence is whole percent, never rounded up, never 100.
func TestConfidence(t *testing.T) {
	for value, want := range map[float64]string{1: "99%", 0.9999: "99%", 0.9167: "91%", 0.9: "90%", 0.29: "29%", 2.0 / 3: "66%"} {
		assert.Equal(t, want, words.Confidence(report.Float(value)))
	}
}

func TestChanceWords(t *testing.T) {
	for p, want := range map[float64]string{1: "about once in one", 0.05: "about once in 20", 0.001: "about once in 1000", 0.0009: "less than once in 1000", 1e-300: "less than once in 1000"} {
		assert.Equal(t, want, words.ChanceWords(p, "once"))
	}
}

// Beneath the numbers of a trend the verdict is a sentence.
func TestTrendSaid(t *testing.T) {
	for word, want := range map[answers.TrendWord]string{
		answers.TooFew: "There are too few flights to tell.", answers.CannotTell: "These flights cannot tell whether form moves.", answers.Flat: "Form is flat.",
		answers.Improving: "Form is improving.", answers.Declining: "Form is declining.", answers.MayImprove: "Form may be improving.", answers.MayDecline: "Form may be declining.",
	} {
		assert.Equal(t, want, words.TrendSaid(answers.Trend{Word: word}))
	}
	assert.Equal(t, "There are too few contests to tell.", words.TrendSaid(answers.Trend{Word: answers.TooFew, Reason: answers.TrendFewContests}))
}

// A season with too few contests has the trend of several seasons, from the first flight
// that was looked at and not from the first day of the span, with the days, the gap, the chance in spans and the command; so have the cells of home and pilots.
func TestLongerTrend(t *testing.T) {
	long := &answers.LongTrend{Category: "sportsman", Since: "2024-01-01", First: "2024-05-11", Seasons: 3, Trend: answers.Trend{
		Word: answers.MayImprove, N: 20, Season: report.Float(13), Low: report.Float(1), High: report.Float(23), Confidence: report.Float(.91), P: report.Float(.14),
		Contests: &answers.ContestTrend{N: 10, P: report.Float(.1)}, LongestGap: report.Float(244),
	}}
	d := answers.Season{Pilot: "bruno", Longer: long}
	d.Limits.GapDays = 150
	assert.Equal(t, "Since 2024-05-11, over 10 contests at sportsman, with a gap of 244 days: may be improving, "+
		"+13 percentage points by the trend of these flights (+1 to +23 at 91% confidence), but chance alone gives as much in about one span like this in seven: "+
		"boxbook season bruno --since 2024-01-01", words.LongerSentence(d))
	long.Until = "2025-12-31"
	assert.Contains(t, words.LongerSentence(d), "Since 2024-05-11 until 2025-12-31,")
	assert.Equal(t, "may be improving since 2024-05-11 (chance alone: one span like this in seven)", words.PilotForm(answers.PilotLine{Word: answers.TooFew, Longer: long}))
	assert.Empty(t, words.LongerSentence(answers.Season{}))
	assert.Equal(t, "too few contests to tell", words.SayPilots(answers.Pilots{Pilots: []answers.PilotLine{{Word: answers.TooFew, WordReason: answers.TrendFewContests}}}).Pilots[0].Form)
}

// A chance is of seasons where the flights are of one, of spans where they are of days.
func TestChanceOfASpan(t *testing.T) {
	d := answers.Trend{Word: answers.MayImprove, N: 20, Season: report.Float(13), Low: report.Float(1), High: report.Float(23), Confidence: report.Float(.91), P: report.Float(.14)}
	assert.Contains(t, words.TrendSentence(d, answers.TrendLimits{}), "in about one season in seven.")
	assert.Contains(t, words.TrendSentence(d, answers.TrendLimits{Span: true}), "in about one span like this in seven.")
}

func TestTestTextOfATinyChance(t *testing.T) {
	assert.Equal(t, "30 flights, S 300, p < 0.001", words.TestText("30 flights", 300, report.Float(1e-7)))
}
