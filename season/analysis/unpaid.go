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

// unpaidBills lists what is billed and not paid, by party as owed has them, the
// oldest first. A later payment of exactly a bill's amount paid that bill; of the
// others the latest are open, as far as the party owes the club anything.
func unpaidBills(l *season.Ledger, year int, owed []OwedClub) []UnpaidBill {
	var all []UnpaidBill
	postings, paid := postingsWithClub(l), paymentsToClub(l)
	for _, o := range owed {
		left := o.Money.Minor
		var open []UnpaidBill
		for _, bill := range slices.Backward(billsOf(l, year, o, postings[o.Party], paid[o.Party])) {
			if bill.Money.Minor = min(bill.Money.Minor, left); bill.Money.Minor > 0 {
				open = append(open, bill)
				left -= bill.Money.Minor
			}
		}
		slices.Reverse(open)
		all = append(all, open...)
	}
	return all
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

// paymentsToClub are each party's, in the order of the ledger.
func paymentsToClub(l *season.Ledger) map[season.Party][]*season.Settlement {
	by := map[season.Party][]*season.Settlement{}
	for _, s := range l.Settlements {
		if s.To.Club() {
			by[s.From] = append(by[s.From], s)
		}
	}
	return by
}

// billsOf lists the bills of one party in one currency, by day, without those that
// a payment of their amount paid; postings and payments are the party's with the
// club.
func billsOf(l *season.Ledger, year int, o OwedClub, postings []season.Posting, payments []*season.Settlement) []UnpaidBill {
	paid := map[*season.Settlement]bool{}
	counts := func(d season.Date) bool { return l.Past(d) && l.YearOf(d) <= year }
	pays := func(bill season.Posting) *season.Settlement {
		for _, s := range payments {
			if !paid[s] && s.Money == bill.Money && s.Date >= bill.Date && counts(s.Date) {
				return s
			}
		}
		return nil
	}
	var bills []UnpaidBill
	for _, p := range postings {
		c := p.Cost
		if c == nil || !c.ToClub || !c.By.Club() || p.Debtor != o.Party || p.Money.Currency != o.Money.Currency || p.Money.Minor <= 0 || !counts(p.Date) {
			continue
		}
		if s := pays(p); s != nil {
			paid[s] = true
			continue
		}
		bills = append(bills, UnpaidBill{o.Party, p.Money, c})
	}
	return bills
}
