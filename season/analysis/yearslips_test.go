package analysis_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season/analysis"
)

// What explains a pot that disagrees: a line of exactly that amount, the second of
// two alike before any other, one since the count before.
func TestSlips(t *testing.T) {
	before := "in-hand 2026-01-01 bank 100.00 EUR"
	for _, c := range []struct {
		name  string
		lines []string
		want  []string
	}{
		{"agrees", []string{"income 2026-02-01 landing-fees 30.00 EUR", "in-hand 2026-03-01 bank 130.00 EUR"}, nil},
		{"never came in", []string{"income 2026-02-01 landing-fees 30.00 EUR", "income 2026-02-02 prize 31.00 EUR", "in-hand 2026-03-01 bank 131.00 EUR"}, []string{"2026-02-01 30.00 false line 7"}},
		{"never went out", []string{"settle 2026-02-01 club ines 30.00 EUR", "in-hand 2026-03-01 bank 100.00 EUR"}, []string{"2026-02-01 -30.00 false line 7"}},
		{
			"typed twice",
			[]string{"income 2026-02-01 landing-fees 30.00 EUR", "settle 2026-02-03 ines club 30.00 EUR", "income 2026-02-05 landing-fees 30.00 EUR", "in-hand 2026-03-01 bank 160.00 EUR"},
			[]string{"2026-02-05 30.00 true line 9"},
		},
		{
			"typed twice, once with its receipt",
			[]string{"cost 2026-02-01 coaching 30.00 EUR for club receipt 5", "cost 2026-02-03 coaching 30.00 EUR for club", "in-hand 2026-03-01 bank 70.00 EUR"},
			[]string{"2026-02-03 -30.00 true line 8"},
		},
		{
			"typed twice, once with its receipt behind it",
			[]string{"cost 2026-02-01 coaching 30.00 EUR for club", "cost 2026-02-03 coaching 30.00 EUR for club receipt 5", "in-hand 2026-03-01 bank 70.00 EUR"},
			[]string{"2026-02-01 -30.00 true line 7"},
		},
		{
			"each with its own receipt, or far apart",
			[]string{"cost 2026-01-02 coaching 30.00 EUR for club", "cost 2026-02-01 coaching 30.00 EUR for club receipt 4", "cost 2026-02-03 coaching 30.00 EUR for club receipt 5", "in-hand 2026-03-01 bank 40.00 EUR"},
			[]string{"2026-01-02 -30.00 false line 7", "2026-02-01 -30.00 false line 8", "2026-02-03 -30.00 false line 9"},
		},
		{
			"a payment turned round",
			[]string{"cost 2026-01-15 membership 20.00 EUR each for ines tobias by club to club", "settle 2026-02-01 ines club 20.00 EUR", "settle 2026-02-02 club tobias 20.00 EUR", "in-hand 2026-03-01 bank 140.00 EUR"},
			[]string{"2026-02-02 -20.00 false line 9 turned"},
		},
		{
			"a payment to the club that owed it, turned round",
			[]string{"cost 2026-01-15 fuel 20.00 EUR for club by ines", "settle 2026-02-01 ines club 20.00 EUR", "in-hand 2026-03-01 bank 80.00 EUR"},
			[]string{"2026-02-01 20.00 false line 8 turned"},
		},
		{
			"a refund without its minus, and one that never came",
			[]string{"cost 2026-01-15 refund 20.00 EUR for club", "income 2026-01-16 prize 40.00 EUR", "cost 2026-01-17 tea 40.00 EUR for club", "in-hand 2026-03-01 bank 120.00 EUR"},
			[]string{"2026-01-15 -20.00 false line 7 turned", "2026-01-17 -40.00 false line 9"},
		},
		{
			"a cost typed as income",
			[]string{"income 2026-01-15 rent 20.00 EUR", "cost 2025-12-15 rent 21.00 EUR for club", "in-hand 2026-03-01 bank 80.00 EUR"},
			[]string{"2026-01-15 20.00 false line 7 turned"},
		},
		{
			"a count whose point is elsewhere",
			[]string{"in-hand 2026-03-01 bank 10.00 EUR", "income 2026-02-01 prize 90.00 EUR", "cost 2026-02-01 tea 90.00 EUR for club"},
			[]string{"2026-03-01 0.00 false line 7 10.00 for 100.00 point", "2026-01-01 0.00 false line 6 100.00 for 10.00 point", "2026-02-01 90.00 false line 8", "2026-02-01 -90.00 false line 9 again"},
		},
		{
			"a bill of the club that another paid, and lines that moved as much the other way",
			[]string{"cost 2026-02-01 hall 30.00 EUR for club by ines", "cost 2026-02-02 tea 30.00 EUR for tobias by ines", "cost 2026-02-03 fuel 30.00 EUR for tobias by club", "in-hand 2026-03-01 bank 40.00 EUR"},
			[]string{"2026-02-01 0.00 false line 7 by the club", "2026-02-03 -30.00 false line 9 again"},
		},
		{
			"either way with the same amount",
			[]string{"cost 2026-02-01 entry 30.00 EUR each for ines tobias by club", "settle 2026-02-05 ines club 30.00 EUR", "in-hand 2026-03-01 bank 40.00 EUR"},
			[]string{"2026-02-05 30.00 false line 8"},
		},
		{
			"content of another pot",
			[]string{"in-hand 2026-03-01 savings 40.00 EUR", "in-hand 2026-03-01 bank 60.00 EUR"},
			[]string{"2026-03-01 0.00 false line 7 nothing on 2026-01-01"},
		},
		{
			"two would do",
			[]string{"income 2026-02-01 landing-fees 30.00 EUR", "settle 2026-02-03 ines club 30.00 EUR", "in-hand 2026-03-01 bank 130.00 EUR"},
			[]string{"2026-02-01 30.00 false line 7", "2026-02-03 30.00 false line 8"},
		},
		{"another currency", []string{"income 2026-02-01 landing-fees 30.00 CHF", "in-hand 2026-03-01 bank 70.00 EUR"}, nil},
		{"after the count", []string{"income 2026-03-02 landing-fees 30.00 EUR", "in-hand 2026-03-01 bank 70.00 EUR"}, nil},
		{
			"dated in another year",
			[]string{"cost 2025-02-05 repair 30.00 EUR for club", "cost 2025-03-05 repair 30.00 EUR for club", "in-hand 2026-03-01 bank 70.00 EUR"},
			[]string{"2025-02-05 -30.00 false line 7 meant 2026-02-05"},
		},
		{"dated in another year, and one of the year would do", []string{"cost 2025-02-05 repair 30.00 EUR for club", "income 2026-02-05 prize 30.00 EUR", "in-hand 2026-03-01 bank 100.00 EUR"}, []string{"2026-02-05 30.00 false line 8", "2025-02-05 -30.00 false line 7 meant 2026-02-05"}},
		{"dated ahead and one of the year would do", []string{"income 2027-02-05 prize 30.00 EUR", "cost 2026-02-05 repair 30.00 EUR for club", "in-hand 2026-03-01 bank 100.00 EUR"}, []string{"2027-02-05 30.00 false line 7 meant 2026-02-05", "2026-02-05 -30.00 false line 8"}},
		{"dated two years before, and one of the year would do", []string{"cost 2024-02-05 repair 30.00 EUR for club", "income 2026-02-05 prize 30.00 EUR", "in-hand 2026-03-01 bank 100.00 EUR"}, []string{"2026-02-05 30.00 false line 8"}},
		{"dated ahead", []string{"income 2027-02-05 prize 30.00 EUR", "in-hand 2026-03-01 bank 130.00 EUR"}, []string{"2027-02-05 30.00 false line 7 meant 2026-02-05"}},
		{
			"one still to come before one of the year before",
			[]string{"income 2028-02-05 prize 30.00 EUR", "income 2025-02-05 prize 30.00 EUR", "in-hand 2026-03-01 bank 130.00 EUR"},
			[]string{"2028-02-05 30.00 false line 7 meant 2026-02-05", "2025-02-05 30.00 false line 8 meant 2026-02-05"},
		},
		{
			"dated in another year, whose count agreed",
			[]string{
				"in-hand 2024-12-31 bank 130.00 EUR", "cost 2025-02-05 repair 30.00 EUR for club", "in-hand 2025-12-31 bank 100.00 EUR",
				"in-hand 2026-03-01 bank 70.00 EUR",
			},
			nil,
		},
		{
			"dated in another year, whose count did not agree",
			[]string{
				"in-hand 2024-12-31 bank 130.00 EUR", "cost 2025-02-05 repair 30.00 EUR for club", "in-hand 2025-12-31 bank 130.00 EUR", "cost 2026-01-02 tea 30.00 EUR for club",
				"in-hand 2026-03-01 bank 40.00 EUR",
			},
			[]string{"2025-02-05 -30.00 false line 8 meant 2026-02-05"},
		},
		{"two digits swapped", []string{"cost 2026-02-05 repair 54.00 EUR for club", "cost 2026-02-06 tea 3.00 EUR for club", "in-hand 2026-03-01 bank 52.00 EUR"}, []string{"2026-02-05 -54.00 false line 7 54.00 for 45.00"}},
		{"two digits swapped, of what was charged exactly last", []string{"cost 2026-02-05 membership 21.00 EUR for ines by club to club", "settle 2026-02-06 ines club 21.00 EUR", "cost 2026-02-07 rent 12.00 EUR for club", "in-hand 2026-03-01 bank 100.00 EUR"}, []string{"2026-02-07 -12.00 false line 9 12.00 for 21.00", "2026-02-06 21.00 false line 8 21.00 for 12.00"}},
		{"two digits swapped, of each", []string{"cost 2026-02-05 entry 12.00 EUR each for ines tobias by club", "in-hand 2026-03-01 bank 58.00 EUR"}, []string{"2026-02-05 -24.00 false line 7 12.00 for 21.00"}},
		{"two digits of the count swapped", []string{"cost 2026-02-05 repair 26.11 EUR for club", "in-hand 2026-03-01 bank 78.39 EUR"}, []string{"2026-03-01 0.00 false line 8 78.39 for 73.89", "2026-02-05 -26.11 false line 7 26.11 for 21.61"}},
		{"two digits of the count swapped, and never came in", []string{"income 2026-02-05 prize 9.00 EUR", "income 2026-02-06 tea 23.00 EUR", "in-hand 2026-03-01 bank 123.00 EUR"}, []string{"2026-03-01 0.00 false line 9 123.00 for 132.00", "2026-02-05 9.00 false line 7"}},
		{
			"noted in another currency",
			[]string{"in-hand 2026-01-01 bank 50.00 GBP", "cost 2026-02-05 repair 30.00 GBP for club", "cost 2026-02-06 repair 30.00 CHF for club", "in-hand 2026-03-01 bank 50.00 GBP", "in-hand 2026-03-01 bank 70.00 EUR"},
			[]string{"2026-02-05 -30.00 false line 8 in EUR"},
		},
		{"no money moved", []string{"cost 2026-02-01 membership 30.00 EUR for ines by club to club", "in-hand 2026-03-01 bank 70.00 EUR"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := yearOf(t, yearBook(t, append([]string{"", before}, c.lines...)...), 2026)
			var got []string
			for _, s := range y.InHand[len(y.InHand)-1].Slips {
				said := fmt.Sprintf("%s %s %v line %d", s.Date, s.Moved.Text(), s.Twice, s.At().Line)
				if s.Meant != 0 {
					said += " meant " + s.Meant.String()
				}
				if s.MeantAmount.Minor != 0 {
					said += " " + s.Typed.Text() + " for " + s.MeantAmount.Text()
				}
				if s.MeantCurrency.Code != "" {
					said += " in " + s.MeantCurrency.Code
				}
				if s.Turned {
					said += " turned"
				}
				if s.Pointed {
					said += " point"
				}
				if s.Again {
					said += " again"
				}
				if s.ByClub {
					said += " by the club"
				}
				if s.ZeroOn != 0 {
					said += " nothing on " + s.ZeroOn.String()
				}
				got = append(got, said)
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// Where one line of another year explains two counts, both years name it, and a line of the
// later year that would as well.
func TestBothYearsNameTheLine(t *testing.T) {
	book := []string{
		"in-hand 2025-01-01 bank 1000.00 EUR", "income 2025-06-11 gift 95.00 EUR", "in-hand 2025-12-31 bank 1000.00 EUR",
		"cost 2026-04-11 hangar 95.00 EUR for club by club receipt 5", "in-hand 2026-06-30 bank 1000.00 EUR",
	}
	for _, year := range []int{2025, 2026} {
		y := yearOf(t, yearBook(t, book...), year)
		var got []string
		for _, s := range y.InHand[len(y.InHand)-1].Slips {
			got = append(got, fmt.Sprintf("line %d meant %s", s.At().Line, s.Meant))
		}
		assert.ElementsMatch(t, []string{"line 6 meant 2026-06-11", "line 8 meant 2025-04-11"}, got, year)
	}
}

// By the amount alone a line may be the other way round, or have its point elsewhere.
func TestLineByAmountAlone(t *testing.T) {
	lines := []string{"in-hand 2026-01-01 bank 1000.00 EUR", "cost 2026-02-05 repair 37.00 EUR for club", "income 2026-02-06 gift 412.03 EUR", "income 2026-02-07 gift 412.03 EUR"}
	for off, want := range map[int]string{-33300: "6 37.00 for 370.00", 3330: "6 37.00 for 3.70", 3663: "6 37.00 for 0.37", 7400: "6 turned", -3700: "6 again"} {
		counted := 178706 + off
		y := yearOf(t, yearBook(t, append(lines, fmt.Sprintf("in-hand 2026-03-01 bank %d.%02d EUR", counted/100, counted%100))...), 2026)
		var got []string
		for _, s := range y.InHand[1].Slips {
			said := fmt.Sprint(s.At().Line)
			switch {
			case s.Pointed:
				said += " " + s.Typed.Text() + " for " + s.MeantAmount.Text()
			case s.Turned:
				said += " turned"
			case s.Again:
				said += " again"
			}
			got = append(got, said)
		}
		assert.Equal(t, want, strings.Join(got, ", "))
		assert.Equal(t, int64(3), y.InHand[1].ByChance.Tried, "both gifts are lines")
	}
}

// A line's amount once more explains a count that nothing else does, with how often an
// amount alone would: by hand, of 200 differences of 0.50 to 50.00 either way five, with the
// lines the other way round, and the tea with its point elsewhere.
func TestLineOnceMore(t *testing.T) {
	lines := []string{"in-hand 2026-01-01 bank 100.00 EUR", "cost 2026-02-05 repair 7.50 EUR for club", "cost 2026-02-06 tea 1.50 EUR for club", "cost 2026-02-07 tea 1.50 EUR for club"}
	y := yearOf(t, yearBook(t, append(lines, "in-hand 2026-03-01 bank 82.00 EUR")...), 2026)
	h := y.InHand[1]
	require.Len(t, h.Slips, 1)
	assert.True(t, h.Slips[0].Again)
	assert.Equal(t, 6, h.Slips[0].At().Line)
	assert.Equal(t, analysis.SlipChance{Tried: 3, Reached: 5, Of: 200}, *h.ByChance)
	assert.Nil(t, h.Pairs)
	y = yearOf(t, yearBook(t, append(lines, "cost 2025-02-01 tea 7.50 EUR for club", "in-hand 2026-03-01 bank 82.00 EUR")...), 2026)
	assert.False(t, y.InHand[1].Slips[0].Again, "of another year is likelier")
	assert.Nil(t, y.InHand[1].ByChance)
	y = yearOf(t, yearBook(t, append(lines, "in-hand 2026-03-01 bank 82.00 EUR", "in-hand 2026-04-01 bank 89.50 EUR")...), 2026)
	assert.Empty(t, y.InHand[1].Slips, "a later count agrees")
}

// Where a later count agrees again, a count is blamed, unless a line before it would have its
// day in another year after the last count that was off as well.
func TestLinesOfAnotherYear(t *testing.T) {
	book := func(day, agreed string, more ...string) []string {
		lines := []string{"in-hand 2025-01-01 bank 100 EUR", "agreed " + agreed, "cost " + day + " repair 30 EUR for club", "income 2025-03-01 prize 5 EUR", "in-hand 2026-03-01 bank 105 EUR"}
		return append(append(lines, more...), "in-hand 2026-06-01 bank 75 EUR")
	}
	for _, c := range []struct {
		name  string
		lines []string
		want  string
	}{
		{"as agreed if it is of the other year", book("2025-05-05", "2025 5 EUR"), "line 7 meant 2026-05-05 agreed 2025"},
		{"as agreed if it is of this year", book("2025-05-05", "2026 -30 EUR"), "line 7 meant 2026-05-05 agreed 2026"},
		{"as agreed by no result", book("2025-05-05", "2025 1 EUR"), "line 7 meant 2026-05-05"},
		{"as agreed where it stands", book("2025-05-05", "2025 -25 EUR"), "blamed until 2026-06-01"},
		{"a day by which it had not moved", book("2025-05-05", "2025 5 EUR", "in-hand 2026-05-10 bank 105 EUR"), "blamed until 2026-06-01"},
		{"a day after it had moved", book("2025-06-02", "2025 5 EUR"), "blamed until 2026-06-01"},
		{"another amount", book("2025-05-05", "2025 5 EUR", "cost 2026-05-06 tea 1 EUR for club", "income 2026-05-06 tea 2 EUR"), ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			y := yearOf(t, yearBook(t, c.lines...), 2026)
			got, h := "", y.InHand[0]
			if h.AgreesLater != 0 {
				got = "blamed until " + h.AgreesLater.String()
			}
			for _, s := range h.Slips {
				if s.Meant != 0 {
					got += fmt.Sprintf("line %d meant %s", s.At().Line, s.Meant)
				}
				if s.FitsAgreed != 0 {
					got += fmt.Sprintf(" agreed %d", s.FitsAgreed)
				}
			}
			assert.Equal(t, c.want, got)
		})
	}
}

// Numbers that no slip has, of the year alone; a word is no number.
func TestReceipts(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"cost 2025-02-01 fuel 1 EUR for ines receipt 1", "cost 2026-02-01 fuel 2 EUR for ines receipt 3",
		"income 2026-02-01 prize 3 EUR receipt 12", "settle 2026-02-01 ines club 4 EUR receipt 9",
		"cost 2026-02-01 fuel 5 EUR for ines receipt 11", "cost 2026-02-02 fuel 6 EUR for ines receipt 11", "cost 2026-02-01 fuel 7 EUR for ines receipt B40",
	), 2026)
	assert.Equal(t, "{3 12 4 [{4 8} {10 10}]}", fmt.Sprint(y.Receipts))
	assert.Zero(t, yearOf(t, yearBook(t, "cost 2026-02-01 fuel 1 EUR for ines"), 2026).Receipts)
}

// What a contest cost each, the club's own part last.
func TestContestShares(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"contest c 2026-05-01", "  cost fuel 90 EUR for tobias 2 ines 1", "  cost tea 1 CHF for ines", "  cost lunches 5 EUR for club by ines",
		"cost 2026-05-01 fuel 7 EUR for ines",
	), 2026)
	var got []string
	for _, s := range y.Contests[0].Shares {
		for _, m := range s.Money {
			got = append(got, s.Party.Name()+" "+m.Text()+" "+m.Currency.Code)
		}
	}
	assert.Equal(t, []string{"ines 1.00 CHF", "ines 30.00 EUR", "tobias 60.00 EUR", "club 5.00 EUR"}, got)
}

