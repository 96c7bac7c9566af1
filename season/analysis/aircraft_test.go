package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/analysis/code"
	"boxbook/season/internal/testkit"
)

// flownIn has a contest a month from April on, in 2025 and in 2026, each flown in an
// aircraft by its letter; "-" names none.
func flownIn(years ...string) string {
	var b strings.Builder
	b.WriteString("pilot ines\nsequence k\n  category sportsman\n  programme known\n  1 K 10\n")
	for i, aircraft := range years {
		for n, name := range strings.Split(aircraft, "") {
			fmt.Fprintf(&b, "flight %d-%02d-10 ines known\n  sequence k\n  official %d of 100\n", 2025+i, n+4, 65+8*i+n%2)
			if name != "-" {
				fmt.Fprintf(&b, "  aircraft \"%s\"\n", name)
			}
		}
	}
	return b.String()
}

// A change of aircraft is known from one that was borrowed or not typed: each has its run
// of flights.
func TestAircraftOfALevel(t *testing.T) {
	for book, want := range map[[2]string]analysis.AircraftMix{
		{"aaaa", "bbbb"}: {Named: 2, Changed: true},
		{"----", "bbbb"}: {Named: 1, Unnamed: 4, Changed: true},
		{"aabb", "----"}: {Named: 2, Unnamed: 4, Changed: true},
		{"aaaa", "aaaa"}: {},
		{"----", "----"}: {},
		{"aaba", "aaaa"}: {},
		{"aaaa", "aaab"}: {},
		{"-a-a", "a--a"}: {},
		{"---a", "aaa-"}: {},
	} {
		l := testkit.BookOf(t, flownIn(book[0], book[1]))
		assert.Equal(t, want, analysis.PresentOf(l, l.Pilots[0]).Aircraft(), book)
		g := gate(ready(t, flownIn(book[0], book[1]), ""), "threshold")
		assert.Equal(t, want.Changed, len(all(g, code.AircraftNamed)) > 0, book)
	}
}

// A trend over seasons and a change from one to the next say that the aircraft was
// another.
func TestAircraftOfSeasonsCompared(t *testing.T) {
	long, ok := longTrend(t, flownIn("aaaa", "bbbb"), 2026)
	require.True(t, ok)
	assert.Equal(t, analysis.AircraftMix{Named: 2, Changed: true}, long.Aircraft)
	change := func(before, after string) []bool {
		l := testkit.BookOf(t, flownIn(before, after))
		of := func(year int) analysis.Flights {
			return analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: year})
		}
		c, known := analysis.ChangeBetween(of(2025), of(2026))
		require.True(t, known)
		return []bool{c.OtherAircraft, c.Unnamed}
	}
	assert.Equal(t, []bool{true, false}, change("aaaa", "bbbb"))
	assert.Equal(t, []bool{true, true}, change("----", "bbbb"))
	assert.Equal(t, []bool{false, false}, change("aaab", "bbbb"), "one was flown in both")
	assert.Equal(t, []bool{false, false}, change("----", "----"))
	l := testkit.BookOf(t, flownIn("--aa"))
	sums := analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2025}).AircraftSums()
	require.Len(t, sums, 2)
	assert.Equal(t, []any{"", 2, "a", 2}, []any{sums[0].Aircraft, sums[0].Flights, sums[1].Aircraft, sums[1].Flights})
	l = testkit.BookOf(t, flownIn("-a-a"))
	assert.Empty(t, analysis.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2025}).AircraftSums())
}
