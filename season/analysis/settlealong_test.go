package analysis_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
)

// Of as few payments those along debts, by hand [derived]: each of two may pay either of
// two others; and one who owes 10.00 to one who owes 6.00 of it on pays that one.
func TestPaymentsAlongDebts(t *testing.T) {
	for _, c := range []struct{ lines, want []string }{
		{[]string{"owed 2026-01-10 ines mara 5 EUR", "owed 2026-01-10 tobias yuki 5 EUR"}, []string{"ines pays mara 5.00 EUR", "tobias pays yuki 5.00 EUR"}},
		{[]string{"owed 2026-01-10 ines yuki 5 EUR", "owed 2026-01-10 tobias mara 5 EUR"}, []string{"ines pays yuki 5.00 EUR", "tobias pays mara 5.00 EUR"}},
		{[]string{"owed 2026-01-10 ines mara 10 EUR", "owed 2026-01-10 mara yuki 6 EUR"}, []string{"ines pays mara 10.00 EUR", "mara pays yuki 6.00 EUR"}},
		// what was owed the other way is no debt any more
		{[]string{"owed 2026-01-10 ines mara 5 EUR", "owed 2026-01-10 tobias yuki 5 EUR", "owed 2026-01-11 ines yuki 1 EUR", "settle 2026-01-12 ines yuki 1 EUR"}, []string{"ines pays mara 5.00 EUR", "tobias pays yuki 5.00 EUR"}},
		// fewer payments come first
		{[]string{"owed 2026-01-10 ines mara 5 EUR", "owed 2026-01-10 mara yuki 5 EUR"}, []string{"ines pays yuki 5.00 EUR"}},
	} {
		assert.Equal(t, c.want, paymentsOf(yearOf(t, yearBook(t, c.lines...), 2026)), c.lines)
	}
	for _, in := range []string{"ines mara", "tobias yuki"} {
		other := map[string]string{"ines mara": "tobias yuki", "tobias yuki": "ines mara"}[in]
		l := yearBook(t, "owed 2026-01-10 "+in+" 5 CHF", "owed 2026-01-10 "+other+" 7.50 EUR", "rate 2026 CHF 1.5 EUR")
		y, err := analysis.YearSettled(l, 2026, analysis.Settling{In: "EUR"})
		require.NoError(t, err)
		assert.Equal(t, []string{"ines pays mara 7.50 EUR", "tobias pays yuki 7.50 EUR"}, paymentsOf(y))
	}
}

// drawnDebts draws what stands between any two of n parties, in minor units.
func drawnDebts(t *rapid.T, n int) [][]int64 {
	owed := make([][]int64, n)
	for i := range owed {
		owed[i] = make([]int64, n)
	}
	for i := range owed {
		for j := range i {
			if rapid.Bool().Draw(t, "any") {
				owed[i][j] = rapid.Int64Range(-4, 4).Draw(t, "owed")
				owed[j][i] = -owed[i][j]
			}
		}
	}
	return owed
}

// owedParties are the parties with what they are owed in all, and what stands between any
// two of them.
func owedParties(owed [][]int64) ([]season.Change, analysis.Owed) {
	balances := make([]int64, len(owed))
	for i, row := range owed {
		for _, minor := range row {
			balances[i] -= minor
		}
	}
	parties := partiesOwed(balances)
	at := map[season.Party]int{}
	for i, p := range parties {
		at[p.Party] = i
	}
	return parties, func(debtor, creditor season.Party) float64 { return float64(owed[at[debtor]][at[creditor]]) }
}

