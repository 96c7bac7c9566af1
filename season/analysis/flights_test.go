package analysis_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// The winner is the highest of the field and one's own; the median is used only
// where the whole field is there: as many totals as the place says pilots.
func TestDistances(t *testing.T) {
	for _, test := range []struct {
		name, mark, more string
		winner, median   string
	}{
		{"no field", "6", "  place 2 of 3\n", "none", "none"},
		{"the whole field, odd", "6", "  place 2 of 3\n  field 80 60 40\n", "-20.00", "0.00"},
		{"the whole field, even", "6", "  place 2 of 4\n  field 80 60 40 30.5\n", "-20.00", "10.00"}, // derived: (60+40)/2 = 50
		{"in any order", "6", "  place 2 of 4\n  field 40 60 30.5 80\n", "-20.00", "10.00"},
		{"a part of the field", "6", "  place 2 of 5\n  field 80 60 40\n", "-20.00", "none"},
		{"how many is not known", "6", "  place 2\n  field 80 60 40\n", "-20.00", "none"},
		{"no place at all", "6", "  field 80 60\n", "-20.00", "none"},
		{"more totals than pilots", "6", "  place 2 of 2\n  field 80 60 40\n", "-20.00", "none"},
		{"own total left out: it is added", "6", "  place 2 of 3\n  field 80 40\n", "-20.00", "0.00"},
		{"own is the highest", "9", "  place 1 of 3\n  field 90 60 40\n", "0.00", "30.00"},
		{"own is the highest and left out", "9", "  place 1 of 3\n  field 60 40\n", "0.00", "30.00"},
		{"two with one total share a place", "6", "  place 1 of 3\n  field 60 60 40\n", "0.00", "0.00"},
		{"alone", "6", "  place 1 of 1\n  field 60\n", "0.00", "0.00"},
		{"the official total is one's own", "6", "  official 62.5\n  place 2 of 3\n  field 80 62.5 40\n", "-17.50", "0.00"},
		{"printed with fewer decimals in the field", "6", "  official 62.54\n  place 2 of 3\n  field 80 62.5 40\n", "-17.46", "0.00"},
		{"penalties are off", "6", "  penalty low 5\n  place 2 of 3\n  field 80 55 40\n", "-25.00", "0.00"},
		{"a confirmed hard zero is a total of 0", "CHZ", "  field 80 40\n", "-80.00", "none"},
		{"undecided: no total of one's own", "AV", "  place 1 of 3\n  field 80 60 40\n", "none", "none"},
		{"void", "6", "  void \"reflown\"\n  place 2 of 3\n  field 80 60 40\n", "none", "none"},
	} {
		t.Run(test.name, func(t *testing.T) {
			l := testkit.BookOf(t, testkit.FlightOver(test.mark, test.more))
			answer := analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
			require.Len(t, answer.Lines, 1)
			assert.Equal(t, test.winner, testkit.Text(answer.Lines[0].ToWinner), "to the winner")
			assert.Equal(t, test.median, testkit.Text(answer.Lines[0].ToMedian), "to the median")
		})
	}
}

// A computed total with endless decimals is the one that the field has rounded.
func TestDistancesOfAnEndlessDecimal(t *testing.T) {
	l := testkit.BookOf(t, `
pilot ines
sequence one
  category sportsman
  1 K 10
flight 2026-04-18 ines known
  sequence one
  panel A B C
  1 6 6.5 6.5
  place 2 of 3
  field 80.00 63.33 40.00
`)
	f := l.Flights[0]
	assert.Len(t, f.FieldTotals(), 3)
	line := analysis.SeasonOf(l, season.Selection{Pilot: f.Pilot}).Lines[0]
	assert.Equal(t, big.NewRat(190, 3), line.Record.Points, "exact, not as printed")
	assert.Equal(t, "0", line.ToMedian.RatString())
}

