package analysis

import (
	"math/bits"
	"slices"

	"boxbook/season"
)

// Payment is money that one party should pay another.
type Payment struct {
	From, To season.Party
	Money    season.Money
}

// exactParties is up to how many parties SettleUp finds the fewest payments:
// it looks at every subset of them.
const exactParties = 12

// SettleUp finds payments that bring balances to zero. Balances are in minor
// units of one currency, positive for what is owed to the party, each party
// once; those that do not sum to zero cannot be settled: nil and false. The
// payments come in the order of the parties who pay, then of those who are
// paid.
//
// Payments that settle everything join the n open parties into groups, each of
// which sums to zero by itself; a group of g is held together by no fewer than
// g-1 payments, and g-1 are always enough. The fewest payments are therefore n
// less the largest number of groups, which is found exactly by going through
// all subsets where n is 12 or less. Above, equal amounts are paired first and
// then the largest debtor pays the largest creditor: at most n-1 payments,
// since each payment leaves one party even and the last one two.
// Of as many payments those are the better ones of which more go the way of what is owed
// between the two; nil for owed where that is of no matter.
// The second result says that no fewer payments can do.
func SettleUp(c season.Currency, balances []season.Change, owed Owed) (payments []Payment, fewest bool) {
	var open []season.Change
	sum := int64(0)
	for _, b := range balances {
		sum += b.Minor
		if b.Minor != 0 {
			open = append(open, b)
		}
	}
	if sum != 0 {
		return nil, false
	}
	groups := [][]int{everybody(len(open))}
	if len(open) <= exactParties {
		groups = zeroGroups(open)
		fewest = true
	}
	var moves []move
	for _, group := range groups {
		moves = append(moves, settleGroup(open, group)...)
	}
	if owed != nil {
		moves = alongDebts(open, moves, owed)
	}
	slices.SortFunc(moves, func(a, b move) int {
		if a.from != b.from {
			return a.from - b.from
		}
		return a.to - b.to
	})
	for _, m := range moves {
		payments = append(payments, Payment{open[m.from].Party, open[m.to].Party, season.Money{Minor: m.minor, Currency: c}})
	}
	// Everybody who owes must pay, and everybody who is owed be paid, once.
	return payments, fewest || len(moves) == max(debtors(open), len(open)-debtors(open))
}

func everybody(n int) []int {
	all := make([]int, n)
	for i := range all {
		all[i] = i
	}
	return all
}

func debtors(open []season.Change) int {
	n := 0
	for _, c := range open {
		if c.Minor < 0 {
			n++
		}
	}
	return n
}

// zeroGroups splits the parties into as many groups as possible that each sum
// to zero. most[s] is, over all orders in which the subset s can be filled
// party by party, the largest number of times that the sum is then zero.
func zeroGroups(open []season.Change) [][]int {
	full := 1<<len(open) - 1
	sums, most := make([]int64, full+1), make([]int, full+1)
	for s := 1; s <= full; s++ {
		lowest := bits.TrailingZeros(uint(s))
		sums[s] = sums[s&(s-1)] + open[lowest].Minor
		for i := range open {
			if s>>i&1 == 1 {
				most[s] = max(most[s], most[s&^(1<<i)])
			}
		}
		if sums[s] == 0 {
			most[s]++
		}
	}
	var groups [][]int
	for s := full; s != 0; {
		if sums[s] == 0 {
			groups = append(groups, nil)
		}
		i := lastOf(s, most)
		groups[len(groups)-1] = append(groups[len(groups)-1], i)
		s &^= 1 << i
	}
	for _, group := range groups {
		slices.Sort(group)
	}
	return groups
}

// lastOf names a party with which the subset s can have been filled up: one
// whose leaving breaks up no group, or anybody where s sums to zero, since one
// group is then broken up whoever leaves.
func lastOf(s int, most []int) int {
	for i := range bits.Len(uint(s)) {
		if s>>i&1 == 1 && most[s&^(1<<i)] == most[s] {
			return i
		}
	}
	return bits.TrailingZeros(uint(s))
}

// move is a payment between parties by their index.
type move struct {
	from, to int
	minor    int64
}

// settleGroup settles a group that sums to zero: each payment leaves at least
// one party even, the last one two.
func settleGroup(open []season.Change, group []int) []move {
	left := make(map[int]int64, len(group))
	for _, i := range group {
		left[i] = open[i].Minor
	}
	var moves []move
	for {
		from, to := nextPair(group, left)
		if from < 0 || to < 0 {
			return moves
		}
		minor := min(-left[from], left[to])
		left[from] += minor
		left[to] -= minor
		moves = append(moves, move{from, to, minor})
	}
}

// nextPair names who should pay whom next: two with equal amounts where there
// are such, else the largest debtor and the largest creditor, the first of
// equals; -1 for a side on which nobody is left.
func nextPair(group []int, left map[int]int64) (from, to int) {
	creditor := map[int64]int{}
	from, to = -1, -1
	for _, i := range group {
		if _, there := creditor[left[i]]; !there && left[i] > 0 {
			creditor[left[i]] = i
		}
		if left[i] > 0 && (to < 0 || left[i] > left[to]) {
			to = i
		}
		if left[i] < 0 && (from < 0 || left[i] < left[from]) {
			from = i
		}
	}
	for _, i := range group {
		if other, there := creditor[-left[i]]; there && left[i] < 0 {
			return i, other
		}
	}
	return from, to
}
