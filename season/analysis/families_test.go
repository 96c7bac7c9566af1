package analysis_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// familyHead is a pilot with a sequence of six figures of five families, one of
// them with a roll, and one figure of no family.
const familyHead = `
pilot ines
sequence known-26
  category sportsman
  1 7.4.1.1:10           "loop"
  2 5.2.1.1:17           "stall turn"
  3 1.2.1.1:8 9.1.2.4:10 "roll on the forty-five up"
  4 2.2.1.1:4            "half turn"
  5 1.2.6.3:8 9.11.1.4:5 "one-turn spin"
  6 K 9                  "unlabelled"
`

// gradedFlight is a flight of known-26 with one judge's grades in one row.
func gradedFlight(head string, grades ...string) string {
	return "flight " + head + "\n  sequence known-26\n  panel marek\n" + markRows(grades)
}

func familiesOf(t testing.TB, book string) analysis.Families {
	t.Helper()
	l := testkit.BookOf(t, book)
	return analysis.FamiliesOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
}

func familyLine(t testing.TB, f analysis.Families, group string) analysis.FamilyLine {
	t.Helper()
	for _, line := range f.Groups {
		if line.Group == group {
			return line
		}
	}
	require.Fail(t, "no family "+group)
	return analysis.FamilyLine{}
}

