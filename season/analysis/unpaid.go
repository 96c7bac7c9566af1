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
	for _, o := range owed {
		left := o.Money.Minor
		var open []UnpaidBill
		for _, bill := range slices.Backward(billsOf(l, year, o)) {
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

// billsOf lists the bills of one party in one currency, by day, without those that
// a payment of their amount paid.
func billsOf(l *season.Ledger, year int, o OwedClub) []UnpaidBill {
	paid := map[*season.Settlement]bool{}
	counts := func(d season.Date) bool { return l.Past(d) && l.YearOf(d) <= year }
	pays := func(bill season.Posting) *season.Settlement {
		for _, s := range l.Settlements {
			if !paid[s] && s.From == o.Party && s.To.Club() && s.Money == bill.Money && s.Date >= bill.Date && counts(s.Date) {
				return s
			}
		}
		return nil
	}
	var bills []UnpaidBill
	for _, p := range season.Postings(l) {
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
