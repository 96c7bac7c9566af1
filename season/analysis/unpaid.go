package analysis

import (
	"slices"

	"boxbook/season"
)

// UnpaidBill is what a party has not paid of a line that the club billed it.
type UnpaidBill struct {
	Party season.Party
	Money season.Money
	Cost  *season.Cost
}

// OpenDebt is what of a posting a party has not paid the club.
type OpenDebt struct {
	Posting season.Posting
	Money   season.Money
}

// openDebts are what a party's debt to the club in a currency is made of at the
// close of a year, oldest first. A later payment of exactly a bill's amount paid
// that bill; beside unpaid bills, one of another debt's amount paid that debt; any
// other paid what was oldest: of what is left the latest is open, bill or not, until what is owed is all accounted
// for. postings and payments are the party's with the club.
func openDebts(l *season.Ledger, year int, p season.Party, owed season.Money, postings []season.Posting, payments []*season.Settlement) []OpenDebt {
	left := owed.Minor
	paid := paidExactly(l, year, p, owed.Currency, postings, payments)
	var open []OpenDebt
	for i, post := range slices.Backward(postings) {
		if left <= 0 {
			break
		}
		minor := owesClub(post, p)
		if minor <= 0 || paid[i] || post.Money.Currency != owed.Currency || l.YearOf(post.Date) > year || !l.Past(post.Date) {
			continue
		}
		minor = min(minor, left)
		open = append(open, OpenDebt{post, season.Money{Minor: minor, Currency: owed.Currency}})
		left -= minor
	}
	slices.Reverse(open)
	return open
}

// unpaidBills lists what is billed and not paid, by party as owed has them, the
// oldest first.
func unpaidBills(owed []OwedClub) []UnpaidBill {
	var all []UnpaidBill
	for _, o := range owed {
		for _, d := range o.Debts {
			if billed(d.Posting) {
				all = append(all, UnpaidBill{o.Party, d.Money, d.Posting.Cost})
			}
		}
	}
	return all
}

// billed reports whether a posting is of a line that the club billed.
func billed(p season.Posting) bool {
	return p.Cost != nil && p.Cost.ToClub && p.Cost.By.Club() && p.Money.Minor > 0
}

// postingsWithClub are the postings between each party and the club, by date: what
// is asked of every party is looked up once.
func postingsWithClub(l *season.Ledger) map[season.Party][]season.Posting {
	by := map[season.Party][]season.Posting{}
	for _, p := range season.Postings(l) {
		if p.Creditor.Club() {
			by[p.Debtor] = append(by[p.Debtor], p)
		} else if p.Debtor.Club() {
			by[p.Creditor] = append(by[p.Creditor], p)
		}
	}
	return by
}

// paymentsToClub are each party's, by date.
func paymentsToClub(l *season.Ledger) map[season.Party][]*season.Settlement {
	by := map[season.Party][]*season.Settlement{}
	for _, s := range l.Settlements {
		if s.To.Club() {
			by[s.From] = append(by[s.From], s)
		}
	}
	for _, paid := range by {
		slices.SortStableFunc(paid, func(a, b *season.Settlement) int { return int(a.Date - b.Date) })
	}
	return by
}

// paidExactly are the places in a party's postings of the debts that a later payment
// of their amount paid, each by a payment of its own: bills, and where a bill is left,
// so that it is not the one that counts as paid, other debts.
func paidExactly(l *season.Ledger, year int, p season.Party, c season.Currency, postings []season.Posting, payments []*season.Settlement) map[int]bool {
	used, paid := map[*season.Settlement]bool{}, map[int]bool{}
	counts := func(d season.Date) bool { return l.Past(d) && l.YearOf(d) <= year }
	match := func(bills bool) (left bool) {
		for i, post := range postings {
			if billed(post) != bills || owesClub(post, p) <= 0 || post.Money.Currency != c || !counts(post.Date) {
				continue
			}
			for _, s := range payments {
				if !used[s] && s.Money == post.Money && s.Date >= post.Date && counts(s.Date) {
					used[s], paid[i] = true, true
					break
				}
			}
			left = left || !paid[i]
		}
		return left
	}
	if match(true) {
		match(false)
	}
	return paid
}
