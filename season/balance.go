package season

import (
	"cmp"
	"slices"
	"strings"
)

// Account is one party's balance in one currency.
type Account struct {
	Party    Party
	Currency Currency
}

// Movement changes balances on a day; its changes sum to zero. A positive
// change is money the party is owed. One of Cost, Settlement and Debt says where
// it comes from.
type Movement struct {
	Date       Date
	Currency   Currency
	Changes    []Change
	Cost       *Cost
	Settlement *Settlement
	Debt       *Debt
}

// Change is one party's part of a movement, in minor units.
type Change struct {
	Party Party
	Minor int64
}

// Shares splits a cost among those it was for, equally or by their weights, in
// minor units; what does not divide goes one each to the first named. A refund
// is split as a cost is.
func (c *Cost) Shares() []int64 {
	total := int64(len(c.For))
	if c.Weights != nil {
		total = 0
		for _, w := range c.Weights {
			total += w
		}
	}
	amount, sign := c.Money.Minor, int64(1)
	if amount < 0 {
		amount, sign = -amount, -1
	}
	shares, left := make([]int64, len(c.For)), amount
	for i := range shares {
		weight := int64(1)
		if c.Weights != nil {
			weight = c.Weights[i]
		}
		shares[i] = part(amount, weight, total)
		left -= shares[i]
	}
	for i := range shares {
		if int64(i) < left {
			shares[i]++
		}
		shares[i] *= sign
	}
	return shares
}

// part is amount x weight / total, rounded down, without overflow: the product
// of the remainder and a weight is small.
func part(amount, weight, total int64) int64 {
	return amount/total*weight + amount%total*weight/total
}

// Movements lists everything that changes who owes whom, by date; on one day
// costs and debts come before settlements. A cost is owed to the one who paid
// it by those it was for; income changes no balance.
func Movements(l *Ledger) []Movement {
	var all []Movement
	for _, d := range l.Debts {
		all = append(all, Movement{Date: d.Date, Currency: d.Money.Currency, Debt: d, Changes: []Change{{d.From, -d.Money.Minor}, {d.To, d.Money.Minor}}})
	}
	for _, c := range l.Costs {
		if c.Income {
			continue
		}
		m := Movement{Date: c.Date, Currency: c.Money.Currency, Cost: c, Changes: []Change{{c.By, c.Money.Minor}}}
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

// Posting is what one line makes one party owe another. Money is below zero for
// a refund. One of Cost, Settlement and Debt says where it comes from.
type Posting struct {
	Date             Date
	Debtor, Creditor Party
	Money            Money
	Cost             *Cost
	Settlement       *Settlement
	Debt             *Debt
}

// Postings lists who owes whom by what, by date; on one day costs and debts come
// before settlements. What a party pays for itself is none. A settlement is owed
// to the one who paid it, in the currency of the debt that it pays.
func Postings(l *Ledger) []Posting {
	var all []Posting
	for _, d := range l.Debts {
		all = append(all, Posting{Date: d.Date, Debtor: d.From, Creditor: d.To, Money: d.Money, Debt: d})
	}
	for _, c := range l.Costs {
		if c.Income {
			continue
		}
		for i, share := range c.Shares() {
			if c.For[i] != c.By {
				all = append(all, Posting{Date: c.Date, Debtor: c.For[i], Creditor: c.By, Money: Money{share, c.Money.Currency}, Cost: c})
			}
		}
	}
	for _, s := range l.Settlements {
		all = append(all, Posting{Date: s.Date, Debtor: s.To, Creditor: s.From, Money: s.Money, Settlement: s})
	}
	slices.SortStableFunc(all, func(a, b Posting) int { return cmp.Compare(a.Date, b.Date) })
	return all
}

// Standing is a running state of what stands between any two parties. What
// stands between a party and the club is apart from what stands between two
// others.
type Standing map[standing]int64

type standing struct {
	debtor, creditor Party
	currency         Currency
}

// Post adds a posting.
func (s Standing) Post(p Posting) {
	s[standing{p.Debtor, p.Creditor, p.Money.Currency}] += p.Money.Minor
	s[standing{p.Creditor, p.Debtor, p.Money.Currency}] -= p.Money.Minor
}

// Owes is what a debtor owes a creditor in a currency, below zero where it is
// the other way round.
func (s Standing) Owes(debtor, creditor Party, c Currency) int64 {
	return s[standing{debtor, creditor, c}]
}

// Open is what a debtor owes a creditor, by currency.
func (s Standing) Open(debtor, creditor Party) []Money {
	var open []Money
	for key, minor := range s {
		if key.debtor == debtor && key.creditor == creditor && minor > 0 {
			open = append(open, Money{minor, key.currency})
		}
	}
	slices.SortFunc(open, func(a, b Money) int { return strings.Compare(a.Currency.Code, b.Currency.Code) })
	return open
}

// ClubResult is the club's income less its costs in a financial year, in minor
// units of a currency, of what is not after AsOf.
func (l *Ledger) ClubResult(year int, c Currency) int64 {
	sum := int64(0)
	for _, cost := range l.Costs {
		if cost.Money.Currency == c && l.YearOf(cost.Date) == year && l.Past(cost.Date) {
			sum += cost.ClubResult()
		}
	}
	return sum
}

// Balances is a running state of who is owed what: positive is owed.
type Balances map[Account]int64

// Apply adds a movement.
func (b Balances) Apply(m Movement) {
	for _, c := range m.Changes {
		b[Account{c.Party, m.Currency}] += c.Minor
	}
}
