package season

import (
	"cmp"
	"slices"
)

// Account is one party's balance in one currency.
type Account struct {
	Party    Party
	Currency Currency
}

// Movement changes balances on a day; its changes sum to zero. A positive
// change is money the party is owed. Settlement is nil for costs and debts.
type Movement struct {
	Date       Date
	Currency   Currency
	Changes    []Change
	Settlement *Settlement
}

// Change is one party's part of a movement, in minor units.
type Change struct {
	Party Party
	Minor int64
}

// Shares splits a cost equally among those it was for, in minor units; what
// does not divide goes to the first named.
func (c *Cost) Shares() []int64 {
	n := int64(len(c.For))
	shares := make([]int64, n)
	for i := range shares {
		shares[i] = c.Money.Minor / n
	}
	shares[0] += c.Money.Minor % n
	return shares
}

// Movements lists everything that changes who owes whom, by date; on one day
// costs and debts come before settlements. A cost is owed to the one who paid
// it by those it was for; income changes no balance.
func Movements(l *Ledger) []Movement {
	var all []Movement
	for _, d := range l.Debts {
		all = append(all, Movement{Date: d.Date, Currency: d.Money.Currency, Changes: []Change{{d.From, -d.Money.Minor}, {d.To, d.Money.Minor}}})
	}
	for _, c := range l.Costs {
		if c.Income {
			continue
		}
		m := Movement{Date: c.Date, Currency: c.Money.Currency, Changes: []Change{{c.By, c.Money.Minor}}}
		for i, share := range c.Shares() {
			m.Changes = append(m.Changes, Change{c.For[i], -share})
		}
		all = append(all, m)
	}
	for _, s := range l.Settlements {
		all = append(all, Movement{
			Date: s.Date, Currency: s.Money.Currency, Settlement: s,
			Changes: []Change{{s.From, s.Money.Minor}, {s.To, -s.Money.Minor}},
		})
	}
	slices.SortStableFunc(all, func(a, b Movement) int { return cmp.Compare(a.Date, b.Date) })
	return all
}

// Balances is a running state of who is owed what: positive is owed.
type Balances map[Account]int64

// Apply adds a movement.
func (b Balances) Apply(m Movement) {
	for _, c := range m.Changes {
		b[Account{c.Party, m.Currency}] += c.Minor
	}
}
