package words_test

import (
	"strings"
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

// TestADrillWithoutAFlightSinceSaysSo holds that no page gives flights before a drill as
// those since it.
func TestADrillWithoutAFlightSinceSaysSo(t *testing.T) {
	kind := answers.FaultKind{Kind: "radius", Flights: 3, Exposed: 4, Count: 3, Drill: "2026-05-23", BeforeDrill: true}
	const said = "3 of 4 flights before its drill of 2026-05-23 (none left out; no reviewed flight since could show it yet)"
	faults := answers.Faults{Reviewed: 4, Recurring: []answers.FaultKind{kind}}
	home := answers.Home{Recurring: faults.Recurring}
	debrief := answers.Debrief{Recurring: faults.Recurring}
	ended := kind
	ended.DrillEnded = "2026-05-24"
	for page, text := range map[string]string{
		"faults": words.FaultsSentences(faults)[0], "faults --all": words.RecurringKind(kind), "plan, open": words.BackDespite(&kind),
		"home": homeText(home), "debrief": words.BackSentence(debrief),
	} {
		assert.Contains(t, text, said, page)
	}
	for page, text := range map[string]string{"plan, drills": words.BackWithout([]answers.FaultKind{ended}), "plan --all": words.WithoutWords(ended)} {
		assert.Contains(t, text, "before its drill of 2026-05-23, ended 2026-05-24 (none left out; no reviewed flight since could show it yet)", page)
	}
	item := answers.PlanItem{Fault: "radius", SeenInFamily: 3, ExposedInFamily: 4, BeforeDrill: true}
	assert.Equal(t, "radius, 3 of 4 flights before its drill", words.PlanFault(item))
	assert.Contains(t, strings.Join(words.PlanBrief(answers.Plan{Items: []answers.PlanItem{item}}), "\n"), "before its drill: too few reviewed flights since could show it")
	assert.Contains(t, words.FaultWords(item), "before its drill (too few reviewed flights since could show it, of the sort (contest or practice) in which it was noted)")
	line := answers.PilotLine{Pilot: "ines", Recurring: "radius", Seen: 3, Exposed: 4, Reviewed: 4, BeforeDrill: true}
	assert.Equal(t, "radius, 3 of 4 before its drill", words.PilotBack(line, answers.PilotsLimits{}))
	assert.Contains(t, strings.Join(words.PilotsNotes(answers.Pilots{Pilots: []answers.PilotLine{line}}), "\n"), "before its drill: too few reviewed flights since could show it")
	assert.Equal(t, "before its drill: all flights; `boxbook drills` leaves out those for which it was set, and counts fewer", words.BeforeDrillExplained(faults))
	assert.Empty(t, words.BeforeDrillExplained(answers.Faults{Recurring: []answers.FaultKind{{Kind: "radius", Drill: "2026-05-23"}}}))
	kind.SeenSince, kind.ExposedSince = 0, 1
	assert.Contains(t, words.RecurringKind(kind), "3 of 4 flights before its drill of 2026-05-23 (none left out; in 0 of 1 flight since, too few to go by)")
}

func homeText(d answers.Home) string {
	var said []string
	for _, line := range words.HomeLines(d) {
		said = append(said, line.Text)
	}
	return strings.Join(said, "\n")
}
