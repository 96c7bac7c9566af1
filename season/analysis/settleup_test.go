package analysis_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/internal/testkit/accountoracle"
)

var settleEUR = season.Currency{Code: "EUR", Decimals: 2}

// partiesOwed makes a pilot a balance, the last one the club's.
func partiesOwed(balances []int64) []season.Change {
	var out []season.Change
	for i, minor := range balances {
		party := season.Party{Pilot: &season.Pilot{Handle: fmt.Sprintf("p%d", i)}}
		if i == len(balances)-1 {
			party = season.Party{}
		}
		out = append(out, season.Change{Party: party, Minor: minor})
	}
	return out
}

// requireSettled applies payments to balances: everybody must be even then,
// and every payment be of something, by one who owes to one who is owed.
func requireSettled(t require.TestingT, balances []season.Change, payments []analysis.Payment) {
	left := map[season.Party]int64{}
	for _, b := range balances {
		left[b.Party] = b.Minor
	}
	for _, p := range payments {
		require.Positive(t, p.Money.Minor)
		require.Negative(t, left[p.From], "%s pays", p.From.Name())
		require.Positive(t, left[p.To], "%s is paid", p.To.Name())
		left[p.From] += p.Money.Minor
		left[p.To] -= p.Money.Minor
	}
	for party, minor := range left {
		require.Zero(t, minor, party.Name())
	}
}

// The numbers of payments are by hand [derived]: people who are not even less
// the groups that sum to zero by themselves.
func TestSettleUp(t *testing.T) {
	for _, c := range []struct {
		balances []int64
		payments int
	}{
		{nil, 0},
		{[]int64{0, 0}, 0},
		{[]int64{-500, 0, 500}, 1},
		{[]int64{-500, 500, 300, -300}, 2},
		// paying the largest creditor first would take four: 7 is 4 + 3, 5 is 3 + 2
		{[]int64{7, 5, -4, -3, -3, -2}, 4},
		// 10 = 6 + 4, 9 = 5 + 4, 8 = 7 + 1, 3 = 2 + 1: twelve in four groups
		{[]int64{10, 9, 8, 3, -6, -4, -5, -4, -7, -1, -2, -1}, 8},
	} {
		balances := partiesOwed(c.balances)
		payments, fewest := analysis.SettleUp(settleEUR, balances, nil)
		assert.Len(t, payments, c.payments, c.balances)
		assert.True(t, fewest)
		requireSettled(t, balances, payments)
	}
}

func TestSettleUpInOrder(t *testing.T) {
	payments, _ := analysis.SettleUp(settleEUR, partiesOwed([]int64{-100, 350, -200, 150, -200}), nil)
	var got []string
	for _, p := range payments {
		got = append(got, fmt.Sprintf("%s %s %s", p.From.Name(), p.To.Name(), p.Money.Text()))
	}
	// None but all five sum to zero: four payments.
	assert.Equal(t, []string{"p0 p3 1.00", "p2 p1 2.00", "club p1 1.50", "club p3 0.50"}, got)
}

func TestSettleUpUnbalanced(t *testing.T) {
	payments, fewest := analysis.SettleUp(settleEUR, partiesOwed([]int64{100, -99}), nil)
	assert.Nil(t, payments)
	assert.False(t, fewest)
}

// Thirteen people: one owed by twelve needs twelve payments and that is known
// to be the fewest; otherwise nothing is claimed.
func TestSettleUpMany(t *testing.T) {
	one, two := make([]int64, 13), make([]int64, 13)
	for i := range 12 {
		one[i] = -int64(i + 1)
		one[12] += int64(i + 1)
		two[i] = -3 * int64(i+1)
	}
	payments, fewest := analysis.SettleUp(settleEUR, partiesOwed(one), nil)
	assert.Len(t, payments, 12)
	assert.True(t, fewest)
	two[11], two[12] = 100, 98 // 3 + 6 + ... + 33 = 198; no threes make 100, so nobody is done before the last
	balances := partiesOwed(two)
	payments, fewest = analysis.SettleUp(settleEUR, balances, nil)
	requireSettled(t, balances, payments)
	assert.False(t, fewest)
	assert.Len(t, payments, 12)
}

// Fifteen people: the largest debtor paying the largest creditor would take
// four payments in each five of them (6 to 5, 5 to 3 and 3, 1 to 3); equal
// amounts first take three (5 to 5, 6 to 3 and 3).
func TestSettleUpPairsFirst(t *testing.T) {
	var all []int64
	for _, unit := range []int64{1, 100, 10_000} {
		all = append(all, -6*unit, -5*unit, 5*unit, 3*unit, 3*unit)
	}
	balances := partiesOwed(all)
	payments, fewest := analysis.SettleUp(settleEUR, balances, nil)
	requireSettled(t, balances, payments)
	assert.Len(t, payments, 9)
	assert.True(t, fewest, "nine are owed, so each is paid once")
}

// balancedParties draws balances of up to most parties that sum to zero, small enough
// that groups of them often do too.
func balancedParties(t *rapid.T, most int) []int64 {
	balances := rapid.SliceOfN(rapid.Int64Range(-9, 9), 1, most-1).Draw(t, "balances")
	sum := int64(0)
	for _, b := range balances {
		sum += b
	}
	return append(balances, -sum)
}

func openBalances(balances []int64) []*big.Int {
	var open []*big.Int
	for _, b := range balances {
		if b != 0 {
			open = append(open, big.NewInt(b))
		}
	}
	return open
}

func TestSettleUpFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		balances := balancedParties(t, 6)
		payments, fewest := analysis.SettleUp(settleEUR, partiesOwed(balances), nil)
		require.True(t, fewest)
		require.Len(t, payments, accountoracle.FewestPayments(openBalances(balances)))
	})
}

func TestSettleUpSettles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		balances := balancedParties(t, 30)
		parties, open := partiesOwed(balances), len(openBalances(balances))
		payments, fewest := analysis.SettleUp(settleEUR, parties, nil)
		requireSettled(t, parties, payments)
		require.LessOrEqual(t, len(payments), max(open-1, 0))
		require.True(t, fewest || open > 12)
		again, _ := analysis.SettleUp(settleEUR, parties, nil)
		require.Equal(t, payments, again)
	})
}
