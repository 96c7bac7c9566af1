package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// A level of another category than the flights above it says so.
func TestLevelOfAnotherCategory(t *testing.T) {
	d := answers.Season{
		Entered: 4, Mean: report.Float(68), Categories: []string{"intermediate"},
		Level: answers.Level{Of: 1, Contests: 1, Category: "advanced", Limits: answers.LevelLimits{Days: 730, Flights: 4, Contests: 3}},
	}
	const of = "That level is at advanced, the highest category flown in the last two years, and not of the flights here."
	said := words.SeasonSentences(d)
	assert.Contains(t, said[len(said)-1], of)
	assert.Equal(t, of, words.SeasonLevel(d)[1])
	d.Categories = append(d.Categories, "advanced")
	said = words.SeasonSentences(d)
	assert.NotContains(t, said[len(said)-1], of)
	assert.Len(t, words.SeasonLevel(d), 1)
}

// What a move needs on each side comes with the answer.
func TestMoveSentence(t *testing.T) {
	limits := answers.SeasonLimits{MoveContests: 3}
	move := answers.Move{From: "sportsman", To: "", Before: 2, After: 1, Reason: answers.MoveFewContests}
	assert.Equal(t, "From sportsman to without a category: too few contests to tell what the move cost (2 before, 1 after; at least three of each).",
		words.MoveSentence(move, limits))
	move = answers.Move{
		From: "sportsman", To: "intermediate", Before: 3, After: 3,
		Change: report.Float(-9), Low: report.Float(-11), High: report.Float(-7), Confidence: report.Float(.8),
	}
	assert.Equal(t, "From sportsman to intermediate: -9 percentage points between contest means (-11 to -7 at 80% confidence; 3 contests before, 3 after).",
		words.MoveSentence(move, limits))
}

// A practice flight without a grade waits for no ruling: its percent counts
// nowhere, its faults do.
func TestUndecidedPracticeAsksForNoRuling(t *testing.T) {
	assert.NotContains(t, words.UndecidedFlight(answers.SeasonLine{Programme: "practice"}), "until a ruling")
	assert.Contains(t, words.UndecidedFlight(answers.SeasonLine{Programme: "known"}), "until a ruling")
}

// A programme that was flown on several sequences is said to be, by category where there
// are several; practice, unknowns and what does not count are not.
func TestSequencesFlown(t *testing.T) {
	line := func(category, programme, sequence string, enters bool) answers.SeasonLine {
		return answers.SeasonLine{Category: category, Programme: programme, Sequence: sequence, Enters: enters}
	}
	flights := []answers.SeasonLine{
		line("sportsman", "known", "old", true), line("sportsman", "practice", "new", false), line("sportsman", "known", "new", true),
		line("sportsman", "unknown", "u1", true), line("sportsman", "unknown", "u2", true), line("sportsman", "known", "old", true),
		line("sportsman", "free", "mine", true), line("sportsman", "free", "", true), line("sportsman", "free", "other", false),
	}
	assert.Equal(t, "more than one sequence: known of old (2 flights) and new (1 flight)", words.SequencesFlown(flights))
	flights = append(flights, line("intermediate", "known", "next", true))
	assert.Equal(t, "more than one sequence: known at sportsman of old (2 flights) and new (1 flight)", words.SequencesFlown(flights))
	assert.Empty(t, words.SequencesFlown(flights[1:5]))
	assert.Empty(t, words.SequencesFlown(flights[6:]))
}

// Beside the season before stands the change on the sequences of both, with what chance
// may give; of few contests nothing more than before.
func TestChangeBesideSeason(t *testing.T) {
	d := answers.Season{Entered: 8, Mean: report.Float(77), Beside: &answers.Season{Season: 2025, Mean: report.Float(70)}, Change: &answers.SeasonChange{Before: 3, After: 2}}
	assert.Contains(t, words.SeasonSentences(d)[0], "; 2025: 70.00% (sequences, panels may vary).", "too few contests for a range")
	d.Change = &answers.SeasonChange{Before: 4, After: 4, Change: report.Float(7.2), Low: report.Float(2.1), High: report.Float(11.8), Confidence: report.Float(.914), Beyond: true}
	assert.Contains(t, words.SeasonSentences(d)[0], " between contest means (+2 to +12 at 91% confidence), more than chance gives.")
	d.Change.Beyond = false
	assert.Contains(t, words.SeasonSentences(d)[0], ", which chance alone may give.")
}

// Contests so few that no change could be beyond chance blame chance for nothing, and the
// trend that looks at more beside them is no contradiction.
func TestChangeThatCouldNotBeTold(t *testing.T) {
	d := answers.Season{Season: 2026, Entered: 6, Mean: report.Float(81), Beside: &answers.Season{Season: 2025, Mean: report.Float(51)}, Change: &answers.SeasonChange{
		Before: 3, After: 4, Change: report.Float(30), Low: report.Float(28), High: report.Float(32), Confidence: report.Float(.9), Reason: answers.ChangeFewContests,
	}}
	const told = "(+28 to +32 at 90% confidence): cannot tell, since with 4 contests against 3 no difference, however large, could be told from chance by this comparison"
	assert.Contains(t, words.SeasonSentences(d)[0], told+".")
	d.Longer = &answers.LongTrend{Since: "2024-01-01", First: "2024-04-13", Seasons: 3, Trend: answers.Trend{Word: answers.Improving, Contests: &answers.ContestTrend{N: 9}}}
	const more = "; the trend since 2024-04-13 goes by the order of 9 contests and tells more."
	assert.Contains(t, words.SeasonSentences(d)[0], told+more)
	d.Change.Reason = ""
	assert.Contains(t, words.SeasonSentences(d)[0], ", which chance alone may give"+more)
	d.Change.Beyond = true
	assert.Contains(t, words.SeasonSentences(d)[0], ", more than chance gives.")
	d.Change.Beyond, d.Beside.Season = false, 2020
	assert.Contains(t, words.SeasonSentences(d)[0], ", which chance alone may give.", "the trend does not reach so far back")
	d.Beside.Season, d.Longer.Trend.Word = 2025, answers.CannotTell
	assert.Contains(t, words.SeasonSentences(d)[0], ", which chance alone may give.")
}

// What was found: of flights with a printed total alone the page said that none was zeroed.
func TestNoZerosAreSaidOfFlightsWithoutMarks(t *testing.T) {
	bare := answers.SeasonLine{Enters: true, Bare: true}
	assert.Empty(t, words.ZerosAndPenalties([]answers.SeasonLine{bare, bare}, false))
	assert.Equal(t, "no figure was zeroed in these contest flights, and no penalty is typed", words.ZerosAndPenalties([]answers.SeasonLine{bare, {Enters: true}}, false))
}