// seasonBook has a pilot's year: a contest summed, one printed, one known by its
// result alone, a part that is not known, practice and a void flight.
const seasonBook = `
pilot ines
pilot yuki
sequence one
  category sportsman
  1 K 10
sequence two
  category intermediate
  1 K 20
contest late 2026-09-12..2026-09-13
  panel A
  result yuki 900 of 1000 place 1 of 4
contest early 2026-04-18..2026-04-19
  panel A
contest middle 2026-06-06..2026-06-07
  panel A
  result ines 210.5 of 320 place 2 of 7
contest place-only 2026-07-04
  result ines place 3 of 9
contest elsewhere 2026-08-08
  result ines 1200.25 place 1
contest before 2025-08-08
  result ines 700 of 1000 place 1 of 2
contest to-come 2026-12-24
  result ines 700 of 1000 place 1 of 2
flight 2026-04-18 ines known
  contest early
  sequence one
  1 6
flight 2026-04-18 ines practice
  contest early
  sequence one
  panel A
  1 10
flight 2026-04-19 ines free
  contest early
  sequence two
  1 7.5
  penalty low 10
flight 2026-04-19 ines unknown
  contest early
  sequence two
  1 10
  void "cloud"
flight 2026-06-06 ines known
  contest middle
  sequence one
  1 6.5
flight 2026-06-07 ines known
  contest middle
  sequence two
  1 7
  official 145.5
flight 2026-07-01 ines known
  sequence two
  1 9
  panel A
flight 2026-09-12 ines known
  contest late
  sequence one
  1 5
flight 2026-09-13 ines free
  contest late
  category sportsman
  place 4
flight 2026-09-13 yuki known
  contest late
  sequence one
  1 8
`

// contestText is a line of a contest in words.
func contestText(c analysis.ContestLine) string {
	return fmt.Sprintf("%s %s %d flights: %s | sum %s | %d of %d", c.Contest.Handle, c.Category, c.Flights,
		testkit.RecordText(c.Result), testkit.RecordText(c.Sum), c.Rank, c.Of)
}

func contestTexts(answer analysis.Flights) []string {
	var list []string
	for _, c := range answer.Contests {
		list = append(list, contestText(c))
	}
	return list
}

// A contest's result is the sum of the pilot's flights in it (practice and void
// ones apart), the printed one where it was typed; not known where a part of it
// is not. By first day, whatever their order in the file.
func TestContestLines(t *testing.T) {
	l := testkit.BookOf(t, seasonBook)
	ines := l.PilotNamed("ines")
	assert.Equal(t, []string{
		// 60 of 100 and 150 - 10 of 200: [derived], 200 of 300.
		"early intermediate 2 flights: 200.00 of 300.00 = 66.67 computed | sum 200.00 of 300.00 = 66.67 computed | 0 of 0",
		// 65 of 100 and the official 145.5 of 200; printed 210.5 of 320.
		"middle intermediate 2 flights: 210.50 of 320.00 = 65.78 official | sum 210.50 of 300.00 = 70.17 computed | 2 of 7",
		"place-only  0 flights: nothing | sum nothing | 3 of 9",
		"elsewhere  0 flights: 1200.25 of none = none official | sum nothing | 1 of 0",
		"late sportsman 2 flights: nothing | sum nothing | 0 of 0",
	}, contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: ines, Season: 2026})))
	assert.Equal(t, []string{"before  0 flights: 700.00 of 1000.00 = 70.00 official | sum nothing | 1 of 2"},
		contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: ines, Season: 2025})))
	assert.Equal(t, []string{"late sportsman 1 flights: 900.00 of 1000.00 = 90.00 official | sum 80.00 of 100.00 = 80.00 computed | 1 of 4"},
		contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("yuki"), Season: 2026})))
}

