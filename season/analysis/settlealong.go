package analysis

import (
	"math/bits"
	"slices"

	"boxbook/season"
)

// Owed says what stands between two parties before they settle up: above 0 where the
// first owes the second, below where it is the other way round, 0 for nothing.
type Owed func(debtor, creditor season.Party) float64

// merit is how well payments follow what is owed, the larger rank the better: first as few
// payments as can be, then of those none by who is owed on balance, or to who owes, but of
// a whole debt, then as many along debts, then as few against. Beyond is the
// money in them for which nothing is owed between the two, moved all of it.
type merit struct {
	rank          int64
	beyond, moved float64
}

const (
	rankAgainst = -1
	rankAlong   = 1 << 8
	rankThrough = -1 << 16
	rankPayment = -1 << 24
)

// noMerit is that of payments that cannot be.
var noMerit = merit{rank: -1 << 48}

// better says of as good ranks that less money beyond what is owed is better, then less at
// all.
func (m merit) better(o merit) bool {
	switch {
	case m.rank != o.rank:
		return m.rank > o.rank
	case m.beyond != o.beyond:
		return m.beyond < o.beyond
	default:
		return m.moved < o.moved
	}
}

func (m merit) with(o merit) merit {
	return merit{m.rank + o.rank, m.beyond + o.beyond, m.moved + o.moved}
}

// meritOf is that of payments.
func meritOf(open []season.Change, moves []move, owed Owed) merit {
	sum := merit{}
	for _, m := range moves {
		from, to := open[m.from], open[m.to]
		sum = sum.with(meritOfOne(m, owed(from.Party, to.Party), from.Minor, to.Minor))
	}
	return sum
}

// meritOfOne is that of one payment, where so much is owed that way, between two of such
// balances. A payment of nothing cannot be: those whom it would join are two groups.
func meritOfOne(m move, owed float64, from, to int64) merit {
	minor := float64(m.minor)
	if minor < 0 {
		minor, owed, from, to = -minor, -owed, to, from
	}
	one := merit{rank: rankPayment, beyond: minor - min(minor, max(owed, 0)), moved: minor}
	if minor != owed && (from > 0 || to < 0) {
		one.rank += rankThrough
	}
	switch {
	case minor == 0:
		return noMerit
	case owed > 0:
		one.rank += rankAlong
	case owed < 0:
		one.rank += rankAgainst
	}
	return one
}

// alongDebts are payments at least as good as some others: the best there are of up to
// exactParties parties, else the best of each group of up to so many that those join.
func alongDebts(open []season.Change, moves []move, owed Owed) []move {
	groups := [][]int{everybody(len(open))}
	if len(open) > exactParties {
		groups = joinedBy(len(open), moves)
	}
	var best []move
	for _, group := range groups {
		own := slices.DeleteFunc(slices.Clone(moves), func(m move) bool { return !slices.Contains(group, m.from) })
		if now := meritOf(open, own, owed); now.rank < int64(len(own))*(rankPayment+rankAlong) && len(group) <= exactParties {
			if found := bestOf(open, group, owed); meritOf(open, found, owed).better(now) {
				own = found
			}
		}
		best = append(best, own...)
	}
	return best
}

// joinedBy are the groups of n parties that payments join.
func joinedBy(n int, moves []move) [][]int {
	group := everybody(n)
	for _, m := range moves {
		from, to := group[m.from], group[m.to]
		for i := range group {
			if group[i] == from {
				group[i] = to
			}
		}
	}
	of := make([][]int, n)
	for i, g := range group {
		of[g] = append(of[g], i)
	}
	return slices.DeleteFunc(of, func(g []int) bool { return g == nil })
}

// debtTrees finds the best payments of a few parties. Payments without a circle are trees,
// and what goes over one is the sum of the balances behind it. So the best tree of a set
// under a root is its best split into the branch with the first of the others, however
// that hangs on the root, and a tree of what is left; and the best payments of a set are
// its best split into the group with its first party and what is left. Both go through the
// subsets of all subsets, 3^12 at most. Sets are bits.
type debtTrees struct {
	sums  []int64
	owed  [][]float64
	trees [][]treeChoice // of a set, under each of its parties
	hung  [][]treeChoice // of a set, on each other party: under which of its own
	split []treeChoice   // of a set: its first group
}