// [derived], by hand, from one flight: a figure counts in each of its families
// with the K of the family's elements there; the rest is every figure without
// the family, by the figures' K.
func TestFamilyLevels(t *testing.T) {
	f := familiesOf(t, familyHead+gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9"))
	assert.Equal(t, "sportsman", f.Category)
	assert.Equal(t, 1, f.Flights)
	var groups []string
	for _, line := range f.Groups {
		groups = append(groups, line.Group)
	}
	assert.Equal(t, []string{"1", "2", "5", "7", "9.1", "spins"}, groups, "in the order of every page; K alone is no family")

	lines := familyLine(t, f, "1")
	assert.Equal(t, 2, lines.Figures)
	assert.Equal(t, "16.00", testkit.Text(lines.K))
	assert.InDelta(t, 10*(8*8+8*6.5)/16, lines.Percent, 1e-12)
	assert.True(t, lines.HasRest)
	assert.InDelta(t, lines.Percent-10*(10*6+17*7+4*5+9*9)/40.0, lines.VersusRest, 1e-9)
	loop := familyLine(t, f, "7")
	assert.InDelta(t, 60-10*(17*7+18*8+4*5+13*6.5+9*9)/61.0, loop.VersusRest, 1e-9)
	assert.Equal(t, "40.00", testkit.Text(loop.LostPerFlight))
	assert.Equal(t, "20.00", testkit.Text(familyLine(t, f, "9.1").LostPerFlight), "10 of the figure's K of 18, at 2 grades")
	assert.Equal(t, 1, loop.Contests)
}

// What a family costs per flight is of the flights of which a figure has a family.
func TestFamilyCostsLeaveOutFlightsWithoutCodes(t *testing.T) {
	bare := "sequence bare\n  category sportsman\n  1 K 10\n  2 K 12\n" +
		"flight 2026-09-05 ines known\n  sequence bare\n  panel marek\n" + markRows([]string{"7", "6"})
	book := familyHead + gradedFlight("2026-08-01 ines known", "7", "6", "8", "7", "6.5", "5") + gradedFlight("2026-08-02 ines known", "6", "6", "8", "7", "6.5", "5")
	want, got := familiesOf(t, book), familiesOf(t, book+bare)
	assert.Equal(t, []int{2, 0}, []int{want.Flights, len(want.Uncoded)})
	assert.Equal(t, []int{3, 1}, []int{got.Flights, len(got.Uncoded)})
	assert.Equal(t, []analysis.BareFigure{{Sequence: got.Bare[0].Sequence, Number: 6}}, got.Bare, "of flights of which others have one")
	for i, line := range want.Groups {
		assert.Equal(t, line.LostPerFlight.RatString(), got.Groups[i].LostPerFlight.RatString(), line.Group)
	}
}

// Over flights the family against the rest is the plain mean, and points lost
// are by flight, whether or not the family was flown in it.
func TestFamilyOverFlights(t *testing.T) {
	f := familiesOf(t, familyHead+"sequence loops\n  category sportsman\n  1 7.4.1.1:10\n  2 K 5\n  3 K 5\n  4 K 5\n"+
		gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9")+
		"flight 2026-05-16 ines free\n  sequence loops\n  panel marek\n"+markRows([]string{"9", "8", "8", "8"}))
	loop := familyLine(t, f, "7")
	assert.Equal(t, 2, loop.Figures)
	assert.Equal(t, 2, loop.Contests, "a flight without a contest is one by itself")
	assert.InDelta(t, 75, loop.Percent, 1e-12)
	first := 60 - 10*(17*7+18*8+4*5+13*6.5+9*9)/61.0
	assert.InDelta(t, (first+10)/2, loop.VersusRest, 1e-9)
	assert.Equal(t, "25.00", testkit.Text(loop.LostPerFlight))
	assert.Equal(t, "25.50", testkit.Text(familyLine(t, f, "5").LostPerFlight), "51 points in one of two flights")
}

// The rest is at least three figures, else the flight is empty of the
// family against it.
func TestFamilyRestOfThree(t *testing.T) {
	book := `
pilot ines
sequence four
  category sportsman
  1 7.4.1.1:10
  2 7.2.2.1:6 9.1.3.2:4
  3 5.2.1.1:17
  4 1.2.1.1:8
flight 2026-04-18 ines known
  sequence four
  panel A B
`
	f := familiesOf(t, book+markRows([]string{"6 6", "7 7", "8 8", "5 5"}))
	assert.False(t, familyLine(t, f, "7").HasRest, "two figures are left")
	assert.True(t, familyLine(t, f, "9.1").HasRest, "three are")
	assert.Zero(t, familyLine(t, f, "7").Trend.N)

	// A figure that is not decided is not among the three; the official total
	// keeps the flight in.
	f = familiesOf(t, book+markRows([]string{"6 6", "7 7", "8 8", "HZ 5"})+"  official 200\n")
	assert.False(t, familyLine(t, f, "9.1").HasRest)
	assert.Equal(t, 2, familyLine(t, f, "7").Figures)
	f = familiesOf(t, book+markRows([]string{"6 6", "7 7", "8 8", "HZ 5"}))
	assert.Empty(t, f.Groups, "undecided, and no official total")
}

// Zeroed figures stay in the percent and are shown without as well: by a
// majority of hard zeros, confirmed, or ruled. An ordinary 0.0 is a grade.
func TestFamilyZeros(t *testing.T) {
	head := `
pilot ines
sequence loops
  category sportsman
  1 7.4.1.1:10
  2 7.4.1.1:10
  3 7.4.1.1:10
  4 7.4.1.1:10
  5 5.2.1.1:17
flight 2026-04-18 ines known
  sequence loops
  panel A B
`
	f := familiesOf(t, head+markRows([]string{"HZ HZ", "CHZ 7", "HZ 7", "8 8", "0 0"})+"  resolve 3 zero\n")
	loop, stall := familyLine(t, f, "7"), familyLine(t, f, "5")
	assert.Equal(t, 3, loop.Zeros)
	assert.InDelta(t, 20, loop.Percent, 1e-12)
	assert.InDelta(t, 80, loop.WithoutZeros, 1e-12)
	assert.Zero(t, stall.Zeros)
	assert.InDelta(t, 0, stall.WithoutZeros, 1e-12)

	// However the zeros came: hard ones counted as given, perception zeros from
	// every judge. One judge's among grades leaves the figure a grade.
	f = familiesOf(t, head+markRows([]string{"HZ HZ", "PZ PZ", "0 HZ", "8 8", "0 0"})+"  rules as-graded\n")
	assert.Equal(t, 3, familyLine(t, f, "7").Zeros)
	assert.Zero(t, familyLine(t, f, "5").Zeros)
	f = familiesOf(t, head+markRows([]string{"PZ PZ", "7 PZ", "7 7", "8 8", "0 0"}))
	assert.Equal(t, 1, familyLine(t, f, "7").Zeros)

	// Nothing but zeros: there is nothing without them.
	f = familiesOf(t, head+markRows([]string{"HZ HZ", "HZ HZ", "HZ HZ", "HZ HZ", "7 7"}))
	loop = familyLine(t, f, "7")
	assert.Equal(t, 4, loop.Zeros)
	assert.InDelta(t, 0, loop.Percent, 1e-12)
	assert.False(t, math.IsNaN(loop.WithoutZeros))
}

// A family rises against the rest of the same flight: what all figures do
// falls out.
func TestFamilyTrend(t *testing.T) {
	book := familyHead
	for i, loop := range []string{"5", "5.5", "6", "6.5", "7", "7.5"} {
		grade := []string{"7", "8", "6.5", "7.5", "6", "8"}[i]
		book += gradedFlight(fmt.Sprintf("2026-0%d-18 ines known", i+4), loop, grade, grade, grade, grade, grade)
	}
	// The rest is 7, 8, 6.5, 7.5, 6, 8: the family less the rest -2 -2.5 -0.5 -1
	// +1 -0.5. [derived]: of fifteen pairs 11 rise, 3 fall, one is even.
	f := familiesOf(t, book)
	loop := familyLine(t, f, "7")
	assert.Equal(t, 6, loop.Trend.N)
	assert.Equal(t, 8, loop.Trend.S)
	assert.Equal(t, 6, f.Compared)

	book = familyHead
	for i, loop := range []string{"5", "5.5", "6", "6.5", "7", "7.5"} {
		row := [][]string{
			{"7", "7.5", "6.5", "7", "8"},
			{"7.5", "7", "7", "6", "7"},
			{"6.5", "7.5", "7.5", "7", "7.5"},
			{"7.5", "8", "6", "6.5", "7"},
			{"7", "7", "7", "7", "8"},
			{"7.5", "7.5", "7", "6", "7"},
		}[i]
		book += gradedFlight(fmt.Sprintf("2026-0%d-18 ines known", i+4), append([]string{loop}, row...)...)
	}
	f = familiesOf(t, book)
	loop = familyLine(t, f, "7")
	assert.Equal(t, analysis.Improving, loop.Trend.Word)
	assert.LessOrEqual(t, loop.Q, 0.10)
	assert.InDelta(t, 25, loop.Trend.Season, 3, "2.5 grades over the season")
	for _, line := range f.Groups {
		if line.Group != "7" {
			assert.NotEqual(t, analysis.Improving, line.Trend.Word, line.Group)
		}
	}
}

// Contest flights of one category alone: practice, void flights and flights
// without marks are out; without a category asked for it is the one flown last.
func TestFamiliesSelection(t *testing.T) {
	book := familyHead + gradedFlight("2026-04-18 ines known", "6", "7", "8", "5", "6.5", "9") +
		gradedFlight("2026-05-01 ines practice", "1", "1", "1", "1", "1", "1") +
		gradedFlight("2026-05-02 ines free", "1", "1", "1", "1", "1", "1") + "  void \"cloud\"\n" +
		"flight 2026-05-03 ines final\n  sequence known-26\n  official 100\n"
	f := familiesOf(t, book)
	assert.Equal(t, 1, f.Flights)
	assert.InDelta(t, 60, familyLine(t, f, "7").Percent, 1e-12)

	book += strings.Replace(gradedFlight("2026-06-18 ines known", "9", "9", "9", "9", "9", "9"), "\n", "\n  category intermediate\n", 1)
	f = familiesOf(t, book)
	assert.Equal(t, "intermediate", f.Category)
	assert.InDelta(t, 90, familyLine(t, f, "7").Percent, 1e-12)
	l := testkit.BookOf(t, book)
	f = analysis.FamiliesOf(l, season.Selection{Pilot: l.PilotNamed("ines"), Category: "sportsman"})
	assert.InDelta(t, 60, familyLine(t, f, "7").Percent, 1e-12)

	none := familiesOf(t, familyHead)
	assert.Empty(t, none.Groups)
	assert.Zero(t, none.Flights)
}
