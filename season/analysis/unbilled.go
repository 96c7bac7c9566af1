package analysis

import (
	"slices"

	"boxbook/season"
)

// PaidUnbilled is what a party paid the club in payments, what came back taken off, that
// nothing ever stood against: no cost, bill or older debt.
type PaidUnbilled struct {
	Party season.Party
	Money season.Money
}

// paidUnbilled lists those who paid the club in a year and were never charged anything in
// that currency up to its end, by currency, then in the order of parties.
func paidUnbilled(l *season.Ledger, year int) []PaidUnbilled {
	pays := func(s *season.Settlement) bool { return s.To.Club() && pastIn(l, year, s.Date) }
	if !slices.ContainsFunc(l.Settlements, pays) {
		return nil
	}
	paid, payer := map[season.Account]int64{}, map[season.Account]bool{}
	charged := map[season.Account]bool{}
	for _, post := range season.Postings(l) {
		p := post.Debtor
		if p.Club() {
			p = post.Creditor
		}
		owes, at := owesClub(post, p), season.Account{Party: p, Currency: post.Money.Currency}
		switch {
		case owes == 0 || l.YearOf(post.Date) > year || !l.Past(post.Date):
		case post.Settlement == nil:
			charged[at] = charged[at] || owes > 0
		default:
			paid[at] -= owes
			payer[at] = payer[at] || pays(post.Settlement)
		}
	}
	var found []PaidUnbilled
	for _, c := range moneyCurrencies(l) {
		for _, p := range l.Parties() {
			if at := (season.Account{Party: p, Currency: c}); payer[at] && !charged[at] && paid[at] > 0 {
				found = append(found, PaidUnbilled{p, season.Money{Minor: paid[at], Currency: c}})
			}
		}
	}
	return found
}
