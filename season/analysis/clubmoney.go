package analysis

import (
	"slices"

	"boxbook/season"
)

// ClubMoney is what became of the club's result in one currency over a year, in
// minor units. What is owed since before the ledger counts as claimed at the
// opening, whatever its day.
//
//	Moved = Result - (Claims at the close - at the opening) + Exchanged
type ClubMoney struct {
	Currency  season.Currency
	Result    int64 // income less costs
	Opening   int64 // claims on others, less what the club owes them
	Owing     int64 // what of Opening the club owed others, 0 or above
	Closing   int64
	Exchanged int64 // handed over for debts in another currency, less debts paid in another
	Moved     int64 // money in, less money out
}

// OwedClub is what one party owes the club in a currency at the close, and the
// Debts that it is made of, oldest first: Since is the day of the first of them,
// Oldest its posting, and Open what of that is not paid.
type OwedClub struct {
	Party  season.Party
	Money  season.Money
	Since  season.Date
	Oldest season.Posting
	Open   season.Money
	Debts  []OpenDebt
}

// clubMoney says what became of the result, in every currency in which there is
// anything.
func clubMoney(l *season.Ledger, year int, currencies []season.Currency) []ClubMoney {
	first, last := l.YearStart.Begin(year), l.YearStart.Begin(year+1)-1
	var all []ClubMoney
	for _, c := range currencies {
		m := ClubMoney{Currency: c, Result: l.ClubResult(year, c), Moved: l.ClubMoved(c, first-1, last)}
		claims := map[season.Party]int64{} // on each at the opening
		for _, p := range season.Postings(l) {
			if l.Past(p.Date) && p.Date <= last && p.Money.Currency == c {
				m.claim(p, p.Date < first, claims)
			}
		}
		for _, claim := range claims {
			m.Owing += max(-claim, 0)
		}
		for _, s := range l.Settlements {
			if pastIn(l, year, s.Date) {
				m.exchange(s)
			}
		}
		if m != (ClubMoney{Currency: c}) {
			all = append(all, m)
		}
	}
	return all
}

// claim enters a posting with the club.
func (m *ClubMoney) claim(p season.Posting, before bool, claims map[season.Party]int64) {
	minor, other := p.Money.Minor, p.Debtor
	switch {
	case p.Creditor.Club():
	case p.Debtor.Club():
		minor, other = -minor, p.Creditor
	default:
		return
	}
	m.Closing += minor
	if before || p.Debt != nil {
		m.Opening += minor
		claims[other] += minor
	}
}

// exchange enters a debt with the club that was paid in another currency.
func (m *ClubMoney) exchange(s *season.Settlement) {
	sign := int64(0)
	switch {
	case s.Money.Currency == s.Paid.Currency:
	case s.To.Club():
		sign = 1
	case s.From.Club():
		sign = -1
	}
	if s.Paid.Currency == m.Currency {
		m.Exchanged += sign * s.Paid.Minor
	}
	if s.Money.Currency == m.Currency {
		m.Exchanged -= sign * s.Money.Minor
	}
}

// moneyCurrencies are the currencies of all money of a ledger, by code.
func moneyCurrencies(l *season.Ledger) []season.Currency {
	var all []season.Currency
	add := func(m season.Money) {
		if !slices.Contains(all, m.Currency) {
			all = append(all, m.Currency)
		}
	}
	for _, c := range l.Costs {
		add(c.Money)
	}
	for _, s := range l.Settlements {
		add(s.Money)
		add(s.Paid)
	}
	for _, d := range l.Debts {
		add(d.Money)
	}
	slices.SortFunc(all, compareCurrencies)
	return all
}

// owedClub lists what each party owes the club, by currency, then in the order
// of parties.
func owedClub(l *season.Ledger, year int, s standings) []OwedClub {
	var all []OwedClub
	postings := postingsWithClub(l)
	for _, c := range moneyCurrencies(l) {
		for _, open := range openIn(s.withClub, l.Parties(), c) {
			if open.Minor >= 0 || open.Party.Club() {
				continue
			}
			owed := OwedClub{Party: open.Party, Money: season.Money{Minor: -open.Minor, Currency: c}}
			owed.Debts = openDebts(l, year, open.Party, c, postings[open.Party])
			if len(owed.Debts) > 0 {
				owed.Oldest, owed.Open = owed.Debts[0].Posting, owed.Debts[0].Money
				owed.Since = owed.Oldest.Date
			}
			all = append(all, owed)
		}
	}
	return all
}

// owesClub is what a posting makes a party owe the club, below zero for what it
// makes the club owe.
func owesClub(post season.Posting, p season.Party) int64 {
	switch {
	case post.Debtor == p && post.Creditor.Club():
		return post.Money.Minor
	case post.Creditor == p && post.Debtor.Club():
		return -post.Money.Minor
	default:
		return 0
	}
}
