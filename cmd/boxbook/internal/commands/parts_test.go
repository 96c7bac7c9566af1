package commands

import (
	"bytes"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/workbook"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
	"boxbook/season/testkit/longledger"
)

// part is a piece of work of a command, without what comes before it: it is asked
// of a ledger that was just read, so that nothing is remembered.
type part struct {
	name string
	size longledger.Size
	work func(t testing.TB, l *season.Ledger)
	// most is how many allocations it may take for each row of marks of the
	// ledger: a little over what it took when that was written down.
	most float64
}

// aSeason is the book of one season, for what is written of one.
var aSeason = longledger.Size{Pilots: 1, Seasons: 1, Contest: 25, Last: longledger.Thirty().Last}

var parts = []part{
	{"score", longledger.Thirty(), scoreAll, 7},
	{"reconcile", longledger.Thirty(), reconcileAll, 5.5},
	{"families", longledger.Thirty(), func(_ testing.TB, l *season.Ledger) {
		answers.FamiliesOf(l, everyFlight(l))
	}, 110},
	{"forecast", longledger.Thirty(), func(t testing.TB, l *season.Ledger) {
		seq := l.SequenceNamed("known-2026")
		require.NotNil(t, seq)
		answers.ForecastOf(l, l.Pilots[0], seq, nil)
	}, 5},
	{"ready", longledger.Thirty(), func(_ testing.TB, l *season.Ledger) {
		analysis.ReadinessOf(l, l.Pilots[0], l.PolicyNamed(season.HousePolicy), nil, "")
	}, 3},
	{"booklet", aSeason, func(t testing.TB, l *season.Ledger) {
		format, _ := report.FormatNamed(bookletFormat)
		require.NoError(t, format.Write(io.Discard, pages.Booklet(answers.BookOf(l, everyFlight(l), nil)), report.TextOptions{}))
	}, 2100},
	{"workbook", aSeason, func(t testing.TB, l *season.Ledger) {
		require.NoError(t, workbook.Write(io.Discard, answers.BookOf(l, everyFlight(l), nil), workbook.Options{}))
	}, 2400},
}

// mostRead is how many allocations the reading of a row of marks may take.
const mostRead = 5.2

func everyFlight(l *season.Ledger) season.Selection {
	since, _ := season.ParseDate("1000-01-01")
	return season.Selection{Pilot: l.Pilots[0], Since: since}
}

func scoreAll(_ testing.TB, l *season.Ledger) {
	for _, f := range l.Flights {
		f.Score()
	}
}

// reconcileAll looks for what explains a printed total that is .8 points off, in one
// flight of ten.
func reconcileAll(_ testing.TB, l *season.Ledger) {
	for i, f := range l.Flights {
		if i%10 == 0 && f.Official != nil {
			points := f.Official.Points
			points.Units += 8 // in tenths: one of five judges, half a point on a figure of K 8
			scoring.Reconcile(f.Sheet(), f.Score(), scoring.Printed{Points: points})
		}
	}
}

// read reads a ledger in memory.
func read(t testing.TB, text string) *season.Ledger {
	today, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"long.boxbook": text}, Main: "long.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	require.NoError(t, result.Diagnostics.Err())
	return result.Ledger
}

// BenchmarkParts times the parts of commands by themselves.
//
//	go test ./cmd/boxbook/internal/commands -run '^$' -bench Parts
func BenchmarkParts(b *testing.B) {
	thirty := longledger.Text(longledger.Thirty())
	b.Run("parse", func(b *testing.B) {
		b.SetBytes(int64(len(thirty)))
		b.ReportAllocs()
		for b.Loop() {
			read(b, thirty)
		}
	})
	for _, p := range parts {
		text := longledger.Text(p.size)
		b.Run(p.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				b.StopTimer()
				l := read(b, text)
				b.StartTimer()
				p.work(b, l)
			}
		})
	}
}

// TestAllocationsOfParts holds each part to so many allocations a row of marks: a
// count, which no other work on the machine changes.
func TestAllocationsOfParts(t *testing.T) {
	if raceDetector {
		t.Skip("the race detector allocates too")
	}
	thirty := longledger.Text(longledger.Thirty())
	reading := testing.AllocsPerRun(1, func() { read(t, thirty) })
	t.Logf("%-10s %7.2f a row", "parse", reading/markRows(read(t, thirty)))
	assert.LessOrEqual(t, reading/markRows(read(t, thirty)), mostRead, "parse")
	for _, p := range parts {
		text := longledger.Text(p.size)
		var books []*season.Ledger // AllocsPerRun works once more than it counts
		for range 2 {
			books = append(books, read(t, text))
		}
		rows := markRows(books[0])
		each := testing.AllocsPerRun(1, func() {
			p.work(t, books[0])
			books = books[1:]
		}) / rows
		t.Logf("%-10s %7.2f a row", p.name, each)
		assert.LessOrEqual(t, each, p.most, p.name)
	}
}

// markRows counts the rows of marks.
func markRows(l *season.Ledger) float64 {
	rows := 0
	for _, f := range l.Flights {
		for _, line := range f.Sheet().Lines {
			rows += min(1, len(line.Marks))
		}
	}
	return float64(rows)
}

// The rows are those that the text has: a number of a figure, or positioning, with
// grades behind it.
func TestMarkRowsAreCounted(t *testing.T) {
	text := longledger.Text(aSeason)
	lines := 0
	for _, line := range strings.Split(text, "\n") {
		words := strings.Fields(line)
		if len(words) > 5 && bytes.ContainsAny([]byte(words[5]), "0123456789ZAV") && strings.HasPrefix(line, "  ") && strings.ContainsAny(words[1], ".ZV") && !strings.Contains(words[1], ":") {
			lines++
		}
	}
	require.InDelta(t, lines, markRows(read(t, text)), 0)
}
