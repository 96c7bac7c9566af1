package analysis

import (
	"slices"

	"boxbook/season"
)

// StandsWithClub is how what a party owes the club in a currency came about, in minor
// units; below zero the club owes it.
//
//	Closing = Opening + Charged - PaidFor - Paid + Received + Owed
type StandsWithClub struct {
	Currency season.Currency
	Opening  int64
	Charged  int64 // costs of the party that the club paid or billed, Credited taken off
	Credited int64 // of them those below zero: refunds, what is owed no more
	PaidFor  int64 // costs of the club that the party paid
	Paid     int64 // settlements to the club
	Received int64 // settlements from the club
	Owed     int64 // older debts entered in the year
	Closing  int64
}

// standsWithClub lists what stands between a party and the club at the end of a year,
// by currency.
func standsWithClub(l *season.Ledger, postings []season.Posting, year int, p season.Party) []StandsWithClub {
	var all []StandsWithClub
	for _, post := range postings {
		owes := owesClub(post, p)
		if owes == 0 || l.YearOf(post.Date) > year || !l.Past(post.Date) {
			continue
		}
		at := slices.IndexFunc(all, func(s StandsWithClub) bool { return s.Currency == post.Money.Currency })
		if at < 0 {
			at = len(all)
			all = append(all, StandsWithClub{Currency: post.Money.Currency})
		}
		all[at].enter(post, owes, l.YearOf(post.Date) < year)
	}
	slices.SortFunc(all, func(a, b StandsWithClub) int { return compareCurrencies(a.Currency, b.Currency) })
	return all
}

// enter adds what a posting makes the party owe.
func (s *StandsWithClub) enter(post season.Posting, owes int64, before bool) {
	s.Closing += owes
	switch {
	case before:
		s.Opening += owes
	case post.Debt != nil:
		s.Owed += owes
	case post.Settlement != nil && post.Settlement.To.Club():
		s.Paid -= owes
	case post.Settlement != nil:
		s.Received += owes
	case post.Cost.By.Club():
		s.Charged += owes
		s.Credited += max(-owes, 0)
	default:
		s.PaidFor -= owes
	}
}
