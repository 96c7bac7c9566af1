package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

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
