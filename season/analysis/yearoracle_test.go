package analysis_test

import (
	"cmp"
	"flag"
	"fmt"
	"maps"
	"math/big"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/accountoracle"
)

var (
	oracleYears = flag.Int("oracle-years", 300, "how many generated years to compare with the oracle")
	yearSeed    = flag.Uint64("oracle-year-seed", 20261231, "seed of the generated years")
)

// Every amount of a year is exactly the oracle's, which is written from the
// same rules and shares no code with it; the payments settle everything and
// are as few as the oracle finds by trying; a year opens as the one before
// closed.
func TestYearEqualsOracle(t *testing.T) {
	t.Logf("seed %d, %d years", *yearSeed, *oracleYears)
	random := rand.New(rand.NewPCG(*yearSeed, 0))
	met := map[string]int{}
	for i := range *oracleYears {
		text := (&moneyWriter{Rand: random}).ledger()
		if !t.Run(fmt.Sprint(i), func(t *testing.T) { compareYear(t, text, met) }) {
			t.Fatalf("the ledger:\n%s", text)
		}
	}
	for _, what := range []string{"both", "exchanged", "four payments", "a group by itself", "four currencies", "billed", "refund", "opening", "others", "for all", "each", "shares", "settled in another currency", "converted", "unpriced", "odd cents", "contest costs"} {
		assert.GreaterOrEqual(t, met[what], *oracleYears/50, "how often the years met: %s", what)
	}
}

func compareYear(t *testing.T, text string, met map[string]int) {
	l := loadYear(t, text)
	previous := yearOf(t, l, 2025)
	y, want := yearOf(t, l, 2026), accountoracle.Keep(text, 2026, "2026-11-25")
	got := amountsOf(y)
	for _, c := range []struct {
		name      string
		got, want accountoracle.Amounts
	}{
		{"opening", got.Opening, want.Opening},
		{"closing", got.Closing, want.Closing},
		{"paid", got.Paid, want.Paid},
		{"costs", got.Costs, want.Costs},
		{"income", got.Income, want.Income},
		{"closing of 2025", amountsOf(previous).Closing, want.Opening},
	} {
		require.Equal(t, without0(c.want), without0(c.got), c.name)
	}
	for name, amount := range want.Contests {
		if slices.ContainsFunc(y.Contests, func(c analysis.ContestYear) bool { return strings.HasPrefix(name, c.Contest.Handle+" ") }) {
			// As text: costs that come to nothing are 0, however that was summed.
			require.Equal(t, amount.String(), got.Contests[name].String(), name)
			met["contest costs"]++
		}
	}
	for name, worth := range want.Worth {
		require.Equal(t, worth.RatString(), worthOf(y, name), name)
	}
	require.Equal(t, want.Worth == nil, y.Club.Converted == nil)
	compareClubMoney(t, y, want, met)
	comparePooled(t, l, y, met)
	comparePayments(t, y, want, met)
	compareTotals(t, y, want)
	noteYear(met, y, text)
}

// compareTotals holds every total to the sum of the oracle's amounts.
func compareTotals(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts) {
	sum := func(all accountoracle.Amounts, match func(name []string) bool) *big.Int {
		total := new(big.Int)
		for name, amount := range all {
			if match(strings.Fields(name)) {
				total.Add(total, amount)
			}
		}
		return total
	}
	pilot := func(name string) bool {
		return slices.ContainsFunc(y.Pilots, func(p analysis.PilotYear) bool { return p.Pilot.Handle == name })
	}
	for _, total := range y.Totals {
		require.Zero(t, total.Opening, total.Currency.Code)
		require.Zero(t, total.Closing, total.Currency.Code)
		paid := sum(want.Paid, func(name []string) bool { return name[1] == total.Currency.Code })
		require.Equal(t, paid.String(), fmt.Sprint(total.Paid), total.Currency.Code)
	}
	for _, total := range y.PilotCostTotals {
		costs := sum(want.Costs, func(name []string) bool { return pilot(name[0]) && name[2] == total.Currency.Code })
		require.Equal(t, costs.String(), fmt.Sprint(total.Minor), total.Currency.Code)
	}
	for _, kind := range y.PilotCosts {
		costs := sum(want.Costs, func(name []string) bool {
			return pilot(name[0]) && name[1] == kind.Kind && name[2] == kind.Money.Currency.Code
		})
		require.Equal(t, costs.String(), fmt.Sprint(kind.Money.Minor), kind.Kind)
	}
	for name, books := range allBooks(y) {
		require.Len(t, books.IncomeTotals, len(books.CostTotals))
		for i, left := range books.Result() {
			own := func(fields []string) bool { return fields[0] == name && fields[2] == left.Currency.Code }
			costs, income := sum(want.Costs, own), sum(want.Income, own)
			require.Equal(t, costs.String(), fmt.Sprint(books.CostTotals[i].Minor), name)
			require.Equal(t, income.String(), fmt.Sprint(books.IncomeTotals[i].Minor), name)
			require.Equal(t, income.Sub(income, costs).String(), fmt.Sprint(left.Minor), name)
		}
	}
}

