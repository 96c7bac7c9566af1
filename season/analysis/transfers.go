package analysis

import (
	"slices"

	"boxbook/season"
)

// Transfer is what of a settlement between two members settled debts of others: who paid
// owed the first of Through, each of those the next, and the last whom was paid.
type Transfer struct {
	Settlement *season.Settlement
	Money      season.Money
	Through    []season.Party
}

// Parties are those of a transfer, from who paid to whom was paid.
func (t Transfer) Parties() []season.Party {
	return slices.Concat([]season.Party{t.Settlement.From}, t.Through, []season.Party{t.Settlement.To})
}

// unrouted is a settlement with what of it pays no debt between the two.
type unrouted struct {
	*season.Settlement
	left int64
}

// between are two members in a currency: who paid, or owes, and whom.
type between struct {
	from, to season.Party
	currency season.Currency
}

// transferBook keeps what members owe each other. A settlement pays first what stands
// between the two on its day, then debts in a chain from who paid to whom was paid, the
// shortest first; what is left waits for a later debt.
type transferBook struct {
	owes    season.Standing
	whom    map[between][]season.Party // the creditors a debtor ever had, without to
	waiting []*unrouted
	open    map[between][]*unrouted
	over    map[between]int64 // what is left of these
	later   map[between]int64 // what is still to be paid in the year
	net     map[between]int64 // what a party, from, is owed in all
}

// transfersOf are the transfers of a year, and what stands between members at its end. What
// stands with the club is apart, and nobody else's payment settles it. Each year is closed
// by itself, so that what the statements of one say stays as it is.
func transfersOf(l *season.Ledger, year int) ([]Transfer, *transferBook) {
	b := &transferBook{season.Standing{}, map[between][]season.Party{}, nil, map[between][]*unrouted{}, map[between]int64{}, map[between]int64{}, map[between]int64{}}
	postings := slices.DeleteFunc(season.Postings(l), func(p season.Posting) bool {
		return l.YearOf(p.Date) > year || !l.Past(p.Date) || p.Debtor.Club() || p.Creditor.Club()
	})
	var found []Transfer
	for from := 0; from < len(postings); {
		y, to := l.YearOf(postings[from].Date), from
		for to < len(postings) && l.YearOf(postings[to].Date) == y {
			if s := postings[to].Settlement; s != nil {
				b.later[between{s.From, s.To, s.Money.Currency}] += s.Money.Minor
			}
			to++
		}
		for i, p := range postings[from:to] {
			u := b.enter(p)
			var routed []Transfer
			if u != nil {
				routed = b.route(u)
				b.forgetEven(p.Debtor, p.Money.Currency)
			}
			if from+i+1 == to {
				for _, u := range b.waiting {
					routed = append(routed, b.route(u)...)
				}
				b.waiting = slices.DeleteFunc(b.waiting, func(u *unrouted) bool { return u.left == 0 })
			}
			if y == year {
				found = append(found, routed...)
			}
		}
		from = to
	}
	return found, b
}

// enter adds a debt, or a settlement, which is given back. It pays what stands between the
// two, and what was paid back settles a payment; a later debt changes nothing of that.
func (b *transferBook) enter(p season.Posting) *unrouted {
	c := p.Money.Currency
	b.net[between{from: p.Creditor, currency: c}] += p.Money.Minor
	b.net[between{from: p.Debtor, currency: c}] -= p.Money.Minor
	b.know(p.Debtor, p.Creditor, c)
	s := p.Settlement
	if s == nil {
		b.owes.Post(p)
		for _, two := range [][2]season.Party{{p.Debtor, p.Creditor}, {p.Creditor, p.Debtor}} {
			for _, u := range b.open[between{two[0], two[1], c}] {
				b.payDirectly(u)
			}
		}
		return nil
	}
	u := &unrouted{s, s.Money.Minor}
	at, back := between{s.From, s.To, s.Money.Currency}, between{s.To, s.From, s.Money.Currency}
	b.later[at] -= s.Money.Minor
	b.open[back] = slices.DeleteFunc(b.open[back], func(o *unrouted) bool { return o.left == 0 })
	b.waiting, b.open[at], b.over[at] = append(b.waiting, u), append(b.open[at], u), b.over[at]+u.left
	b.payDirectly(u)
	for _, o := range b.open[back] {
		paid := min(u.left, o.left)
		b.use(u, paid)
		b.use(o, paid)
	}
	return u
}

// use takes from what is left of a settlement.
func (b *transferBook) use(u *unrouted, minor int64) {
	u.left -= minor
	b.over[between{u.From, u.To, u.Money.Currency}] -= minor
}

// know keeps that two had to do with each other in a currency.
func (b *transferBook) know(p, other season.Party, c season.Currency) {
	for _, one := range []between{{p, other, c}, {other, p, c}} {
		at := between{from: one.from, currency: one.currency}
		if !slices.Contains(b.whom[at], one.to) {
			b.whom[at] = append(b.whom[at], one.to)
		}
	}
}

// pay takes what was paid from what a debtor owes a creditor.
func (b *transferBook) pay(debtor, creditor season.Party, m season.Money) {
	b.owes.Post(season.Posting{Debtor: creditor, Creditor: debtor, Money: m})
}

