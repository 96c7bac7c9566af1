package answers

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
	"boxbook/season/ledger"
)

// A book's answers are those that the commands give, and its sheets stand in the
// order of the season's flights.
func TestBookOf(t *testing.T) {
	asOf, _ := season.ParseDate("2026-11-25")
	result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: "../../data/demo/longmere.boxbook", Builtin: data.Builtin(), AsOf: asOf})
	require.NoError(t, err)
	l := result.Ledger
	for _, pilot := range l.Pilots {
		s := season.Selection{Pilot: pilot}
		told := 0
		book := BookOf(l, s, func(int, int) { told++ })
		require.Equal(t, SeasonOf(l, s), book.Season)
		assert.Equal(t, FaultsOf(l, s), book.Faults)
		assert.Equal(t, PlanOf(l, s, nil), book.Plan)
		require.Len(t, book.Flights, len(book.Season.Flights))
		assert.Equal(t, len(book.Flights), told)
		for i, f := range book.Flights {
			assert.Equal(t, book.Season.Flights[i].Flight, f.Flight)
		}
		assert.NotNil(t, book.Ready)
	}
}

// A season's workbook has the drills of every season: what became of one is seen in the
// seasons after it.
func TestBookHasTheDrillsOfAllSeasons(t *testing.T) {
	asOf, _ := season.ParseDate("2026-11-25")
	files := ledger.Memory{"season.boxbook": "pilot ines\nsequence s\n  1 7.4.1.1:10\ndrill 2025-09-20 ines radius\nflight 2026-04-18 ines known\n  sequence s\n  panel A\n  1 7\n"}
	result, err := ledger.Load(ledger.Options{Files: files, Main: "season.boxbook", Builtin: data.Builtin(), AsOf: asOf})
	require.NoError(t, err)
	book := BookOf(result.Ledger, season.Selection{Pilot: result.Ledger.Pilots[0], Season: 2026}, nil)
	require.Len(t, book.Drills.Drills, 1)
	assert.Equal(t, "2025-09-20", book.Drills.Drills[0].Date)
	assert.Zero(t, book.Drills.Season, "they are not of one season")
}

// The search for what would explain a printed total changes nothing else of a
// flight: whether it agrees, what it is less the own one.
func TestSheetsAreFlights(t *testing.T) {
	asOf, _ := season.ParseDate("2026-11-25")
	for _, main := range []string{"../../data/demo/longmere.boxbook", "../../testdata/ledgers/check-values.boxbook", "../../testdata/ledgers/language-tour.boxbook"} {
		result, err := ledger.Load(ledger.Options{Files: ledger.Disk{}, Main: main, Builtin: data.Builtin(), AsOf: asOf})
		require.NoError(t, err)
		compared := 0
		for _, f := range result.Ledger.Flights {
			sheet, flight := sheetOf(f), FlightOf(f)
			if sheet.Official != nil && sheet.Official.Agrees != nil {
				require.Equal(t, *flight.Official.Agrees, *sheet.Official.Agrees, f.Name)
				require.Equal(t, flight.Official.LessOwn, sheet.Official.LessOwn, f.Name)
				compared++
			}
			sheet.Official, flight.Official = nil, nil
			require.Equal(t, flight, sheet, f.Name)
		}
		require.Positive(t, compared, main)
	}
}

// [derived]: 0 to 10 in halves, and the six marks that are none.
func TestEveryMark(t *testing.T) {
	grades := EveryGrade()
	require.Len(t, grades, 21)
	assert.Equal(t, "9.5", grades[19].Text(1))
	assert.Equal(t, []string{"HZ", "CHZ", "PZ", "AV", "A", "-"}, EveryOtherMark())
}