// without0 is amounts in words, those that are zero left out: what is not there
// is zero.
func without0(a accountoracle.Amounts) map[string]string {
	out := map[string]string{}
	for name, amount := range a {
		if amount.Sign() != 0 {
			out[name] = amount.String()
		}
	}
	return out
}

// amountsOf names the amounts of a year as the oracle does.
func amountsOf(y analysis.YearSummary) accountoracle.Accounts {
	out := accountoracle.Accounts{
		Opening: accountoracle.Amounts{}, Closing: accountoracle.Amounts{}, Paid: accountoracle.Amounts{},
		Costs: accountoracle.Amounts{}, Income: accountoracle.Amounts{}, Contests: accountoracle.Amounts{},
	}
	for name, books := range allBooks(y) {
		for _, a := range books.Accounts {
			account := name + " " + a.Currency.Code
			out.Opening[account], out.Closing[account], out.Paid[account] = big.NewInt(a.Opening), big.NewInt(a.Closing), big.NewInt(a.Paid)
		}
		for _, k := range books.Costs {
			out.Costs[name+" "+k.Kind+" "+k.Money.Currency.Code] = big.NewInt(k.Money.Minor)
		}
		for _, k := range books.Income {
			out.Income[name+" "+k.Kind+" "+k.Money.Currency.Code] = big.NewInt(k.Money.Minor)
		}
	}
	for _, c := range y.Contests {
		for _, m := range c.Costs {
			out.Contests[c.Contest.Handle+" "+m.Currency.Code] = big.NewInt(m.Minor)
		}
	}
	return out
}

func allBooks(y analysis.YearSummary) map[string]analysis.Books {
	books := map[string]analysis.Books{"club": y.Club}
	for _, p := range y.Pilots {
		books[p.Pilot.Handle] = p.Books
	}
	for _, p := range y.Others {
		books[p.Party.Name()] = p.Books
	}
	return books
}

// worthOf is a party's converted balance; who is not on the page has nothing.
func worthOf(y analysis.YearSummary, name string) string {
	books, there := allBooks(y)[name]
	if !there {
		return "0"
	}
	return books.Converted.Amount.RatString()
}

// comparePayments holds the payments to what stands between each and the club,
// and among the others to the fewest that the oracle finds.
func comparePayments(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts, met map[string]int) {
	toClub, among := accountoracle.Amounts{}, map[string][]analysis.Payment{}
	for _, p := range y.Payments {
		unit := p.Money.Currency.Code
		switch {
		case p.To.Club():
			require.NotContains(t, toClub, p.From.Name()+" "+unit, "one payment settles it")
			toClub[p.From.Name()+" "+unit] = big.NewInt(-p.Money.Minor)
		case p.From.Club():
			require.NotContains(t, toClub, p.To.Name()+" "+unit, "one payment settles it")
			toClub[p.To.Name()+" "+unit] = big.NewInt(p.Money.Minor)
		default:
			among[unit] = append(among[unit], p)
		}
	}
	stands := without0(want.WithClub)
	maps.DeleteFunc(stands, func(name, _ string) bool { return strings.HasPrefix(name, "club ") })
	require.Equal(t, stands, without0(toClub), "with the club each settles what stands between the two")
	for _, total := range y.Totals {
		unit := total.Currency.Code
		var open []int64
		left := map[string]int64{}
		for name, amount := range want.Among {
			if who, ok := strings.CutSuffix(name, " "+unit); ok && amount.Sign() != 0 {
				open, left[who] = append(open, amount.Int64()), amount.Int64()
			}
		}
		require.Len(t, among[unit], accountoracle.FewestPayments(openBalances(open)), unit)
		for _, p := range among[unit] {
			left[p.From.Name()] += p.Money.Minor
			left[p.To.Name()] -= p.Money.Minor
		}
		for who, minor := range left {
			require.Zero(t, minor, who)
		}
		if len(among[unit]) > 1 && len(stands) > 1 {
			met["both"]++
		}
	}
	require.Empty(t, y.Unproven)
}

