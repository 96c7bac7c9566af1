package commands

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season/testkit/longledger"
)

// The commands that are measured on long ledgers, in process: what a start costs
// is not in it.
var measured = []string{
	"check", "flight last", "season", "families", "faults", "drills", "forecast known-2026", "plan", "ready", "panel", "year", "debrief last", "pilots", "", "forecast --help",
}

func BenchmarkThirtySeasons(b *testing.B) {
	path := longFile(b, longledger.Thirty())
	for _, command := range measured {
		b.Run("boxbook "+command, func(b *testing.B) { benchmarkCommand(b, path, command) })
	}
}

// Ten seasons of several pilots: what a further pilot costs is the difference.
func BenchmarkTenSeasons(b *testing.B) {
	for _, pilots := range []string{"one", "three", "five"} {
		path := longFile(b, longledger.Ten(map[string]int{"one": 1, "three": 3, "five": 5}[pilots]))
		for _, command := range []string{"check", "pilots"} {
			b.Run(command+" of "+pilots, func(b *testing.B) { benchmarkCommand(b, path, command) })
		}
	}
}

func longFile(t testing.TB, size longledger.Size) string {
	path := filepath.Join(t.TempDir(), "long.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(longledger.Text(size)), 0o600))
	return path
}

func benchmarkCommand(b *testing.B, path, command string) {
	at := time.Date(longledger.Thirty().Last, 11, 25, 12, 0, 0, 0, time.UTC)
	b.ReportAllocs()
	for b.Loop() {
		s := &streams{
			in: strings.NewReader(""), out: io.Discard, err: os.Stderr, now: func() time.Time { return at },
			env: func(string) string { return "" }, version: data.Version(), width: 80,
		}
		require.Zero(b, run(append([]string{"--ledger", path}, strings.Fields(command)...), s), command)
	}
}

// All seasons of a book of 7,500 contest flights at once: nothing may grow with
// the pairs of them.
func BenchmarkSeasonOf7500Flights(b *testing.B) {
	path := longFile(b, longledger.Size{Pilots: 1, Seasons: 375, Contest: 20, Last: longledger.Thirty().Last})
	for _, command := range []string{"season --since 1000-01-01", "families --since 1000-01-01", "forecast known-2026", "plan", "ready", "panel --since 1000-01-01", "faults"} {
		b.Run("boxbook "+command, func(b *testing.B) { benchmarkCommand(b, path, command) })
	}
}
