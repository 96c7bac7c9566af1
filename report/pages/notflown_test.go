package pages

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// without is a book whose pilot does not fly some groups.
func without(book, groups string) string {
	return strings.Replace(book, "  name \"Ines Halloran\"\n", "  name \"Ines Halloran\"\n  not-flown "+groups+"\n", 1)
}

// A step that needs what the pilot does not fly is not met, with the reason; no
// gate asks for flying it.
func TestReadyNeverAsksForWhatIsNotFlown(t *testing.T) {
	book := without(familyHead+nextSequence+flownRows(sixRows...), `9.10 "engine mount"`)
	book = strings.ReplaceAll(book, "ines known\n", "ines known\n  ladder small\n") + "ladder small\n  category sportsman\n  category advanced new 2-rolling 9.10\n"
	text, d := readyPage(t, book, "advanced")
	families := d.Gates[gateAt(t, d.Gates, "new-families")]
	assert.Equal(t, code.NotMet, families.State)
	assert.Contains(t, families.Evidence, "negative flick rolls (family 9.10): not in this aircraft (engine mount)")
	require.Len(t, families.Numbers[code.NotFlown], 1)
	assert.Equal(t, "9.10", families.Numbers[code.NotFlown][0].Name)
	assert.Equal(t, "engine mount", families.Numbers[code.NotFlown][0].Text)
	forecast := d.Gates[gateAt(t, d.Gates, "forecast")]
	assert.NotEqual(t, code.Met, forecast.State)
	assert.Contains(t, forecast.Evidence, "negative flick rolls (family 9.10): not in this aircraft (engine mount)")
	for _, g := range d.Gates {
		assert.NotContains(t, g.Needs, "9.10", g.Gate)
	}
	assert.Contains(t, text, "not in this aircraft")

	// Everything else graded, the gate stays not met.
	flown := "coach marek\nsequence rolling\n  category advanced\n  1 2.2.3.1:22\n" +
		"flight 2026-10-03 ines practice\n  sequence rolling\n  panel marek\n  1 8\nflight 2026-10-04 ines practice\n  sequence rolling\n  panel marek\n  1 8\n"
	_, d = readyPage(t, book+flown, "advanced")
	families = d.Gates[gateAt(t, d.Gates, "new-families")]
	assert.Equal(t, code.NotMet, families.State)
	assert.Empty(t, families.Needs, "nothing that is flown would change it")
}

// gateAt is where a gate stands.
func gateAt(t testing.TB, gates []answers.Gate, name string) int {
	t.Helper()
	at := slices.IndexFunc(gates, func(g answers.Gate) bool { return g.Gate == name })
	require.GreaterOrEqual(t, at, 0, name)
	return at
}

// A forecast names what is not flown beside what was never flown.
func TestForecastNamesWhatIsNotFlown(t *testing.T) {
	text, d := forecastPage(t, without(familyHead+nextSequence+flownRows(sixRows...), `9.10 6 "engine mount"`), "next")
	assert.Equal(t, []string{"2-rolling"}, d.Unseen)
	assert.Equal(t, []string{"9.10"}, d.Groups, "6 is not in the sequence")
	assert.Equal(t, map[string]string{"9.10": "engine mount"}, d.Reasons)
	assert.Contains(t, text, "never flown: rolling turns - ")
	assert.Contains(t, text, "negative flick rolls (family 9.10): not in this aircraft (engine mount); the forecast counts its figures as if they were flown - the ranges of figures 2 and 3 are wider because of that")
	assert.Contains(t, text, "; not in this aircraft: negative flick rolls. Four times out of five")
}

// A plan leaves out what is not flown, and says so, also where nothing is left.
func TestPlanLeavesOutWhatIsNotFlown(t *testing.T) {
	book := familyHead + flownRows(sixRows...)
	_, all := planPage(t, book)
	first := all.Items[0].Group
	text, d := planPage(t, without(book, first+` "not this year"`))
	for _, item := range d.Items {
		assert.NotEqual(t, first, item.Group)
	}
	assert.Equal(t, []string{first}, d.Groups)
	assert.Contains(t, text, "not planned: ")
	assert.Contains(t, text, "not in this aircraft (not this year)")

	text, d = planPage(t, without(book, "1 2 5 7 9.1 spins"))
	assert.Empty(t, d.Items)
	assert.Contains(t, text, "not planned: loops, part loops and eights (family 7): not in this aircraft")
}
