package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit"
)

// [derived]: elements of one family weigh by their K whatever figure they are in;
// those of an undecided figure are in none.
func TestFlightFamilies(t *testing.T) {
	f := testkit.BookOf(t, "pilot ann\nsequence s\n  category intermediate\n  1 7.4.1.1:10 9.1.1.1:6\n  2 9.1.3.4:2\n  3 5.2.1.1:17\n"+
		"flight 2026-05-01 ann known\n  sequence s\n  panel A B\n  rules panel-mean\n  1 8 8\n  2 6 6\n  3 HZ 7\n").Flights[0]
	var said []string
	for _, family := range analysis.FlightFamilies(f) {
		said = append(said, fmt.Sprintf("%s K %s %s", family.Group, family.K.RatString(), family.Percent.RatString()))
	}
	assert.Equal(t, []string{"7 K 10 80", "9.1 K 8 75"}, said, "9.1: (6 x 8 + 2 x 6) / 8, of 10")
}

// risingBook has flights a month apart, each three points above the one before.
func risingBook(flights int) string {
	var b strings.Builder
	b.WriteString("pilot ines\nsequence one\n  category sportsman\n  1 K 10\n")
	for i := range flights {
		fmt.Fprintf(&b, "flight 2026-%02d-01 ines known\n  sequence one\n  official %d of 100\n", i+1, 60+3*i)
	}
	return b.String()
}

// [derived]: flights on one line give it back, from the first day to the last.
func TestTrendLine(t *testing.T) {
	lines := func(flights int) (analysis.TrendLine, bool) {
		l := testkit.BookOf(t, risingBook(flights))
		season := analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines")})
		require.Len(t, season.Trends(), 1)
		return season.TrendLine(season.Trends()[0])
	}
	line, ok := lines(8)
	require.True(t, ok)
	assert.Equal(t, "2026-01-01 to 2026-08-01", line.First.String()+" to "+line.Last.String())
	assert.InDelta(t, 60, line.AtFirst, 0.5)
	assert.InDelta(t, 81, line.AtLast, 0.5)
	_, ok = lines(2)
	assert.False(t, ok, "too few flights for a slope")
}

// [derived]: flights of two categories in one contest are two parts, each with its
// sum; together they are the contest's.
func TestContestParts(t *testing.T) {
	l := testkit.BookOf(t, "pilot ines\nsequence sp\n  category sportsman\n  1 K 10\nsequence im\n  category intermediate\n  1 K 20\n"+
		"contest cup 2026-04-18..2026-04-19\n  panel A\n  result ines 230 of 300\n"+
		"flight 2026-04-18 ines known\n  contest cup\n  sequence sp\n  1 7\nflight 2026-04-19 ines known\n  contest cup\n  sequence im\n  1 8\n")
	contests := analysis.SeasonOf(l, season.Selection{Pilot: l.PilotNamed("ines")}).Contests
	require.Len(t, contests, 1)
	var said []string
	for _, part := range contests[0].Parts {
		said = append(said, fmt.Sprintf("%s %d: %s", part.Category, part.Flights, testkit.RecordText(part.Sum)))
	}
	assert.Equal(t, []string{"sportsman 1: 70.00 of 100.00 = 70.00 computed", "intermediate 1: 160.00 of 200.00 = 80.00 computed"}, said)
	assert.True(t, contests[0].MaximumTyped)
	assert.Equal(t, "230.00 of 300.00 = 76.67 official", testkit.RecordText(contests[0].Result))
}
