package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A drill that was ended says so, from its day on; one without the line is open.
func TestDrillsThatAreEnded(t *testing.T) {
	book := familyHead + watchedFlights("2025-01-03", "r.r.r.r.r.") + watchedFlights("2025-07-04", "........") +
		"drill 2025-06-20 ines radius\n  ended 2026-09-12 \"loops round\"\n" +
		"drill 2025-06-21 ines pitch\n  ended 2026-12-24 \"to come\"\ndrill 2025-06-22 ines heading\n"
	text, d := drillsPage(t, book)
	assert.Contains(t, text, "Fault \"radius changed\" (drill of 2025-06-20, ended 2026-09-12): ")
	assert.Contains(t, text, `ended 2026-09-12: "loops round"`)
	assert.Equal(t, []string{"2026-09-12", "", ""}, []string{d.Drills[0].Ended, d.Drills[1].Ended, d.Drills[2].Ended}, "the second ends after the day that stands for today")
	assert.Equal(t, "loops round", d.Drills[0].EndedRemark)
	assert.NotContains(t, text, "to come")
}

// A matter that stands open is the first thing on a plan; what closes it is a
// line of its day or later, never a sign-off.
func TestPlanShowsOpenMattersFirst(t *testing.T) {
	book := familyHead + flownRows(sixRows...) + "review 2026-03-18/ines/known\n  fault - loose-article \"canopy catch\"\n"
	text, d := planPage(t, book+"coach marek\nsignoff 2026-05-01 ines intermediate by marek\n")
	assert.Len(t, d.Open, 1)
	assert.Regexp(t, `Open, before anything else.*canopy catch.*stands out on known-26`, text)

	text, d = planPage(t, book+"closed 2026-05-01 ines loose-article \"new catch\"\n")
	assert.Empty(t, d.Open)
	assert.NotContains(t, text, "canopy catch")
}
