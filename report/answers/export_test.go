package answers_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/season"
)

// moneyLedger is a ledger of money made by chance: shares that do not divide,
// refunds, bills of the club, older debts and settlements, three currencies.
func moneyLedger(dice *rand.Rand) string {
	parties := []string{"ines", "tobias", "yuki", "marek", "rolf", "club"}
	one := func(words ...string) string { return words[dice.IntN(len(words))] }
	day := func() string { return fmt.Sprintf("202%d-%02d-%02d", 4+dice.IntN(3), 1+dice.IntN(12), 1+dice.IntN(28)) }
	amount := func() string {
		return one(fmt.Sprintf("%d EUR", dice.IntN(500)), fmt.Sprintf("%d.%02d CHF", dice.IntN(90), dice.IntN(100)), fmt.Sprintf("%d JPY", dice.IntN(9000)))
	}
	var b strings.Builder
	b.WriteString("pilot ines\npilot tobias\npilot yuki\ncoach marek\nperson rolf\n")
	for range 25 {
		from, to := one(parties...), one(parties...)
		switch dice.IntN(6) {
		case 0:
			fmt.Fprintf(&b, "income %s grant %s\n", day(), amount())
		case 1, 2:
			if from != to {
				fmt.Fprintf(&b, "%s %s %s %s %s\n", one("owed", "settle"), day(), from, to, amount())
			}
		case 3:
			fmt.Fprintf(&b, "cost %s entry %s for ines 2 yuki 1 by %s\n", day(), amount(), from)
		case 4:
			fmt.Fprintf(&b, "cost %s dues %s each for tobias ines rolf by club to club\n", day(), amount())
		default:
			fmt.Fprintf(&b, "cost %s fuel %s%s for %s by %s\n", day(), one("", "-"), amount(), one("ines tobias yuki", "club", to), from)
		}
	}
	return b.String()
}

// What a party gave less what it had is its balance, in every currency, whatever
// the year.
func TestExportedMoneyGivesEveryBalance(t *testing.T) {
	dice, compared, incomes := rand.New(rand.NewPCG(20261128, 0)), 0, 0
	for range 200 {
		text := moneyLedger(dice)
		l := testkit.BookAsOf(t, text, "2026-11-25")
		for year := 2024; year <= 2026; year++ {
			summary, err := answers.YearOf(l, year)
			require.NoError(t, err)
			got, without := balancesOf(t, answers.ExportMoneyOf(l, season.Selection{Until: endOf(t, year)}))
			incomes += without
			for _, party := range summary.Parties {
				for _, sum := range party.Balance {
					compared++
					key := party.Party + " " + sum.Currency
					want, _ := new(big.Rat).SetString(sum.Amount.Text())
					if got[key] == nil {
						got[key] = new(big.Rat)
					}
					require.Zero(t, want.Cmp(got[key]), "%d %s: %s, exported %s\n%s", year, key, want, got[key], text)
					delete(got, key)
				}
			}
			for key, left := range got {
				assert.Zero(t, left.Sign(), "%d %s has a balance that the year has not\n%s", year, key, text)
			}
		}
	}
	assert.Greater(t, compared, 5000)
	assert.Positive(t, incomes)
}

func endOf(t *testing.T, year int) season.Date {
	t.Helper()
	day, ok := season.DateOf(year, 12, 31)
	require.True(t, ok)
	return day
}

// balancesOf sums what is given less what is had by party and currency, and counts
// the rows without parties.
func balancesOf(t *testing.T, rows []answers.ExportPosting) (map[string]*big.Rat, int) {
	t.Helper()
	sums, without := map[string]*big.Rat{}, 0
	for _, row := range rows {
		if row.From == "" {
			assert.Equal(t, answers.EntryIncome, row.Entry)
			without++
			continue
		}
		amount, ok := new(big.Rat).SetString(row.Amount.Text())
		require.True(t, ok)
		for _, side := range []struct {
			party string
			sign  int64
		}{{row.From, 1}, {row.To, -1}} {
			key := side.party + " " + row.Currency
			if sums[key] == nil {
				sums[key] = new(big.Rat)
			}
			sums[key].Add(sums[key], new(big.Rat).Mul(amount, big.NewRat(side.sign, 1)))
		}
	}
	return sums, without
}

// The shares of one line have one number and its place; what is dated after the
// day of asking is not there.
func TestExportedMoneyNamesItsLine(t *testing.T) {
	l := testkit.BookAsOf(t, `pilot ines
pilot yuki
settle 2026-05-01 ines yuki 5 EUR receipt 7
contest tarn 2026-05-01
  cost entry 10.01 EUR for ines 2 yuki 1 by ines receipt A-4 "both"
cost 2026-12-24 fuel 9 EUR for club by yuki
`, "2026-11-25")
	rows := answers.ExportMoneyOf(l, season.Selection{})
	require.Len(t, rows, 3)
	var said []string
	for _, r := range rows {
		said = append(said, fmt.Sprint(r.Number, " ", r.Entry, " ", r.From, ">", r.To, " ", r.Amount.Text(), " ", r.Kind, r.Contest, "[", r.For, "] ", r.Receipt, r.Remark, " ", r.Line))
	}
	assert.Equal(t, []string{
		"1 cost ines>ines 6.68 entrytarn[ines 2 yuki 1] A-4both 5",
		"1 cost ines>yuki 3.33 entrytarn[ines 2 yuki 1] A-4both 5",
		"2 settle ines>yuki 5.00 [] 7 3",
	}, said)
	assert.Len(t, answers.ExportMoneyOf(l, season.Selection{Contest: l.Contests[0]}), 2)
	assert.Len(t, answers.ExportMoneyOf(l, season.Selection{Pilot: l.Pilots[1]}), 2)
}
