package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
)

// TestAnEndedDrillSaysSo holds that no page gives an ended drill as one in force.
func TestAnEndedDrillSaysSo(t *testing.T) {
	kind := answers.FaultKind{Kind: "radius", Flights: 2, Exposed: 4, Count: 2, Drill: "2026-05-23", DrillText: "four loops a leg"}
	assert.Contains(t, words.RecurringKind(kind), "radius: 2 of 4 flights since its drill of 2026-05-23; \"four loops a leg\"")
	kind.DrillEnded = "2026-11-07"
	assert.Contains(t, words.RecurringKind(kind), "since its drill of 2026-05-23, ended 2026-11-07; \"four loops a leg\"")

	item := answers.PlanItem{Drill: "radius", Since: "2026-05-23", Ended: "2026-11-07"}
	assert.Equal(t, "radius, since 2026-05-23, ended 2026-11-07", words.DrillWords(item))
}
