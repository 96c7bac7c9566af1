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
	assert.Equal(t, "Comes back most often with its drill still open: roll under- or over-rotated, 17 of 26 flights since its drill of 2025-05-20, about 17 points per flight.", words.BackDespite(&k))
	assert.Empty(t, words.BackDespite(nil))
	k.DrillWord = answers.Worked
	assert.NotContains(t, words.BackDespite(&k), "helped")
	k.DrillAgain = 6
	assert.Contains(t, words.BackDespite(&k), "17 points per flight; it fell, but is there again, in each of the last 6 flights.")
	again := answers.Home{Recurring: []answers.FaultKind{{Kind: "radius", Flights: 9, Exposed: 12}}, Drills: []string{"roll-stop"}, Drilled: &k}
	assert.Contains(t, homeText(again), "open drill: roll-stop (again in each of the last 6 flights)")
	k.DrillWord, k.DrillAgain = "cannot tell", 0
	assert.Contains(t, words.BackDespite(&k), "17 points per flight; the drill is not told to have helped.")
	home := answers.Home{Recurring: []answers.FaultKind{{Kind: "radius", Flights: 9, Exposed: 12}}, Drills: []string{"roll-stop"}, Drilled: &k}
	assert.Contains(t, homeText(home), "radius, 9 of 12 flights, practice too; open drill: roll-stop (still 17 of 26)")
	home.Drills = []string{"9.1", "roll-stop"}
	assert.Contains(t, homeText(home), "drills: slow rolls, roll-stop (still 17 of 26)")
	home.Drills = []string{"9.1"}
	assert.Contains(t, homeText(home), "open drill: slow rolls (roll-stop still 17 of 26)")
	home.Recurring[0] = k
	assert.NotContains(t, homeText(home), "still")
	k.Drill, k.DrillBeside, k.DrillWord = "", "9.1", ""
	assert.Equal(t, "Comes back most often without an open drill: roll under- or over-rotated, 17 of 26 flights, practice included, some of it in slow rolls, which have one.", words.BackWithout([]answers.FaultKind{k}))
	k.Points = report.Float(0)
	assert.Contains(t, words.BackDespite(&k), "17 of 26 flights, no drill on it but that on slow rolls, no points as noted.")
}

// What was found: home said the count of what comes back most, and not that it fell and is
// there again.
func TestHomeSaysWhatIsThereAgain(t *testing.T) {
	k := answers.FaultKind{Kind: "line-angle", Says: "line at the wrong angle", Flights: 12, Exposed: 36, Drill: "2026-05-20", DrillWord: answers.MayHaveWorked, DrillAgain: 12}
	home := answers.Home{Recurring: []answers.FaultKind{k}, Drills: []string{"line-angle"}, Drilled: &k}
	assert.Contains(t, homeText(home), "open drill: line-angle (again in each of the last 12 flights)")
	home.Drills = []string{"1"}
	assert.NotContains(t, homeText(home), "again", "a drill on a family is named by that")
}

// What comes back without a drill is said so before the drills on others are named: those
// read as if they were on it.
func TestHomeSaysWhatHasNoDrillBeforeOtherDrills(t *testing.T) {
	k := answers.FaultKind{Kind: "radius", Says: "radius changed", Flights: 9, Exposed: 12}
	home := answers.Home{Recurring: []answers.FaultKind{k}, Without: []answers.FaultKind{k}, Drills: []string{"spins", "line-angle"}}
	assert.Contains(t, homeText(home), "practice too; no open drill for this; open: spins, line-angle")
	home.Without = append(home.Without, answers.FaultKind{Kind: "heading"})
	home.Drills = home.Drills[1:]
	assert.Contains(t, homeText(home), "practice too; no open drill for this or 1 other; open: line-angle")
}