// bestAlong goes through all sets of payments without a circle: how many payments settle
// everything at least, and of those by which nobody who is owed pays, and nobody who owes is
// paid, but a whole debt how many go along debts at most, and against then.
func bestAlong(balances []season.Change, owed analysis.Owed) (payments, along, against int) {
	type edge struct{ a, b int }
	var edges []edge
	for i := range balances {
		for j := range i {
			edges = append(edges, edge{i, j})
		}
	}
	payments = len(balances)
	for set := range 1 << len(edges) {
		left, at := map[int]int64{}, map[int][]edge{}
		for i, b := range balances {
			left[i] = b.Minor
		}
		n, forward, back, through := 0, 0, 0, 0
		for i, e := range edges {
			if set>>i&1 == 1 {
				at[e.a], at[e.b] = append(at[e.a], e), append(at[e.b], e)
				n++
			}
		}
		for taken := true; taken; { // whoever has one payment has it settle all
			taken = false
			for i := range balances {
				if len(at[i]) != 1 {
					continue
				}
				e := at[i][0]
				o := e.a + e.b - i
				stands := owed(balances[i].Party, balances[o].Party) * float64(-left[i])
				way := float64(min(max(left[i], -1), 1)) // -1 where i pays
				if way*float64(balances[i].Minor) < 0 || way*float64(balances[o].Minor) > 0 {
					if math.Abs(float64(left[i])) != -way*owed(balances[i].Party, balances[o].Party) {
						through++
					}
				}
				switch {
				case left[i] == 0:
					n = len(balances) + 1 // no payment
				case stands > 0:
					forward++
				case stands < 0:
					back++
				}
				left[o] += left[i]
				left[i], at[i], taken = 0, nil, true
				for k, other := range at[o] {
					if other == e {
						at[o] = append(at[o][:k:k], at[o][k+1:]...)
						break
					}
				}
			}
		}
		fits := n <= len(balances)
		for i := range balances {
			fits = fits && left[i] == 0 && len(at[i]) == 0
		}
		if fits && through == 0 && (n < payments || n == payments && (forward > along || forward == along && back < against)) {
			payments, along, against = n, forward, back
		}
	}
	return payments, along, against
}

// wayOf counts payments along debts, and against.
func wayOf(payments []analysis.Payment, owed analysis.Owed) (along, against int) {
	for _, p := range payments {
		switch stands := owed(p.From, p.To); {
		case stands > 0:
			along++
		case stands < 0:
			against++
		}
	}
	return along, against
}

// requireEven applies payments: who is owed pays, and who owes is paid, a whole debt.
func requireEven(t require.TestingT, balances []season.Change, payments []analysis.Payment, owed analysis.Owed) {
	left, whole := map[season.Party]int64{}, map[season.Party]int64{}
	for _, b := range balances {
		left[b.Party] += b.Minor
		whole[b.Party] += b.Minor
	}
	for _, p := range payments {
		require.Positive(t, p.Money.Minor)
		if owed != nil && (whole[p.From] > 0 || whole[p.To] < 0) {
			require.InDelta(t, float64(p.Money.Minor), owed(p.From, p.To), 0, "%s to %s", p.From.Name(), p.To.Name())
		}
		left[p.From] += p.Money.Minor
		left[p.To] -= p.Money.Minor
	}
	for party, minor := range left {
		require.Zero(t, minor, party.Name())
	}
}

func TestPaymentsAlongDebtsAreTheBest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		balances, owed := owedParties(drawnDebts(t, rapid.IntRange(2, 5).Draw(t, "parties")))
		payments, fewest := analysis.SettleUp(settleEUR, balances, owed)
		require.True(t, fewest)
		requireEven(t, balances, payments, owed)
		along, against := wayOf(payments, owed)
		n, forward, back := bestAlong(balances, owed)
		require.Equal(t, fmt.Sprint(n, forward, back), fmt.Sprint(len(payments), along, against), "payments, along, against")
	})
}

// Of many no fewer go along debts than where that is of no matter.
func TestPaymentsOfManyAlongDebts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		balances, owed := owedParties(drawnDebts(t, rapid.IntRange(10, 16).Draw(t, "parties")))
		plain, _ := analysis.SettleUp(settleEUR, balances, nil)
		payments, _ := analysis.SettleUp(settleEUR, balances, owed)
		requireEven(t, balances, payments, owed)
		require.LessOrEqual(t, len(payments), len(plain))
		before, _ := wayOf(plain, owed)
		along, _ := wayOf(payments, owed)
		require.True(t, along >= before || len(payments) < len(plain), "%d along, %d before", along, before)
		again, _ := analysis.SettleUp(settleEUR, balances, owed)
		require.Equal(t, payments, again)
	})
}

func BenchmarkSettleUpAlong(b *testing.B) {
	owed := make([][]int64, 12)
	for i := range owed {
		owed[i] = make([]int64, 12)
	}
	for i := range owed {
		for j := range i {
			owed[i][j] = int64(i*i*(j+1)*7%101 - 50)
			owed[j][i] = -owed[i][j]
		}
	}
	balances, between := owedParties(owed)
	for b.Loop() {
		analysis.SettleUp(settleEUR, balances, between)
	}
}
