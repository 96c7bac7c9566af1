package analysis_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
)

// yearFlown is a year with every way in which a flight or a result can be
// there (derived, by hand).
//
//	turn     begins in 2025: all of it is 2025's, the flight in January too
//	tarn     ines flies two (70 and 65 percent; 2nd in the known, 1st in the
//	         free, 3rd overall), tobias one that is void and one practice, yuki
//	         is known by the result alone
//	harbour  ines wins by result alone and does two duties; mara flies without
//	         a record in one category and with 50 percent in another
//	next     is still to come on 2026-11-25, with an entry paid that day and
//	         lodging to be paid there
//	far      is still to come, and nothing is known of it
var yearFlown = []string{
	"contest turn 2025-12-31..2026-01-02", "  result tobias place 1 of 2", "  duty judge ines",
	"flight 2026-01-01 ines known", "  contest turn", "  category sportsman", "  official 80 of 100",
	"contest tarn 2026-04-18..2026-04-19", "  result yuki 500.5 of 1000 place 2 of 4", "  result ines place 3",
	"  duty scribe tobias 2", "  duty judge tobias", "  duty scribe tobias",
	"  cost entry 95.00 EUR for ines by club", "  cost entry 90 CHF for yuki", "  cost entry -5.00 EUR for ines by club",
	"flight 2026-04-18 ines known", "  contest tarn", "  category intermediate", "  official 70 of 100", "  place 2 of 4",
	"flight 2026-04-19 ines free", "  contest tarn", "  category intermediate", "  official 65 of 100", "  place 1 of 4",
	"flight 2026-04-19 tobias known", "  contest tarn", "  category sportsman", "  official 99 of 100", `  void "reflown"`,
	"flight 2026-04-18 tobias practice", "  contest tarn", "  category sportsman", "  official 90 of 100",
	"contest harbour 2026-08-08", "  result ines place 1 of 3", "  duty judge ines 2", "  duty starter ines",
	"flight 2026-08-08 mara known", "  contest harbour", "  category sportsman", "  place 2 of 2",
	"flight 2026-08-08 mara free", "  contest harbour", "  category advanced", "  official 50 of 100",
	"flight 2026-09-01 mara free", "  category sportsman", "  official 40.5 of 100",
	"contest far 2026-12-24", "contest next 2026-12-12", "  cost 2026-11-25 entry 60 EUR for mara", "  cost lodging 45 EUR for mara", "  result mara place 1", "  duty judge mara",
	"flight 2026-12-12 mara free", "  contest next", "  category sportsman", "  official 90 of 100",
}

// pilotNumbers are contests, flights, practice flights and places.
func pilotNumbers(p analysis.PilotYear) []int {
	return append([]int{p.Contests, p.Flights, p.Practice}, p.Places[:]...)
}

func TestYearPilots(t *testing.T) {
	y := yearOf(t, yearBook(t, yearFlown...), 2026)
	require.Len(t, y.Pilots, 4)
	ines, tobias, yuki, mara := y.Pilots[0], y.Pilots[1], y.Pilots[2], y.Pilots[3]
	assert.Equal(t, []int{2, 2, 0, 1, 0, 1}, pilotNumbers(ines), "first by harbour's result, not by the free at tarn")
	assert.Equal(t, "70", ines.Best.RatString())
	assert.Equal(t, "135/2", ines.Mean.RatString())
	assert.Equal(t, []analysis.DutyYear{{Role: "judge", Sessions: 2}, {Role: "starter", Sessions: 1}}, ines.Duties)

	assert.Equal(t, []int{0, 0, 1, 0, 0, 0}, pilotNumbers(tobias), "a void flight and practice are no entry")
	assert.Nil(t, tobias.Best)
	assert.Nil(t, tobias.Mean)
	assert.Equal(t, []analysis.DutyYear{{Role: "judge", Sessions: 1}, {Role: "scribe", Sessions: 3}}, tobias.Duties)

	assert.Equal(t, []int{1, 0, 0, 0, 1, 0}, pilotNumbers(yuki), "known by the result alone")
	assert.Nil(t, yuki.Mean)

	assert.Equal(t, []int{1, 3, 0, 0, 0, 0}, pilotNumbers(mara), "what is after 2026-11-25 is not read")
	assert.Equal(t, "50", mara.Best.RatString())
	assert.Equal(t, "181/4", mara.Mean.RatString(), "(50 + 40.5) / 2; one flight has no record")
	assert.Empty(t, mara.Duties)
	assert.Equal(t, 1, y.Loose)
}