// treeChoice is what is best, and of what kind: a set or a party.
type treeChoice struct {
	merit
	choice int
}

// bestOf are the best payments of a group.
func bestOf(open []season.Change, group []int, owed Owed) []move {
	n := len(group)
	full := 1<<n - 1
	d := debtTrees{make([]int64, full+1), make([][]float64, n), make([][]treeChoice, full+1), make([][]treeChoice, full+1), make([]treeChoice, full+1)}
	for i, from := range group {
		for _, to := range group {
			d.owed[i] = append(d.owed[i], owed(open[from].Party, open[to].Party))
		}
	}
	for s := 1; s <= full; s++ {
		d.sums[s] = d.sums[s&(s-1)] + open[group[bits.TrailingZeros(uint(s))]].Minor
	}
	for s := 1; s <= full; s++ {
		d.plant(s, n)
		d.divide(s)
	}
	var moves []move
	for s := full; s != 0; s &^= d.split[s].choice {
		first := d.split[s].choice
		moves = d.movesOf(moves, first, bits.TrailingZeros(uint(first)))
	}
	for i, m := range moves {
		moves[i] = move{group[m.from], group[m.to], m.minor}
		if m.minor < 0 {
			moves[i] = move{group[m.to], group[m.from], -m.minor}
		}
	}
	return moves
}

// plant finds the best trees of a set.
func (d *debtTrees) plant(s, n int) {
	d.trees[s], d.hung[s] = make([]treeChoice, n), make([]treeChoice, n)
	for root := range n {
		rest := s &^ (1 << root)
		if rest == s {
			continue
		}
		best := treeChoice{merit: noMerit}
		if rest == 0 {
			best.merit = merit{}
		}
		eachWithFirst(rest, func(branch int) {
			hung, left := &d.hung[branch][root].merit, &d.trees[s&^branch][root].merit
			if hung.rank+left.rank < best.rank {
				return
			}
			if m := hung.with(*left); m.better(best.merit) {
				best = treeChoice{m, branch}
			}
		})
		d.trees[s][root] = best
	}
	for on := range n {
		best := treeChoice{merit: noMerit}
		for root := range n {
			if s>>on&1 == 0 && s>>root&1 == 1 {
				if m := d.trees[s][root].with(meritOfOne(move{minor: -d.sums[s]}, d.owed[root][on], d.sums[1<<root], d.sums[1<<on])); m.better(best.merit) {
					best = treeChoice{m, root}
				}
			}
		}
		d.hung[s][on] = best
	}
}

// divide finds the best groups of a set.
func (d *debtTrees) divide(s int) {
	d.split[s].merit = noMerit
	if d.sums[s] != 0 {
		return
	}
	eachWithFirst(s, func(group int) {
		if d.sums[group] == 0 {
			if m := d.trees[group][bits.TrailingZeros(uint(group))].with(d.split[s&^group].merit); m.better(d.split[s].merit) {
				d.split[s] = treeChoice{m, group}
			}
		}
	})
}

// eachWithFirst visits the subsets of a set that have its first member.
func eachWithFirst(s int, visit func(int)) {
	first := s & -s
	others := s &^ first
	for sub := others; first != 0; sub = (sub - 1) & others {
		visit(sub | first)
		if sub == 0 {
			return
		}
	}
}

// movesOf adds the payments of the best tree of a set under a root; below zero is what the
// root pays.
func (d *debtTrees) movesOf(moves []move, s, root int) []move {
	for s != 1<<root {
		branch := d.trees[s][root].choice
		under := d.hung[branch][root].choice
		moves = d.movesOf(append(moves, move{under, root, -d.sums[branch]}), branch, under)
		s &^= branch
	}
	return moves
}
