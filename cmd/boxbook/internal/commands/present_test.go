package commands

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
)

// levelSeen is a level as an output gives it.
type levelSeen struct {
	Percent, Low, High float64
	On                 string
}

// levelOfSeason is the level of `season` with more flags, of how many flights.
func levelOfSeason(t *testing.T, path, pilot string, flags ...string) (levelSeen, int) {
	t.Helper()
	var d struct {
		Level struct {
			levelSeen
			Of int
		}
	}
	args := append([]string{"season", "-f", path, "--pilot", pilot, "--format", "json"}, flags...)
	require.NoError(t, json.Unmarshal([]byte(screenOf(t, 80, args...)), &d))
	return d.Level.levelSeen, d.Level.Of
}

// levelOfReady is the level of the threshold gate, of how many flights.
func levelOfReady(t *testing.T, path, pilot string) (levelSeen, int) {
	t.Helper()
	var d struct {
		Gates []struct {
			Gate    string
			Numbers struct {
				Level struct {
					Number, Low, High float64
					On                string
				}
				Results []struct{ Number int }
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(screenOf(t, 80, "ready", "-f", path, "--pilot", pilot, "--format", "json")), &d))
	for _, g := range d.Gates {
		if g.Gate == "threshold" {
			l := g.Numbers.Level
			return levelSeen{l.Number, l.Low, l.High, l.On}, g.Numbers.Results[0].Number
		}
	}
	require.Fail(t, "no threshold gate")
	return levelSeen{}, 0
}

// TestOnePresent holds that whoever says where a pilot stands on a day says the
// same: the page of the season, whatever it is narrowed to, and the threshold
// gate.
func TestOnePresent(t *testing.T) {
	known := 0
	for _, path := range []string{
		"../../../../data/demo/longmere.boxbook", "../../../../testdata/ledgers/language-tour.boxbook",
		"../../../../testdata/ledgers/check-values.boxbook", "../../../../testdata/ledgers/glider-silver.boxbook",
		few(t, spread(2026, 6)), few(t, spread(2026, 5)+later(9, 2)), few(t, together(5)), few(t, spread(2025, 8)),
	} {
		today, _ := season.ParseDate("2026-11-25")
		result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today})
		require.NoError(t, err)
		for _, p := range result.Ledger.Pilots {
			if len(result.Ledger.Select(season.Selection{Pilot: p})) == 0 {
				continue
			}
			name := filepath.Base(path) + " " + p.Handle
			level, of := levelOfSeason(t, path, p.Handle)
			gate, results := levelOfReady(t, path, p.Handle)
			assert.Equal(t, gate, level, name)
			assert.Equal(t, results, of, name)
			for _, flags := range [][]string{{"--since", "2026-08-01"}, {"--category", "sportsman"}} {
				narrow, _ := levelOfSeason(t, path, p.Handle, flags...)
				assert.Equal(t, level, narrow, "%s %v", name, flags)
			}
			if level.On != "" {
				known++
			}
		}
	}
	assert.GreaterOrEqual(t, known, 5, "levels that are known")
}
