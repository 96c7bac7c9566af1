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
	members map[between]*member // without to
	waiting []*unrouted
	open    map[between][]*unrouted
	later   map[between]int64 // what is still to be paid in the year
	asked   int               // how many chains were looked for
}

// member is a party in a currency, with those it ever had to do with.
type member struct {
	party  season.Party
	whom   []*toward
	net    int64   // what it is owed in all
	asked  int     // the last chain that came by
	before *member // on its way
}

// toward is what one member has with another.
type toward struct {
	*member       // the other
	owes    int64 // to the other, below zero where that one owes
	over    int64 // what is left of payments to the other
	back    *toward
}

// of is a party in a currency.
func (b *transferBook) of(p season.Party, c season.Currency) *member {
	at := between{from: p, currency: c}
	if b.members[at] == nil {
		b.members[at] = &member{party: p}
	}
	return b.members[at]
}

// toward is what a party has with another, made where there is nothing yet.
func (b *transferBook) toward(p, other season.Party, c season.Currency) *toward {
	from := b.of(p, c)
	for _, t := range from.whom {
		if t.party == other {
			return t
		}
	}
	to := b.of(other, c)
	there, back := &toward{member: to}, &toward{member: from}
	there.back, back.back = back, there
	from.whom, to.whom = append(from.whom, there), append(to.whom, back)
	return there
}

// transfersOf are the transfers of a year, and what stands between members at its end. What
// stands with the club is apart, and nobody else's payment settles it. Each year is closed
// by itself, so that what the statements of one say stays as it is.
func transfersOf(l *season.Ledger, year int) ([]Transfer, *transferBook) {
	b := &transferBook{members: map[between]*member{}, open: map[between][]*unrouted{}, later: map[between]int64{}}
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
	b.of(p.Creditor, c).net += p.Money.Minor
	b.of(p.Debtor, c).net -= p.Money.Minor
	with := b.toward(p.Debtor, p.Creditor, c)
	s := p.Settlement
	if s == nil {
		with.owe(p.Money.Minor)
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
	b.waiting, b.open[at] = append(b.waiting, u), append(b.open[at], u)
	b.toward(s.From, s.To, c).over += u.left
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
	b.toward(u.From, u.To, u.Money.Currency).over -= minor
}

// owe adds to what a member owes the other.
func (t *toward) owe(minor int64) {
	t.owes += minor
	t.back.owes -= minor
}

// payDirectly pays what stands between the two of a settlement.
func (b *transferBook) payDirectly(u *unrouted) {
	with := b.toward(u.From, u.To, u.Money.Currency)
	if direct := min(u.left, with.owes); direct > 0 {
		with.owe(-direct)
		b.use(u, direct)
	}
}

// forgetEven takes what stands between a party and those it has to do with, and theirs, as
// settled where every one of them is even in all: what is left runs in a circle, and a debt
// after it is a new one.
func (b *transferBook) forgetEven(p season.Party, c season.Currency) {
	first := b.of(p, c)
	group, seen := []*member{first}, map[*member]bool{first: true}
	for i := 0; i < len(group); i++ {
		if group[i].net != 0 {
			return
		}
		for _, t := range group[i].whom {
			if !seen[t.member] && t.stands() != 0 {
				group, seen[t.member] = append(group, t.member), true
			}
		}
	}
	for _, m := range group {
		for _, t := range m.whom {
			if t.owes > 0 {
				t.owe(-t.owes)
			}
			for _, u := range b.open[between{m.party, t.party, c}] {
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
		from, to := b.of(u.From, u.Money.Currency), b.of(u.To, u.Money.Currency)
		chain := b.chain(from, to, (*toward).owed)
		if chain == nil {
			chain = b.chain(from, to, (*toward).owedOrPaid)
		}
		if chain == nil {
			break
		}
		money := season.Money{Minor: u.left - back, Currency: u.Money.Currency}
		for _, t := range chain {
			money.Minor = min(money.Minor, t.owedOrPaid())
		}
		var through []season.Party
		for _, t := range chain {
			b.payOrTake(t, money)
			through = append(through, t.party)
		}
		b.use(u, money.Minor)
		found = append(found, Transfer{u.Settlement, money, through[:len(through)-1]})
	}
	return found
}

// owed is what is owed to the other.
func (t *toward) owed() int64 { return t.owes }

// owedOrPaid is that or, where nothing is owed, what the other paid that pays no debt: of
// several payments that leave all even each may.
func (t *toward) owedOrPaid() int64 {
	if t.owes > 0 {
		return t.owes
	}
	return t.back.over
}

// payOrTake pays what is owed to the other, or takes it from what that one paid.
func (b *transferBook) payOrTake(t *toward, m season.Money) {
	if t.owes > 0 {
		t.owe(-m.Minor)
		return
	}
	left := m.Minor
	for _, u := range b.open[between{t.party, t.back.party, m.Currency}] {
		taken := min(left, u.left)
		b.use(u, taken)
		left -= taken
	}
}

// chain is the shortest way from one member to another on which each owes the next, as owed
// has it; nil where there is none.
func (b *transferBook) chain(from, to *member, owed func(*toward) int64) []*toward {
	b.asked++
	from.asked = b.asked
	for next := []*member{from}; len(next) > 0; next = next[1:] {
		m := next[0]
		if m == to {
			var chain []*toward
			for ; m != from; m = m.before {
				chain = append(chain, m.before.whom[slices.IndexFunc(m.before.whom, func(t *toward) bool { return t.member == m })])
			}
			slices.Reverse(chain)
			return chain
		}
		for _, t := range m.whom {
			if t.asked != b.asked && owed(t) > 0 {
				t.asked, t.before = b.asked, m
				next = append(next, t.member)
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
	m := b.members[between{from: p, currency: c}]
	if m == nil {
		return 0
	}
	for _, t := range m.whom {
		if t.party == other {
			return t.stands()
		}
	}
	return 0
}

// stands is what the other owes, below zero where it is owed.
func (t *toward) stands() int64 { return -t.owes + t.over - t.back.over }
