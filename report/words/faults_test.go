package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// What a kind costs and who looks after it stand behind its counts.
func TestBackDespite(t *testing.T) {
	k := answers.FaultKind{Kind: "roll-stop", Says: "roll under- or over-rotated", Flights: 17, Exposed: 26, Seen: 17, Drill: "2025-05-20", Points: report.Float(442), PerFlight: report.Float(17)}
	assert.Equal(t, "Comes back most, its drill still open: roll under- or over-rotated, 17 of 26 flights since its drill of 2025-05-20, about 17 points per flight.", words.BackDespite(&k))
	assert.Empty(t, words.BackDespite(nil))
	k.Drill, k.DrillBeside = "", "9.1"
	assert.Equal(t, "Comes back most often without an open drill: roll under- or over-rotated, 17 of 26 flights, practice included, some of it in slow rolls, which have one.", words.BackWithout([]answers.FaultKind{k}))
	k.Points = report.Float(0)
	assert.Contains(t, words.BackDespite(&k), "17 of 26 flights, no drill on it but that on slow rolls, no points as noted.")
}