// compareClubMoney holds what became of the result to the oracle's amounts, and
// each currency to the identity.
func compareClubMoney(t *testing.T, y analysis.YearSummary, want accountoracle.Accounts, met map[string]int) {
	moved := accountoracle.Amounts{}
	for _, m := range y.Money {
		require.Equal(t, m.Moved, m.Result-(m.Closing-m.Opening)+m.Exchanged, m.Currency.Code)
		closing := want.WithClub["club "+m.Currency.Code]
		require.Equal(t, fmt.Sprint(m.Closing), fmt.Sprint(cmp.Or(closing, new(big.Int))), m.Currency.Code)
		moved[m.Currency.Code] = big.NewInt(m.Moved)
		if m.Exchanged != 0 {
			met["exchanged"]++
		}
	}
	require.Equal(t, without0(want.Moved), without0(moved))
	owed := accountoracle.Amounts{}
	for _, o := range y.Owed {
		owed[o.Party.Name()+" "+o.Money.Currency.Code] = big.NewInt(-o.Money.Minor)
		require.NotZero(t, o.Since)
	}
	owing := without0(want.WithClub)
	maps.DeleteFunc(owing, func(name, minor string) bool { return strings.HasPrefix(name, "club ") || minor[0] != '-' })
	require.Equal(t, owing, without0(owed))
}

// comparePooled holds the fewest payments of one pool to the oracle's number.
func comparePooled(t *testing.T, l *season.Ledger, y analysis.YearSummary, met map[string]int) {
	pooled, err := analysis.YearSettled(l, y.Year, analysis.Settling{Fewest: true})
	require.NoError(t, err)
	balances := map[season.Currency][]season.Change{}
	add := func(p season.Party, b analysis.Books) {
		for _, a := range b.Accounts {
			balances[a.Currency] = append(balances[a.Currency], season.Change{Party: p, Minor: a.Closing})
		}
	}
	add(season.Party{}, y.Club)
	for _, p := range y.Pilots {
		add(season.Party{Pilot: p.Pilot}, p.Books)
	}
	for _, p := range y.Others {
		add(p.Party, p.Books)
	}
	payments := map[season.Currency][]analysis.Payment{}
	for _, p := range pooled.Payments {
		payments[p.Money.Currency] = append(payments[p.Money.Currency], p)
	}
	for currency, changes := range balances {
		requireEven(t, changes, payments[currency], nil)
		var minor []int64
		for _, c := range changes {
			minor = append(minor, c.Minor)
		}
		open := openBalances(minor)
		require.Len(t, payments[currency], accountoracle.FewestPayments(open), currency.Code)
		if len(payments[currency]) > 3 {
			met["four payments"]++
		}
		if len(open) > 0 && len(payments[currency]) < len(open)-1 {
			met["a group by itself"]++
		}
	}
	if len(balances) > 3 {
		met["four currencies"]++
	}
	require.Empty(t, pooled.Unproven)
}

// sharesLine is a cost with numbers of shares.
var sharesLine = regexp.MustCompile(` for [a-z]+ \d`)

// noteYear notes what a year has met.
func noteYear(met map[string]int, y analysis.YearSummary, text string) {
	seen := map[string]bool{
		"refund": strings.Contains(text, " -"), "converted": y.Club.Converted != nil, "unpriced": len(y.Unpriced) > 0,
		"others": len(y.Others) > 0, "for all": strings.Contains(text, " for all"), "each": strings.Contains(text, " each for "),
		"shares": sharesLine.MatchString(text), "settled in another currency": strings.Contains(text, " USD for "),
	}
	for _, b := range allBooks(y) {
		for _, a := range b.Accounts {
			seen["billed"] = seen["billed"] || a.Billed != 0
			seen["opening"] = seen["opening"] || a.Opening != 0
			seen["odd cents"] = seen["odd cents"] || a.Share%10 != 0
		}
	}
	for what, yes := range seen {
		if yes {
			met[what]++
		}
	}
}
