package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestHomeSaysWhatTheFlightSays holds home and season to what the flight's page says of an
// official total: out of another maximum, and of an undecided flight.
func TestHomeSaysWhatTheFlightSays(t *testing.T) {
	on := func(official, rows string) (home, season, flight string) {
		text := strings.NewReplacer("180.00", official, "  1         7.0 7.5\n", rows).Replace(doubted)
		_, path := ledgerIn(t, text)
		page := func(args ...string) string {
			return strings.Join(strings.Fields(screenOf(t, 140, append(args, "-f", path, "--asof", "2026-10-01")...)), " ")
		}
		return page("mara"), page("season", "mara"), page("flight", "mara")
	}
	const right = "  1         7.0 7.5\n"
	home, season, flight := on("178.75 of 290", right)
	const differ = "printed maximum is 290, that of the sequence 270, and the percents differ"
	assert.Contains(t, flight, "The "+differ)
	assert.Contains(t, home, "; the "+differ+" ")
	assert.Contains(t, home, "Next boxbook flight 2026-05-09/mara/known")
	assert.Contains(t, season, "2026-05-09/mara/known: the "+differ+"; `boxbook flight 2026-05-09/mara/known")
	assert.NotContains(t, home, "agrees with the marks")

	// [derived]: 10 x 7.25 + 17 x 6.25 is 178.75, 66.20 %.
	home, season, flight = on("66.20 of 100", right)
	assert.Contains(t, flight, "The official percent agrees with the marks.")
	assert.Contains(t, home, "; official percent agrees with the marks")
	assert.NotContains(t, season, "percent is not")

	home, season, flight = on("66.90 of 100", right)
	assert.Contains(t, flight, "The official percent, 66.90%, which the season counts, is 0.70 percentage points more than the marks as typed come to: 1.88 points, give or take 0.01 by its rounding, and no single slip explains it.")
	assert.Contains(t, home, "; the official percent is not that of the marks")
	assert.Contains(t, season, "2026-05-09/mara/known: the official percent is not that of the marks; `boxbook flight 2026-05-09/mara/known")

	home, season, _ = on("178.75 of 270", right)
	assert.Contains(t, home, "official total agrees with the marks")
	assert.NotContains(t, season, "printed maximum")

	// A zero from one of two judges: 106.25 with the figure at 0, 176.25 filled.
	half := "  1         HZ 7.0\n"
	home, _, flight = on("176.25", half)
	assert.Contains(t, flight, "The official total is one end of the range")
	assert.Contains(t, home, "official total is one end of the range until a ruling is recorded")
	home, _, flight = on("171.00", half)
	assert.Contains(t, flight, "neither end of the range")
	assert.Contains(t, home, "official total is neither end of the range until a ruling is recorded")
}
