package season_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/internal/testkit"
)

var (
	euro  = season.Currency{Code: "EUR", Decimals: 2}
	yen   = season.Currency{Code: "JPY"}
	dinar = season.Currency{Code: "BHD", Decimals: 3}
)

func TestMoneyText(t *testing.T) {
	for _, test := range []struct {
		money season.Money
		want  string
	}{
		{season.Money{Minor: 9500, Currency: euro}, "95.00"},
		{season.Money{Minor: 5, Currency: euro}, "0.05"},
		{season.Money{Minor: 50, Currency: euro}, "0.50"},
		{season.Money{Minor: 0, Currency: euro}, "0.00"},
		{season.Money{Minor: -1500, Currency: euro}, "-15.00"},
		{season.Money{Minor: -5, Currency: euro}, "-0.05"},
		{season.Money{Minor: 123456, Currency: yen}, "123456"},
		{season.Money{Minor: -7, Currency: yen}, "-7"},
		{season.Money{Minor: 0, Currency: yen}, "0"},
		{season.Money{Minor: 12, Currency: dinar}, "0.012"},
		{season.Money{Minor: 100_000_000_000_000, Currency: euro}, "1000000000000.00"},
	} {
		assert.Equal(t, test.want, test.money.Text())
	}
}

func TestPartyName(t *testing.T) {
	assert.Equal(t, "club", season.Party{}.Name())
	assert.Equal(t, "ines", season.Party{Pilot: &season.Pilot{Handle: "ines"}}.Name())
}

// parties makes n pilots, p0, p1 ...
func parties(n int) []season.Party {
	list := make([]season.Party, n)
	for i := range list {
		list[i] = season.Party{Pilot: &season.Pilot{Handle: fmt.Sprintf("p%d", i)}}
	}
	return list
}

// Several share equally; odd cents go one each to the first named, of a refund
// too.
func TestShares(t *testing.T) {
	for _, test := range []struct {
		minor int64
		among int
		want  []int64
	}{
		{18000, 3, []int64{6000, 6000, 6000}},
		{10000, 3, []int64{3334, 3333, 3333}},
		{10001, 3, []int64{3334, 3334, 3333}},
		{1, 3, []int64{1, 0, 0}},
		{2, 3, []int64{1, 1, 0}},
		{0, 3, []int64{0, 0, 0}},
		{9500, 1, []int64{9500}},
		{-1500, 2, []int64{-750, -750}},
		{-10000, 3, []int64{-3334, -3333, -3333}},
		{-1, 4, []int64{-1, 0, 0, 0}},
	} {
		cost := &season.Cost{Money: season.Money{Minor: test.minor, Currency: euro}, For: parties(test.among)}
		assert.Equal(t, test.want, cost.Shares(), "%d among %d", test.minor, test.among)
	}
}

// balancesOf applies every movement of a book and lists who is owed what.
func balancesOf(t *testing.T, text string) []string {
	t.Helper()
	balances := season.Balances{}
	for _, m := range season.Movements(testkit.BookOf(t, text)) {
		balances.Apply(m)
	}
	var list []string
	for account, minor := range balances {
		if minor != 0 {
			money := season.Money{Minor: minor, Currency: account.Currency}
			list = append(list, strings.Join([]string{account.Party.Name(), money.Text(), account.Currency.Code}, " "))
		}
	}
	slices.Sort(list)
	return list
}

const crew = "pilot ines\npilot mara\npilot tobias\npilot yuki\n"

// Balance = paid for others - paid by others for one + settlements paid -
// received + owed by others - owed to others; positive is owed.
func TestBalances(t *testing.T) {
	for _, test := range []struct {
		name, text string
		want       []string
	}{
		{"paid for oneself", "cost 2026-01-10 fuel 61.40 EUR for ines\n", nil},
		{"the club paid an entry", "cost 2026-01-10 entry 95.00 EUR for ines by club\n", []string{"club 95.00 EUR", "ines -95.00 EUR"}},
		{
			"one pays for three, himself among them", "cost 2026-04-18 lodging 100.00 EUR for ines tobias yuki by yuki\n",
			[]string{"ines -33.34 EUR", "tobias -33.33 EUR", "yuki 66.67 EUR"},
		},
		{"for the club by a member", "cost 2026-02-01 hall-hire 80.00 EUR for club by tobias\n", []string{"club -80.00 EUR", "tobias 80.00 EUR"}},
		{"a fee paid to the club", "cost 2026-01-10 membership 120.00 EUR for ines to club\n", nil},
		{"a fee still unpaid", "cost 2026-01-10 membership 120.00 EUR for mara by club to club\n", []string{"club 120.00 EUR", "mara -120.00 EUR"}},
		{"a refund that another received", "cost 2026-05-20 entry -15.00 EUR for tobias by yuki\n", []string{"tobias 15.00 EUR", "yuki -15.00 EUR"}},
		{"a debt older than the book", "owed 2026-01-01 ines club 40.00 EUR\n", []string{"club 40.00 EUR", "ines -40.00 EUR"}},
		{"a debt that is settled", "owed 2026-01-01 ines club 40.00 EUR\nsettle 2026-03-01 ines club 40.00 EUR\n", nil},
		{"settled in part", "owed 2026-01-01 ines club 40.00 EUR\nsettle 2026-03-01 ines club 15.50 EUR\n", []string{"club 24.50 EUR", "ines -24.50 EUR"}},
		{"income moves nothing", "income 2026-03-01 sponsorship 300.00 EUR\nincome 2026-05-17 prize 50 EUR for yuki\n", nil},
		{
			"currencies are never mixed", "cost 2026-08-08 entry 80.00 CHF for ines by club\nowed 2026-01-01 club ines 80.00 EUR\n",
			[]string{"club -80.00 EUR", "club 80.00 CHF", "ines -80.00 CHF", "ines 80.00 EUR"},
		},
	} {
		t.Run(test.name, func(t *testing.T) {
			assert.Equal(t, test.want, balancesOf(t, crew+test.text))
		})
	}
}

