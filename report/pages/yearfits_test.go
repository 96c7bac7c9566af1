package pages_test

import (
	"fmt"
	"math/big"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
)

// crowdLedger is a club of many with long names, many kinds and the largest
// amounts that a ledger takes.
func crowdLedger() string {
	var b strings.Builder
	people := 16
	for i := range people {
		fmt.Fprintf(&b, "pilot p%d\n  name \"Pilot Number %d Of The Long And Winding Family Name %d\"\n", i, i, i)
	}
	b.WriteString("contest tarn-open 2026-04-18\n  name \"Tarn Valley Open and Longmere Autumn Ladder, both days together\"\n")
	for i, unit := range []string{"EUR", "CHF", "JPY", "BHD"} {
		for p := range people {
			fmt.Fprintf(&b, "  cost parachute-repack-%d 1000%02d0%d7.%s for p%d by p%d\n", p%9, 3*p, i, []string{"11 EUR", "12 CHF", "0 JPY", "123 BHD"}[i], p, (p*p+1)%people)
		}
		fmt.Fprintf(&b, "  cost lodging 10000000 %s for club by p%d\n", unit, i)
	}
	for p := range people {
		fmt.Fprintf(&b, "  duty judge-of-lines p%d 2\n  duty scribe p%d 12\n  result p%d 123456.789 of 200000 place %d of 16\n", p, p, p, p+1)
	}
	b.WriteString("owed 2026-01-01 p1 p2 9999999.99 EUR\nsettle 2026-01-01 p2 p3 9999999.99 EUR\ncost 2026-01-01 membership 10 EUR for p4 by club to club\n")
	b.WriteString("rate 2026 CHF 1.04 EUR\n")
	return strings.ReplaceAll(b.String(), ".0 JPY", " JPY")
}

// Nothing is wider than 80 columns and nothing is left out for it, however
// large the club and its amounts are.
func TestYearFits(t *testing.T) {
	doc := yearPage(t, crowdLedger(), 2026)
	text := yearText(t, doc)
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	assert.NotContains(t, text, "not shown")
	data, ok := doc.Data.(answers.Year)
	require.True(t, ok)
	require.NotEmpty(t, data.Settle)
	for _, p := range data.Settle {
		assert.Contains(t, text, p.Amount.Text())
	}
	for _, p := range data.Pilots {
		for _, a := range p.Accounts {
			for _, amount := range []answers.Amount{a.Paid, a.Share, a.Closing} {
				assert.Contains(t, text, amount.Text())
			}
		}
	}
	assert.Contains(t, text, "fewer might do, with so many people")
}

// The balances of the JSON sum to zero in every currency, and its payments
// settle them.
func TestYearSumsToZero(t *testing.T) {
	for _, text := range []string{yearLedger, crowdLedger()} {
		data, ok := yearPage(t, text, 2026).Data.(answers.Year)
		require.True(t, ok)
		left, sums := map[string]*big.Rat{}, map[string]*big.Rat{}
		add := func(to map[string]*big.Rat, key string, amount answers.Amount, sign int64) {
			value, ok := new(big.Rat).SetString(amount.Text())
			require.True(t, ok, amount.Text())
			if to[key] == nil {
				to[key] = new(big.Rat)
			}
			to[key].Add(to[key], value.Mul(value, big.NewRat(sign, 1)))
		}
		books := map[string]answers.Books{"club": data.Club}
		for _, p := range data.Pilots {
			books[p.Pilot] = p.Books
		}
		for name, b := range books {
			for i := range b.Balance {
				add(left, name+b.Balance[i].Currency, b.Balance[i].Amount, 1)
				add(sums, "closing "+b.Balance[i].Currency, b.Balance[i].Amount, 1)
				add(sums, "opening "+b.Opening[i].Currency, b.Opening[i].Amount, 1)
			}
		}
		for _, p := range data.Settle {
			add(left, p.From+p.Currency, p.Amount, 1)
			add(left, p.To+p.Currency, p.Amount, -1)
		}
		require.NotEmpty(t, sums)
		for key, sum := range sums {
			assert.Zero(t, sum.Sign(), key)
		}
		for key, sum := range left {
			assert.Zero(t, sum.Sign(), key)
		}
	}
}
