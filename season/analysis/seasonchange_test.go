package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

func changeTo2026(t testing.TB, book string) (analysis.SeasonChange, bool) {
	t.Helper()
	l := testkit.BookOf(t, book)
	of := func(year int) analysis.Flights {
		return analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: year})
	}
	return analysis.ChangeBetween(of(2025), of(2026))
}

// Two seasons of form that does not move differ by more than chance in at most one pair of
// twenty; a clear rise is found, and few contests are no claim.
func TestChangeBetweenSeasons(t *testing.T) {
	const pilots = 400
	called, covered := 0, 0
	for seed := range pilots {
		c, ok := changeTo2026(t, threeSeasons(4, 0, uint64(seed)))
		require.True(t, ok)
		require.True(t, c.Known)
		if c.Beyond {
			called++
		}
		if c.Low <= 0 && c.High >= 0 {
			covered++
		}
	}
	t.Logf("called in %d, covered in %d of %d", called, covered, pilots)
	assert.LessOrEqual(t, called, int(pilots*analysis.FirmFlight))
	assert.GreaterOrEqual(t, covered, int(pilots*(analysis.TrendConfidence-.03)))

	c, ok := changeTo2026(t, threeSeasons(4, 10, 1))
	require.True(t, ok)
	assert.True(t, c.Beyond)
	assert.InDelta(t, 10, c.Change, 3)
	assert.Equal(t, []int{4, 4}, []int{c.Before, c.After})

	assert.False(t, c.Undecidable)

	c, ok = changeTo2026(t, threeSeasons(3, 10, 1))
	require.True(t, ok)
	assert.True(t, c.Known)
	assert.Positive(t, c.Low)
	assert.False(t, c.Beyond)
	assert.True(t, c.Undecidable, "the smallest chance of three contests and three is 2 in 20")

	c, ok = changeTo2026(t, threeSeasons(2, 10, 1))
	assert.True(t, ok)
	assert.False(t, c.Known, "two contests and two")
	assert.True(t, c.Undecidable)
	_, ok = changeTo2026(t, "pilot ines\n")
	assert.False(t, ok)
}