// A result without flights is shown only where the selection can be about it.
func TestContestsKnownByTheirResult(t *testing.T) {
	l := testkit.BookOf(t, seasonBook)
	handles := func(s season.Selection) (list []string) {
		s.Pilot = l.PilotNamed("ines")
		for _, c := range analysis.SeasonOf(l, s).Contests {
			list = append(list, c.Contest.Handle)
		}
		return list
	}
	assert.Equal(t, []string{"before", "early", "middle", "place-only", "elsewhere", "late"}, handles(season.Selection{}), "to-come is after today")
	assert.Equal(t, []string{"elsewhere", "late"}, handles(season.Selection{Since: testkit.Day(t, "2026-07-05")}))
	assert.Equal(t, []string{"before", "early"}, handles(season.Selection{Until: testkit.Day(t, "2026-04-18")}))
	assert.Equal(t, []string{"early", "middle"}, handles(season.Selection{Category: "intermediate"}), "a result says no category")
	assert.Equal(t, []string{"place-only"}, handles(season.Selection{Contest: l.ContestNamed("place-only")}))
	assert.Equal(t, []string{"early"}, handles(season.Selection{Contest: l.ContestNamed("early")}))
}

// A printed result without a maximum is out of that of all of the contest's
// flights, whichever are selected; one above it has flights that the ledger
// lacks, and no percent.
func TestResultWithoutMaximum(t *testing.T) {
	book := func(result string) *season.Ledger {
		return testkit.BookOf(t, testkit.FieldBook+"  result ines "+result+`
flight 2026-04-18 ines known
  contest cup
  sequence one
  1 6
flight 2026-04-18 ines free
  contest cup
  sequence one
  category intermediate
  1 8
`)
	}
	l := book("140.5")
	ines := l.PilotNamed("ines")
	assert.Equal(t, []string{"cup intermediate 2 flights: 140.50 of 200.00 = 70.25 official | sum 140.00 of 200.00 = 70.00 computed | 0 of 0"},
		contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: ines})))
	assert.Equal(t, []string{"cup sportsman 1 flights: 140.50 of 200.00 = 70.25 official | sum 60.00 of 100.00 = 60.00 computed | 0 of 0"},
		contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: ines, Category: "sportsman"})))
	l = book("210")
	assert.Equal(t, []string{"cup intermediate 2 flights: 210.00 of none = none official | sum 140.00 of 200.00 = 70.00 computed | 0 of 0"},
		contestTexts(analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines")})))
}

// Every flight has its line; those that enter no figure enter neither best nor
// worst.
func TestFlightLines(t *testing.T) {
	l := testkit.BookOf(t, seasonBook)
	answer := analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines"), Season: 2026})
	var got []string
	for _, line := range answer.Lines {
		got = append(got, fmt.Sprintf("%s %s %t", line.Flight.Name, testkit.RecordText(line.Record), line.Enters()))
	}
	assert.Equal(t, []string{
		"2026-04-18/ines/known 60.00 of 100.00 = 60.00 computed true",
		"2026-04-18/ines/practice 100.00 of 100.00 = 100.00 computed false",
		"2026-04-19/ines/free 140.00 of 200.00 = 70.00 computed true",
		"2026-04-19/ines/unknown nothing false", // void
		"2026-06-06/ines/known 65.00 of 100.00 = 65.00 computed true",
		"2026-06-07/ines/known 145.50 of 200.00 = 72.75 official true",
		"2026-07-01/ines/known 180.00 of 200.00 = 90.00 computed true",
		"2026-09-12/ines/known 50.00 of 100.00 = 50.00 computed true",
		"2026-09-13/ines/free nothing false",
	}, got)
	assert.Equal(t, "2026-07-01/ines/known", answer.Lines[answer.Best].Flight.Name)
	assert.Equal(t, "2026-09-12/ines/known", answer.Lines[answer.Worst].Flight.Name)
	assert.Equal(t, 2026, answer.Season)
}

// Of equals the first is best and worst; without any there is neither.
func TestExtremes(t *testing.T) {
	l := testkit.BookOf(t, seasonBook)
	none := analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines"), Season: 2024})
	assert.Equal(t, []int{-1, -1, 0, 0}, []int{none.Best, none.Worst, len(none.Lines), len(none.Contests)})
	equal := testkit.BookOf(t, testkit.FlightOver("6", "")+"flight 2026-04-18 ines known 2\n  contest cup\n  sequence one\n  1 6\n")
	answer := analysis.SeasonOf(equal, season.Selection{Pilot: equal.PilotNamed("ines")})
	assert.Equal(t, []int{0, 0}, []int{answer.Best, answer.Worst})
}