func TestYearContests(t *testing.T) {
	y := yearOf(t, yearBook(t, yearFlown...), 2026)
	require.Len(t, y.Contests, 3)
	tarn, harbour, next := y.Contests[0], y.Contests[1], y.Contests[2]
	assert.Equal(t, []any{"tarn", 2, 2}, []any{tarn.Contest.Handle, tarn.Entries, tarn.Flights})
	chf, eur := season.Currency{Code: "CHF", Decimals: 2}, season.Currency{Code: "EUR", Decimals: 2}
	assert.Equal(t, []season.Money{{Minor: 9000, Currency: chf}, {Minor: 9000, Currency: eur}}, tarn.Costs, "90 CHF; 95.00 - 5.00 EUR")
	assert.Len(t, tarn.Results, 2)
	assert.Equal(t, []any{"harbour", 2, 2}, []any{harbour.Contest.Handle, harbour.Entries, harbour.Flights})
	assert.Empty(t, harbour.Costs)
	assert.Equal(t, []any{"next", 0, 0}, []any{next.Contest.Handle, next.Entries, next.Flights})
	assert.Equal(t, []season.Money{{Minor: 6000, Currency: eur}}, next.Costs)
	assert.Empty(t, next.Results)
}

// The club's income with a contest is summed by currency: what was paid to it, less
// what went back, and what it billed; what it pays itself is none of it.
func TestYearContestsHaveTheirIncome(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"contest cup 2026-04-18..2026-04-19", "  cost entry 60 EUR for ines to club", "  cost entry -10 EUR for ines to club",
		"  cost entry 40 CHF for tobias by club to club", "  cost entry 70 EUR for yuki", "  cost hire 15 EUR for club by club to club",
		"contest late 2026-05-02", "  cost entry 70 EUR for yuki"), 2026)
	chf, eur := season.Currency{Code: "CHF", Decimals: 2}, season.Currency{Code: "EUR", Decimals: 2}
	assert.Equal(t, []season.Money{{Minor: 4000, Currency: chf}, {Minor: 5000, Currency: eur}}, y.Contests[0].Income, "60 - 10 EUR")
	assert.Empty(t, y.Contests[1].Income)
}

func TestYearCategories(t *testing.T) {
	y := yearOf(t, yearBook(t, yearFlown...), 2026)
	var got [][]any
	for _, c := range y.Categories {
		line := []any{c.Name, c.Entries, c.Flights}
		if c.Mean != nil {
			line = append(line, c.Best.RatString(), c.Mean.RatString())
		}
		got = append(got, line)
	}
	assert.Equal(t, [][]any{
		{"sportsman", 1, 2, "81/2", "81/2"}, // mara at harbour, and the flight that names no contest
		{"intermediate", 1, 2, "70", "135/2"},
		{"advanced", 1, 1, "50", "50"},
		{"", 2, 0}, // yuki at tarn and ines at harbour, by result alone
	}, got)
}

// A contest belongs to the year in which it begins.
func TestYearOfATurn(t *testing.T) {
	y := yearOf(t, yearBook(t, yearFlown...), 2025)
	require.Len(t, y.Pilots, 2)
	assert.Equal(t, []int{1, 1, 0, 0, 0, 0}, pilotNumbers(y.Pilots[0]))
	assert.Equal(t, "80", y.Pilots[0].Best.RatString())
	assert.Equal(t, []analysis.DutyYear{{Role: "judge", Sessions: 1}}, y.Pilots[0].Duties)
	assert.Equal(t, []int{1, 0, 0, 1, 0, 0}, pilotNumbers(y.Pilots[1]))
	require.Len(t, y.Contests, 1)
	assert.Equal(t, 2, y.Contests[0].Entries)
}
