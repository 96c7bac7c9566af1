package season_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// FuzzSelector holds a selector to its rule, piece by piece: an exact name is
// that flight alone, else whole leading pieces name all flights that have them.
func FuzzSelector(f *testing.F) {
	l := testkit.BookOf(f, year)
	for _, flight := range l.Flights {
		f.Add(flight.Name)
	}
	for _, word := range []string{"last", "", "/", "2026-04-18", "2026-04-18/", "2026-04-18/ines/practice/1", "2026-04-18/ines/practice/01", "2026-04-18//", "2026-04", "LAST", "2026-04-18/ines/pr"} {
		f.Add(word)
	}
	f.Fuzz(func(t *testing.T, selector string) {
		require.Equal(t, named(l, selector), l.Matching(selector, season.Selection{}), "%q", selector)
	})
}

// named finds flights by the rule, the slow way.
func named(l *season.Ledger, selector string) []*season.Flight {
	var past []*season.Flight
	for _, f := range l.Flights {
		if f.Date <= l.AsOf {
			past = append(past, f)
		}
	}
	if selector == "last" {
		return past[len(past)-1:]
	}
	pieces := strings.Split(selector, "/")
	whole := pieces
	if len(pieces) == 4 && pieces[3] == "1" {
		whole = pieces[:3]
	}
	for _, f := range past {
		if slices.Equal(strings.Split(f.Name, "/"), whole) {
			return []*season.Flight{f}
		}
	}
	if len(pieces) > 1 && pieces[len(pieces)-1] == "" {
		pieces = pieces[:len(pieces)-1]
	}
	var found []*season.Flight
	for _, f := range past {
		name := strings.Split(f.Name, "/")
		if len(name) > len(pieces) && slices.Equal(name[:len(pieces)], pieces) {
			found = append(found, f)
		}
	}
	return found
}

// FuzzDate holds the reading of days to the calendar of the standard library.
func FuzzDate(f *testing.F) {
	for _, text := range []string{"2026-11-25", "2024-02-29", "2023-02-29", "1900-02-29", "0000-01-01", "0001-01-01", "9999-12-31", "2026-1-5", "2026-13-01", "2026-04-31", "+026-01-01", "2026-01-01 ", "２026-01"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		got, ok := season.ParseDate(text)
		want, err := time.Parse(time.DateOnly, text)
		require.Equal(t, err == nil && want.Year() > 0, ok, text)
		if !ok {
			return
		}
		require.Equal(t, text, got.String())
		require.True(t, want.Equal(got.Time()), text)
		require.Equal(t, got, season.DateIn(want))
		require.Equal(t, got+1, season.DateIn(want.AddDate(0, 0, 1)))
	})
}
