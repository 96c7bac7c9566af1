package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
)

// The most lines of a flight's page and of its debrief, at 80 columns. Six figures
// with eight faults take a line more.
const (
	flightLines  = 60
	debriefLines = 45
)

// TestFlightPagesFit holds the pages of every flight of the demo to their lines,
// and that they begin with three sentences at the most.
func TestFlightPagesFit(t *testing.T) {
	const path = "../../../../data/demo/longmere.boxbook"
	today, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NotEmpty(t, result.Ledger.Flights)
	for _, f := range result.Ledger.Flights {
		page := screenOf(t, 80, "flight", f.Name, "-f", path)
		assert.LessOrEqual(t, strings.Count(page, "\n"), flightLines, "flight %s:\n%s", f.Name, page)
		whole := screenOf(t, 80, "flight", f.Name, "--all", "-f", path)
		assert.GreaterOrEqual(t, strings.Count(whole, "\n"), strings.Count(page, "\n"), f.Name)
		if f.Void != nil {
			assert.Contains(t, strings.SplitN(page, "\n2", 2)[0], "void", "a void flight says so in its title")
		}
		debrief := screenOf(t, 80, "debrief", f.Name, "-f", path)
		assert.LessOrEqual(t, strings.Count(debrief, "\n"), debriefLines+max(0, len(f.Faults)-7), "debrief %s:\n%s", f.Name, debrief)
		answer := strings.Split(page, "\n\n")[1]
		assert.LessOrEqual(t, strings.Count(answer, ".\n")+1, 3, answer)
	}
}
