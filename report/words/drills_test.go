package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// What a drill's sentence needs more of comes with the answer.
func TestDrillSentencesFollowTheLimits(t *testing.T) {
	limits := answers.DrillLimits{Flights: 4, LeftOut: 6}
	d := answers.Drill{Target: "radius", Date: "2026-02-20", Word: answers.DrillTooFew, Reason: answers.DrillFewFlights}
	assert.Contains(t, words.DrillSentence(d, limits), "; at least 4 flights looked at are needed on each side.")
	d.Target = "7"
	assert.Contains(t, words.DrillSentence(d, limits), "; at least four of each are needed.")
	d.Apart = 2
	assert.Contains(t, words.DrillSentence(d, limits), "; at least four of each are needed, on sequences flown on both sides.")
}

// The reason decides what stands behind the verdict.
func TestDrillReasons(t *testing.T) {
	for reason, want := range map[answers.DrillReason]string{
		answers.DrillFewCounts:  "no counts from so few flights could tell",
		answers.DrillOthersFell: "the other faults got rarer as well, so that the drill has not been shown to matter",
		answers.DrillByChance:   "a drill that did nothing gives this easily",
		"":                      "chance alone gives this about once in 25",
	} {
		d := answers.Drill{Target: "radius", Date: "2026-02-20", Word: answers.Worked, Reason: reason, P: report.Float(.04)}
		assert.Contains(t, words.DrillSentence(d, answers.DrillLimits{Flights: 3}), "; "+want+".")
	}
}
