package analysis_test

import (
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/accountoracle"
)

// On generated ledgers, what a party carried in and its lines make what it carries
// out, and both are the amounts of an oracle that is written from the same rules
// and shares no code; so are the party's costs, and what the club's money moved.
// The payments are the year's.
func TestStatementsEqualOracle(t *testing.T) {
	random := rand.New(rand.NewPCG(*yearSeed, 18))
	met := map[string]int{}
	for i := range *oracleYears {
		text := (&moneyWriter{Rand: random}).ledger()
		if !t.Run(fmt.Sprint(i), func(t *testing.T) { compareStatements(t, text, met) }) {
			t.Fatalf("the ledger:\n%s", text)
		}
	}
	for _, what := range []string{"carried in", "alone", "an older debt", "several currencies", "with several", "income", "cash", "paid in another currency"} {
		assert.GreaterOrEqual(t, met[what], *oracleYears/50, "how often the statements met: %s", what)
	}
}

func compareStatements(t *testing.T, text string, met map[string]int) {
	l := loadYear(t, text)
	y, want := yearOf(t, l, 2026), accountoracle.Keep(text, 2026, "2026-11-25")
	parties := analysis.Stated(l, y)
	statements, err := analysis.Statements(l, y, parties)
	require.NoError(t, err)
	got := accountoracle.Accounts{Opening: accountoracle.Amounts{}, Closing: accountoracle.Amounts{}, Costs: accountoracle.Amounts{}, Income: accountoracle.Amounts{}}
	var payments []analysis.Payment
	for _, s := range statements {
		require.NotEmpty(t, len(s.Lines)+len(s.Accounts))
		addStatement(t, s, got)
		for _, p := range s.Payments {
			if p.From == s.Party || p.From.Club() { // each once
				payments = append(payments, p)
			}
		}
		noteStatement(met, s)
	}
	require.ElementsMatch(t, y.Payments, payments)
	for _, c := range []struct {
		name      string
		got, want accountoracle.Amounts
	}{
		{"carried in", got.Opening, want.Opening},
		{"carried out", got.Closing, want.Closing},
		{"shares", got.Costs, want.Costs},
		{"income", got.Income, want.Income},
	} {
		others := without0(c.want)
		maps.DeleteFunc(others, func(name, _ string) bool { return strings.HasPrefix(name, "club ") })
		require.Equal(t, others, without0(c.got), c.name)
	}
	compareCash(t, text, l, met)
}

// addStatement adds a statement's lines up, line by line.
func addStatement(t *testing.T, s analysis.Statement, got accountoracle.Accounts) {
	running := map[string]int64{}
	for _, a := range s.Accounts {
		name := s.Party.Name() + " " + a.Currency.Code
		running[name] = a.Opening
		got.Opening[name], got.Closing[name] = big.NewInt(a.Opening), big.NewInt(a.Closing)
		require.Equal(t, a.Closing, a.Opening-a.Share+a.Out-a.In+a.Owed, name)
	}
	add := func(to accountoracle.Amounts, name string, minor int64) {
		if to[name] == nil {
			to[name] = new(big.Int)
		}
		to[name].Add(to[name], big.NewInt(minor))
	}
	for _, line := range s.Lines {
		name := s.Party.Name() + " " + line.Amount.Currency.Code
		running[name] += line.Change
		require.Equal(t, running[name], line.Running, name)
		switch c := line.Cost; {
		case c != nil && c.Income:
			require.Zero(t, line.Change)
			add(got.Income, s.Party.Name()+" "+c.Kind+" "+c.Money.Currency.Code, line.In)
		case c != nil:
			require.Equal(t, line.Change, line.Out-line.Share)
			add(got.Costs, s.Party.Name()+" "+c.Kind+" "+c.Money.Currency.Code, line.Share)
		case line.Settlement != nil:
			require.Equal(t, line.Change, line.Out-line.In)
		}
		require.NotContains(t, line.With, s.Party, "nobody pays himself")
		require.True(t, !line.Alone() || line.Change == 0)
	}
	for _, a := range s.Accounts {
		name := s.Party.Name() + " " + a.Currency.Code
		require.Equal(t, a.Closing, running[name], name)
	}
}

func noteStatement(met map[string]int, s analysis.Statement) {
	seen := map[string]bool{"several currencies": len(s.Accounts) > 1}
	for _, a := range s.Accounts {
		seen["carried in"] = seen["carried in"] || a.Opening != 0
		seen["income"] = seen["income"] || a.Income != 0
	}
	for _, line := range s.Lines {
		seen["alone"] = seen["alone"] || line.Alone()
		seen["an older debt"] = seen["an older debt"] || line.Debt != nil
		seen["with several"] = seen["with several"] || len(line.With) > 1
	}
	for what, yes := range seen {
		if yes {
			met[what]++
		}
	}
}