// payDirectly pays what stands between the two of a settlement.
func (b *transferBook) payDirectly(u *unrouted) {
	c := u.Money.Currency
	if direct := min(u.left, b.owes.Owes(u.From, u.To, c)); direct > 0 {
		b.pay(u.From, u.To, season.Money{Minor: direct, Currency: c})
		b.use(u, direct)
	}
}

// forgetEven takes what stands between a party and those it has to do with, and theirs, as
// settled where every one of them is even in all: what is left runs in a circle, and a debt
// after it is a new one.
func (b *transferBook) forgetEven(p season.Party, c season.Currency) {
	group, seen := []season.Party{p}, map[season.Party]bool{p: true}
	for i := 0; i < len(group); i++ {
		if b.net[between{from: group[i], currency: c}] != 0 {
			return
		}
		for _, other := range b.whom[between{from: group[i], currency: c}] {
			if !seen[other] && b.stand(group[i], other, c) != 0 {
				group, seen[other] = append(group, other), true
			}
		}
	}
	for _, p := range group {
		for _, other := range b.whom[between{from: p, currency: c}] {
			if owed := b.owed(p, other, c); owed > 0 {
				b.pay(p, other, season.Money{Minor: owed, Currency: c})
			}
			for _, u := range b.open[between{p, other, c}] {
				b.use(u, u.left)
			}
		}
	}
}

// route settles debts in chains by what is left of a settlement, but for what is paid back
// later in the year.
func (b *transferBook) route(u *unrouted) []Transfer {
	var found []Transfer
	for back := b.later[between{u.To, u.From, u.Money.Currency}]; u.left > back; {
		chain := b.chain(u.From, u.To, u.Money.Currency, b.owed)
		if chain == nil {
			chain = b.chain(u.From, u.To, u.Money.Currency, b.owedOrPaid)
		}
		if chain == nil {
			break
		}
		money := season.Money{Minor: u.left - back, Currency: u.Money.Currency}
		for i, p := range chain[1:] {
			money.Minor = min(money.Minor, b.owedOrPaid(chain[i], p, money.Currency))
		}
		for i, p := range chain[1:] {
			b.payOrTake(chain[i], p, money)
		}
		b.use(u, money.Minor)
		found = append(found, Transfer{u.Settlement, money, chain[1 : len(chain)-1]})
	}
	return found
}

// owed is what a debtor owes a creditor.
func (b *transferBook) owed(debtor, creditor season.Party, c season.Currency) int64 {
	return b.owes.Owes(debtor, creditor, c)
}

// owedOrPaid is that or, where nothing is owed, what the creditor paid the debtor that pays
// no debt: of several payments that leave all even each may.
func (b *transferBook) owedOrPaid(debtor, creditor season.Party, c season.Currency) int64 {
	if owed := b.owed(debtor, creditor, c); owed > 0 {
		return owed
	}
	return b.over[between{creditor, debtor, c}]
}

// payOrTake pays what a debtor owes a creditor, or takes it from what that one paid.
func (b *transferBook) payOrTake(debtor, creditor season.Party, m season.Money) {
	if b.owed(debtor, creditor, m.Currency) > 0 {
		b.pay(debtor, creditor, m)
		return
	}
	left := m.Minor
	for _, u := range b.open[between{creditor, debtor, m.Currency}] {
		taken := min(left, u.left)
		b.use(u, taken)
		left -= taken
	}
}

// chain is the shortest from one party to another of whom each owes the next, as owed has
// it; nil where there is none.
func (b *transferBook) chain(from, to season.Party, c season.Currency, owed func(debtor, creditor season.Party, c season.Currency) int64) []season.Party {
	before := map[season.Party]season.Party{from: {}}
	for next := []season.Party{from}; len(next) > 0; next = next[1:] {
		p := next[0]
		if p == to {
			chain := []season.Party{p}
			for ; p != from; p = before[p] {
				chain = append(chain, before[p])
			}
			slices.Reverse(chain)
			return chain
		}
		for _, creditor := range b.whom[between{from: p, currency: c}] {
			if _, seen := before[creditor]; !seen && owed(p, creditor, c) > 0 {
				before[creditor] = p
				next = append(next, creditor)
			}
		}
	}
	return nil
}

// Stands is what stands between a party and another, positive for what it is owed.
type Stands struct {
	With  season.Party
	Money season.Money
}

// among is what stands between a party and other members, by currency.
func (b *transferBook) among(l *season.Ledger, p season.Party) (stands []Stands) {
	for _, c := range moneyCurrencies(l) {
		for _, other := range l.Parties() {
			if minor := b.stand(p, other, c); minor != 0 && other != p {
				stands = append(stands, Stands{other, season.Money{Minor: minor, Currency: c}})
			}
		}
	}
	return stands
}

// stand is what another owes a party in a currency, below zero where the party owes it.
func (b *transferBook) stand(p, other season.Party, c season.Currency) int64 {
	return b.owes.Owes(other, p, c) + b.over[between{p, other, c}] - b.over[between{other, p, c}]
}
