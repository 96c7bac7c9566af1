package words_test

import (
	"testing"

	"boxbook/report/answers"
	"boxbook/report/words"

	"github.com/stretchr/testify/assert"
)

// TestBackSentenceSaysOfWhat: a count of what comes back is of the flights of one sort where
// it was noted in that alone, else of as many as the first.
func TestBackSentenceSaysOfWhat(t *testing.T) {
	d := answers.Debrief{Recurring: []answers.FaultKind{
		{Kind: "line-angle", Flights: 12, Exposed: 15},
		{Kind: "radius", Flights: 5, Exposed: 15},
		{Kind: "bank", Flights: 3, Exposed: 15, Contests: &answers.FaultContests{Flights: 3, Exposed: 9}, Alone: answers.ContestsAlone},
	}, Drills: []string{"spin-stop"}}
	said := words.BackSentence(d)
	assert.Contains(t, said, ", 12 of 15 flights; ")
	assert.Contains(t, said, ", 5; ")
	assert.Contains(t, said, ", 3 of 9 contest flights; ")
}
