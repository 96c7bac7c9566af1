package accountoracle

import (
	"math/big"
	"math/bits"
)

// FewestPayments is the smallest number of payments that brings balances to
// zero, found by trying: whatever the payments, they say who pays whom, and
// amounts for a choice of pairs exist just where the balances of all who hang
// together through the pairs sum to zero. Every choice of pairs is tried, so
// the number of balances is 6 at most. Balances must sum to zero.
func FewestPayments(balances []*big.Int) int {
	n := len(balances)
	if n > 6 {
		panic("accountoracle: too many balances to try everything")
	}
	var pairs [][2]int
	for i := range n {
		for j := range i {
			pairs = append(pairs, [2]int{i, j})
		}
	}
	fewest := n
	for choice := range 1 << len(pairs) {
		if count := bits.OnesCount(uint(choice)); count < fewest && settles(balances, pairs, choice) {
			fewest = count
		}
	}
	return fewest
}

// settles reports whether payments between the chosen pairs can settle the
// balances.
func settles(balances []*big.Int, pairs [][2]int, choice int) bool {
	group := make([]int, len(balances))
	for i := range group {
		group[i] = i
	}
	for p, pair := range pairs {
		if choice>>p&1 == 0 {
			continue
		}
		from, to := group[pair[0]], group[pair[1]]
		for i := range group {
			if group[i] == from {
				group[i] = to
			}
		}
	}
	for g := range balances {
		sum := new(big.Int)
		for i, balance := range balances {
			if group[i] == g {
				sum.Add(sum, balance)
			}
		}
		if sum.Sign() != 0 {
			return false
		}
	}
	return true
}