// compareCash holds the cash book to the oracle's money moved: what is carried in
// is what moved in the years before, and each line goes on from the one before.
// Counts shift all balances by what was found, and move nothing.
func compareCash(t *testing.T, text string, l *season.Ledger, met map[string]int) {
	y := yearOf(t, l, 2026)
	book := analysis.CashBookOf(l, y)
	opening, closing := accountoracle.Amounts{}, accountoracle.Amounts{}
	for year := 2024; year <= 2026; year++ {
		for unit, amount := range accountoracle.Keep(text, year, "2026-11-25").Moved {
			for _, to := range []accountoracle.Amounts{opening, closing} {
				if to[unit] == nil {
					to[unit] = new(big.Int)
				}
			}
			if year < 2026 {
				opening[unit].Add(opening[unit], amount)
			}
			closing[unit].Add(closing[unit], amount)
		}
	}
	gotOpening, gotClosing := cashOf(t, book)
	require.Equal(t, without0(opening), without0(gotOpening))
	require.Equal(t, without0(closing), without0(gotClosing))
	for _, line := range book.Lines {
		met["cash"]++
		if s := line.Settlement; s != nil && s.Paid.Currency != s.Money.Currency {
			met["paid in another currency"]++
		}
	}
	counted := loadYear(t, text+"in-hand 2025-06-30 bank 1000.00 EUR\nin-hand 2026-03-31 bank 1234.56 EUR\nin-hand 2026-06-30 cash-box 77.00 EUR\nin-hand 2026-12-31 bank 1.00 EUR\n")
	requireShifted(t, book, analysis.CashBookOf(counted, yearOf(t, counted, 2026)), counted)
}

// cashOf are the balances at both ends, with the lines added up.
func cashOf(t *testing.T, book analysis.CashBook) (opening, closing accountoracle.Amounts) {
	opening, closing = accountoracle.Amounts{}, accountoracle.Amounts{}
	running := map[string]int64{}
	for _, total := range book.Totals {
		unit := total.Currency.Code
		opening[unit], closing[unit], running[unit] = big.NewInt(total.Opening), big.NewInt(total.Closing), total.Opening
	}
	for _, line := range book.Lines {
		unit := line.Currency.Code
		running[unit] += line.In - line.Out + line.Found
		require.Equal(t, running[unit], line.Running, unit)
	}
	for _, total := range book.Totals {
		require.Equal(t, total.Closing, running[total.Currency.Code])
	}
	return opening, closing
}

// requireShifted holds a cash book with counts to the same without: every balance
// in the currency that was counted lies higher by one amount, up to the day on
// which another pot is opened.
func requireShifted(t *testing.T, without, with analysis.CashBook, l *season.Ledger) {
	eur := season.Currency{Code: "EUR", Decimals: 2}
	day := func(text string) season.Date { return yearDay(t, text) }
	shift := 100000 - l.ClubMoved(eur, 0, day("2025-06-30"))
	bare := slices.DeleteFunc(slices.Clone(with.Lines), func(c analysis.CashLine) bool { return c.Count != nil })
	require.Len(t, bare, len(without.Lines))
	for i, line := range without.Lines {
		higher := bare[i].Running - line.Running
		switch {
		case line.Currency != eur:
			require.Zero(t, higher)
		case line.Date <= day("2026-06-30"):
			require.Equal(t, shift, higher)
		default:
			require.Equal(t, shift+7700, higher)
		}
	}
	for _, line := range with.Lines {
		if line.Count != nil && line.Count.Own != nil {
			require.Equal(t, line.Count.Own.Minor, line.Running, "one pot: what the year's page has is the running balance")
		}
	}
	require.Len(t, with.Lines, len(without.Lines)+2, "a count after the day is none")
}

// Each cost, income, settlement and debt after a year is a line that followed, up to the
// day that stands for today; a count of what is in hand is none.
func TestLinesAfterAYear(t *testing.T) {
	lines := []string{
		"cost 2025-01-10 membership 50.00 EUR for ines by club to club", "income 2026-01-10 sponsorship 10.00 EUR", "income 2026-02-10 sponsorship 11.00 EUR",
		"cost 2026-03-01 hall-hire 5.00 EUR for club by club", "cost 2026-03-02 tea 6.00 EUR for ines", "settle 2026-03-03 ines club 50.00 EUR",
		"owed 2026-03-04 tobias club 7.00 EUR", "in-hand 2026-03-05 bank 66.00 EUR", "income 2026-11-26 sponsorship 12.00 EUR",
	}
	l := yearBook(t, lines...)
	assert.Equal(t, 6, analysis.LinesAfter(l, yearOf(t, l, 2025)))
	assert.Zero(t, analysis.LinesAfter(l, yearOf(t, l, 2026)))
}