// Numbers behind other signs are a numbering where few are missing; other people's stand
// far apart. A bill of dues and a payment have no slip.
func TestReceiptSeries(t *testing.T) {
	y := yearOf(t, yearBook(t,
		"cost 2026-02-01 fuel 1 EUR for club receipt 26-08", "income 2026-02-01 prize 3 EUR receipt 26-10", "settle 2026-02-01 ines club 4 EUR receipt 26-12",
		"cost 2026-02-02 fuel 5 EUR for club receipt 26-13", "cost 2026-02-02 fuel 6 EUR for ines by club",
		"cost 2026-02-03 fuel 7 EUR for ines receipt RE-1", "cost 2026-02-03 fuel 8 EUR for ines receipt RE-90", "cost 2026-02-03 fuel 9 EUR for ines receipt RE-17",
		"cost 2026-02-04 fuel 1 EUR for ines receipt B1", "cost 2026-02-04 fuel 2 EUR for ines receipt B3", "cost 2026-02-01 dues 9 EUR for ines by club to club",
	), 2026)
	require.Len(t, y.ReceiptSeries, 1)
	s := y.ReceiptSeries[0]
	assert.Equal(t, "26- [{9 9} {11 11}] 26-09", fmt.Sprint(s.Begins, " ", s.Missing, " ", s.Name(9)))
	assert.Equal(t, analysis.ReceiptLines{Lines: 4, Without: 1}, y.ReceiptLines)
}