// Movements come by date; on one day debts, then costs, then settlements, each
// as they stand, those of contests on the contest's first day.
func TestMovementsByDate(t *testing.T) {
	l := testkit.BookOf(t, crew+`
settle 2026-04-18 ines club 1 EUR
cost   2026-04-19 fuel 2 EUR for ines by club
cost   2026-04-18 fuel 3 EUR for ines by club
contest cup 2026-04-18..2026-04-19
  cost entry 4 EUR for ines by club
  cost 2026-04-17 fuel 5 EUR for ines by club
owed   2026-04-18 ines club 6 EUR
settle 2026-01-01 club ines 7 EUR
income 2026-04-18 prize 8 EUR
`)
	var got []string
	for _, m := range season.Movements(l) {
		first := m.Changes[0]
		got = append(got, fmt.Sprintf("%s %s %d %t", m.Date, first.Party.Name(), first.Minor, m.Settlement != nil))
	}
	assert.Equal(t, []string{
		"2026-01-01 club 700 true",
		"2026-04-17 club 500 false",
		"2026-04-18 ines -600 false",
		"2026-04-18 club 400 false",
		"2026-04-18 club 300 false",
		"2026-04-18 ines 100 true",
		"2026-04-19 club 200 false",
	}, got)
}

// Whatever the amounts, nothing is lost: shares add up to the cost, every
// movement sums to zero, and what stands between any two adds up to balances.
func TestMovementsSumToZero(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		people := parties(5)
		who := rapid.SampledFrom(append(people, season.Party{}))
		money := func() season.Money {
			return season.Money{Minor: rapid.Int64Range(-1_000_000_000_000, 1_000_000_000_000).Draw(t, "minor"), Currency: rapid.SampledFrom([]season.Currency{euro, yen}).Draw(t, "currency")}
		}
		book := &season.Ledger{}
		for range rapid.IntRange(0, 6).Draw(t, "costs") {
			among := rapid.IntRange(1, 5).Draw(t, "for")
			weights := rapid.SliceOfN(rapid.Int64Range(1, 100_000), among, among).Draw(t, "weights")
			cost := &season.Cost{Weights: weights, Money: money(), By: who.Draw(t, "by"), For: people[:among], Date: season.Date(rapid.IntRange(0, 3).Draw(t, "date"))}
			checkShares(t, cost)
			book.Costs = append(book.Costs, cost)
		}
		for range rapid.IntRange(0, 4).Draw(t, "settlements") {
			book.Settlements = append(book.Settlements, &season.Settlement{From: who.Draw(t, "from"), To: who.Draw(t, "to"), Money: money()})
			book.Debts = append(book.Debts, &season.Debt{From: who.Draw(t, "from"), To: who.Draw(t, "to"), Money: money()})
		}
		balances, totals := season.Balances{}, map[season.Currency]int64{}
		for _, m := range season.Movements(book) {
			sum := int64(0)
			for _, c := range m.Changes {
				sum += c.Minor
			}
			require.Zero(t, sum)
			balances.Apply(m)
		}
		for account, minor := range balances {
			totals[account.Currency] += minor
		}
		for currency, total := range totals {
			require.Zero(t, total, currency.Code)
		}
		sameFromPostings(t, book, balances, append(people, season.Party{}))
	})
}

// checkShares holds the shares of a cost: they add up, and each is its part of
// the whole, rounded down, or a unit more, which the first named have.
func checkShares(t *rapid.T, cost *season.Cost) {
	shares := cost.Shares()
	total, sum, more := int64(0), int64(0), true
	for _, w := range cost.Weights {
		total += w
	}
	for i, share := range shares {
		sum += share
		exact := new(big.Rat).Mul(big.NewRat(max(cost.Money.Minor, -cost.Money.Minor), 1), big.NewRat(cost.Weights[i], total))
		down := new(big.Int).Quo(exact.Num(), exact.Denom()).Int64()
		got := max(share, -share)
		require.Contains(t, []int64{down, down + 1}, got)
		require.True(t, more || got == down, "the first named have the odd units")
		more = got > down
	}
	require.Equal(t, cost.Money.Minor, sum)
}

// sameFromPostings holds what stands between any two against the balances.
func sameFromPostings(t *rapid.T, book *season.Ledger, balances season.Balances, parties []season.Party) {
	standing := season.Standing{}
	for _, p := range season.Postings(book) {
		standing.Post(p)
	}
	for _, c := range []season.Currency{euro, yen} {
		for _, p := range parties {
			sum := int64(0)
			for _, other := range parties {
				require.Equal(t, standing.Owes(other, p, c), -standing.Owes(p, other, c))
				sum += standing.Owes(other, p, c)
			}
			require.Equal(t, balances[season.Account{Party: p, Currency: c}], sum)
		}
	}
}
