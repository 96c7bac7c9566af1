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
	later   map[between]int64 // what is still to be paid in the year
	net     map[between]int64 // what a party, from, is owed in all
}

// transfersOf are the transfers of a year, and what stands between members at its end. What
// stands with the club is apart, and nobody else's payment settles it. Each year is closed
// by itself, so that what the statements of one say stays as it is.
func transfersOf(l *season.Ledger, year int) ([]Transfer, *transferBook) {
	b := &transferBook{season.Standing{}, map[between][]season.Party{}, nil, map[between][]*unrouted{}, map[between]int64{}, map[between]int64{}}
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
			b.enter(p)
			if p.Settlement == nil && from+i+1 < to {
				continue // what pays it is seen at the next payment, or when the year ends
			}
			if routed := b.settle(); y == year {
				found = append(found, routed...)
			}
			if p.Settlement != nil {
				b.forgetEven(p.Debtor, p.Money.Currency)
			}
		}
		from = to
	}
	return found, b
}

// settle pays with what waits all that stands now: a later debt changes nothing of it.
func (b *transferBook) settle() []Transfer {
	b.payDirectly()
	routed := b.route()
	b.waiting = slices.DeleteFunc(b.waiting, func(u *unrouted) bool { return u.left == 0 })
	return routed
}

// enter adds a debt, or a settlement that is to pay one.
func (b *transferBook) enter(p season.Posting) {
	b.net[between{from: p.Creditor, currency: p.Money.Currency}] += p.Money.Minor
	b.net[between{from: p.Debtor, currency: p.Money.Currency}] -= p.Money.Minor
	if s := p.Settlement; s != nil {
		u := &unrouted{s, s.Money.Minor}
		b.know(s.From, s.To, s.Money.Currency)
		at := between{s.From, s.To, s.Money.Currency}
		b.later[at] -= s.Money.Minor
		b.waiting, b.open[at] = append(b.waiting, u), append(b.open[at], u)
		return
	}
	b.owes.Post(p)
	b.know(p.Debtor, p.Creditor, p.Money.Currency)
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

// payDirectly pays what stands between the two of each settlement; what was paid back
// settles the payment.
func (b *transferBook) payDirectly() {
	for _, u := range b.waiting {
		c := u.Money.Currency
		if direct := min(u.left, b.owes.Owes(u.From, u.To, c)); direct > 0 {
			b.pay(u.From, u.To, season.Money{Minor: direct, Currency: c})
			u.left -= direct
		}
		back := between{u.To, u.From, c}
		b.open[back] = slices.DeleteFunc(b.open[back], func(o *unrouted) bool { return o.left == 0 })
		for _, o := range b.open[back] {
			paid := min(u.left, o.left)
			u.left, o.left = u.left-paid, o.left-paid
		}
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
				u.left = 0
			}
		}
	}
}

// route settles debts in chains by what is left of settlements, but for what is paid back
// later in the year.
func (b *transferBook) route() []Transfer {
	var found []Transfer
	for _, u := range b.waiting {
		back := b.later[between{u.To, u.From, u.Money.Currency}]
		for u.left > back {
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
			u.left -= money.Minor
			found = append(found, Transfer{u.Settlement, money, chain[1 : len(chain)-1]})
		}
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
	paid := int64(0)
	for _, u := range b.open[between{creditor, debtor, c}] {
		paid += u.left
	}
	return paid
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
		u.left, left = u.left-taken, left-taken
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

// netted is what stands between a member and others in the currencies in which that comes
// to nothing in all, though not with each.
func (b *transferBook) netted(l *season.Ledger, p season.Party) []Stands {
	var found []Stands
	for _, c := range moneyCurrencies(l) {
		sum, stands := int64(0), b.stands(l, p, c)
		for _, s := range stands {
			sum += s.Money.Minor
		}
		if sum == 0 {
			found = append(found, stands...)
		}
	}
	return found
}

// stands is what stands between a party and others in a currency.
func (b *transferBook) stands(l *season.Ledger, p season.Party, c season.Currency) (stands []Stands) {
	for _, other := range l.Parties() {
		if minor := b.stand(p, other, c); minor != 0 && other != p {
			stands = append(stands, Stands{other, season.Money{Minor: minor, Currency: c}})
		}
	}
	return stands
}

// stand is what another owes a party in a currency, below zero where the party owes it.
func (b *transferBook) stand(p, other season.Party, c season.Currency) int64 {
	minor := b.owes.Owes(other, p, c)
	for _, u := range b.open[between{p, other, c}] {
		minor += u.left
	}
	for _, u := range b.open[between{other, p, c}] {
		minor -= u.left
	}
	return minor
}

// among is what stands between a party and other members.
func (b *transferBook) among(l *season.Ledger, p season.Party) (found []Stands) {
	for _, c := range moneyCurrencies(l) {
		found = append(found, slices.DeleteFunc(b.stands(l, p, c), func(s Stands) bool { return s.With.Club() })...)
	}
	return found
}

// direct reports whether a party's payments with other members are just what stands between
// each of them and it: nothing was netted.
func direct(p season.Party, among []Stands, payments []Payment) bool {
	left := slices.Clone(among)
	for _, payment := range payments {
		s := Stands{payment.From, payment.Money}
		if payment.From == p {
			s = Stands{payment.To, season.Money{Minor: -payment.Money.Minor, Currency: payment.Money.Currency}}
		}
		at := slices.Index(left, s)
		switch {
		case s.With.Club():
		case at < 0:
			return false
		default:
			left = slices.Delete(left, at, at+1)
		}
	}
	return len(left) == 0
}
