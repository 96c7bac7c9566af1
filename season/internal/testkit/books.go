package testkit

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
)

// Day is a date that the test knows to be one.
func Day(t testing.TB, text string) season.Date {
	t.Helper()
	date, ok := season.ParseDate(text)
	require.True(t, ok, text)
	return date
}

// Text is a number with two decimals, "none" where it is not known.
func Text(r *big.Rat) string {
	if r == nil {
		return "none"
	}
	return r.FloatString(2)
}

// RecordText is a record in words.
func RecordText(r season.Record) string {
	if r == (season.Record{}) {
		return "nothing"
	}
	return fmt.Sprintf("%s of %s = %s %s", Text(r.Points), Text(r.Maximum), Text(r.Percent), r.Source)
}

// FieldBook has flights of K 10, maximum 100, so that points are percents.
const FieldBook = `
pilot ines
sequence one
  category sportsman
  programme known
  1 K 10
contest cup 2026-04-18
  panel A
`

// FlightOver is a flight with a mark and whatever else is said of it.
func FlightOver(mark, more string) string {
	return FieldBook + "flight 2026-04-18 ines known\n  contest cup\n  sequence one\n  1 " + mark + "\n" + more
}

// FaultBook is a flight to note faults on: figures of K 23, 10, 14 and 9, a
// panel of two, every mark an 8.0.
const FaultBook = `
pilot ines
pilot yuki
coach marek
coach odile
sequence four
  category     intermediate
  1            5.2.1.1:17 9.1.1.1:6
  2            7.4.1.1:10
  3            1.2.6.3:8 9.11.1.5:6
  4            K 9
  positioning  K 10
`

const faultMarks = "  1 8 8\n  2 8 8\n  3 8 8\n  4 8 8\n  positioning 8 8\n"

// FlightWith is a contest flight with those lines.
func FlightWith(t testing.TB, lines ...string) *season.Flight {
	t.Helper()
	return BookOf(t, FaultBook+FlightText("2026-04-18 ines known", lines...)).Flights[0]
}

func FlightText(name string, lines ...string) string {
	return "flight " + name + "\n  sequence four\n  panel A B\n" + faultMarks + "  " + strings.Join(lines, "\n  ") + "\n"
}

// ExactText writes a rational without losing anything: "1/2", "3", "none".
func ExactText(r *big.Rat) string {
	if r == nil {
		return "none"
	}
	return r.RatString()
}

// FaultLine draws a fault line on one of the four figures, or on the flight.
func FaultLine() *rapid.Generator[string] {
	return rapid.Custom(func(t *rapid.T) string {
		where := rapid.SampledFrom([]string{"1", "1", "2", "3", "4", "-"}).Draw(t, "figure")
		line := "fault " + where + " " + rapid.SampledFrom([]string{
			"line-angle 7deg", "line-angle 40deg", "line-length 1:0", "no-line", "radius 4x", "radius", "drift 1.5span", "drift",
			"spin-stop 90deg", "pull-rate", "loose-article", "other 2.5pt", "other 12pt",
		}).Draw(t, "fault")
		codes := map[string][]string{"1": {"", " on 9.1.1.1", " on 5.2.1.1"}, "2": {"", " on 7.4.1.1"}, "3": {"", " on 9.11.1.5"}}[where]
		if codes != nil {
			line += rapid.SampledFrom(codes).Draw(t, "on")
		}
		line += rapid.SampledFrom([]string{"", " seen", " felt"}).Draw(t, "seen")
		return line + rapid.SampledFrom([]string{"", " by marek", " by odile"}).Draw(t, "by")
	})
}

// BookOf reads a ledger text that must have no errors, as of 2026-11-25.
func BookOf(t testing.TB, text string) *season.Ledger {
	t.Helper()
	result, err := ledger.Load(ledger.Options{
		Files: ledger.Memory{"test.boxbook": text}, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: Day(t, "2026-11-25"),
	})
	require.NoError(t, err)
	for _, d := range result.Diagnostics {
		require.NotEqual(t, ledger.Error, d.Severity, d.Error())
	}
	return result.Ledger
}

// Names are the names of flights in order; never nil.
func Names(flights []*season.Flight) []string {
	list := make([]string, len(flights))
	for i, f := range flights {
		list[i] = f.Name
	}
	return list
}
