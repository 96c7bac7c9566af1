package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
)

// Of a flight without marks and faults nothing is known, and nothing is said to be
// right.
func TestNothingToTalkOf(t *testing.T) {
	assert.Equal(t, "No mark and no fault of this flight is in the ledger: there is nothing to go by.", words.NothingToTalk(answers.Debrief{}))
	assert.Contains(t, words.NothingToTalk(answers.Debrief{Flight: answers.Flight{Marked: true}}), "No figure scored 0")
}

// Where nobody has reviewed a flight, nothing could come back.
func TestNothingComesBackUnreviewed(t *testing.T) {
	back := func(d answers.Home) string {
		for _, line := range words.HomeLines(d) {
			if line.Label == "Comes back" {
				return line.Text
			}
		}
		return ""
	}
	assert.Equal(t, "no flight reviewed in the last 730 days", back(answers.Home{Limits: answers.HomeLimits{Days: 730}}))
	assert.Equal(t, "nothing noted often enough to tell", back(answers.Home{Reviewed: 1}))
}
