package analysis

import (
	"fmt"
	"slices"

	"boxbook/season"
)

// Unowed is a payment in whose currency nothing was owed between the two on its day, but
// in those of Open, so that it may have been in one of these.
type Unowed struct {
	*season.Settlement
	Open []season.Money
}

// unowedPayments lists those of a ledger by date, none after AsOf. One of the club's over
// whose day its currency was counted and agreed is in that.
func unowedPayments(l *season.Ledger) []Unowed {
	var found []Unowed
	again := paidAgain(l)
	repeats := func(s *season.Settlement) bool { return again[s] }
	season.EachUnowed(season.Postings(l), repeats, func(s *season.Settlement, _ season.Money, between season.Standing) {
		open := between.Open(s.From, s.To)
		if len(open) == 0 || s.Money.Currency != s.Paid.Currency || !l.Past(s.Date) {
			return
		}
		if s.ClubMoved() == 0 || !agreedOver(l, s.Paid.Currency, s.Date) {
			found = append(found, Unowed{s, open})
		}
	})
	return found
}

// paidAgain are the settlements that say the same, remark and all, as one a few days before.
func paidAgain(l *season.Ledger) map[*season.Settlement]bool {
	all := slices.Clone(l.Settlements)
	slices.SortStableFunc(all, func(a, b *season.Settlement) int { return int(a.Date - b.Date) })
	again, last := map[*season.Settlement]bool{}, map[string]season.Date{}
	for _, s := range all {
		line := Slip{Settlement: s}
		key := fmt.Sprint(line.said(), s.Paid.Text(), s.Paid.Currency.Code, s.Remark)
		if before, seen := last[key]; seen && s.Date-before <= doubledDays {
			again[s] = true
		}
		last[key] = s.Date
	}
	return again
}

// inQuestion are those of a party's payments up to the end of a year for which the party is
// asked for money that may have been paid with them, or with which it may have been; not
// those with which something was paid since.
func (s *Statement) inQuestion(all []Unowed, l *season.Ledger, y YearSummary) []Unowed {
	asked := func(u Unowed) bool {
		return slices.ContainsFunc(s.Payments, func(q Payment) bool {
			meant := func(m season.Money) bool { return m.Currency == q.Money.Currency }
			return q.From == s.Party && (y.Settling.In != "" || u.To == s.Party && meant(u.Paid) || u.From == s.Party && slices.ContainsFunc(u.Open, meant))
		})
	}
	left := func(u Unowed) bool {
		return slices.ContainsFunc(s.Accounts, func(a StatementAccount) bool {
			return a.Currency == u.Paid.Currency && (u.From == s.Party && a.Closing > 0 || u.To == s.Party && a.Closing < 0)
		})
	}
	return slices.DeleteFunc(slices.Clone(all), func(u Unowed) bool { return l.YearOf(u.Date) > y.Year || !asked(u) || !left(u) })
}

// paidElsewhere says of the counts that found a payment too much or too little which it is,
// of those that may have been in the count's currency: more speaks for it than its amount.
func paidElsewhere(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		h := &counts[i]
		noted := func(s Slip) bool { return s.MeantCurrency.Code != "" }
		if !h.newlyOff() || slices.ContainsFunc(h.Slips, noted) {
			continue
		}
		found := h.Compared.New()
		var lines []Slip
		for _, s := range moved.unowedIn(found.Currency) {
			if s.Date > h.Compared.After && s.Date <= h.Date && s.Moved.Rat().Cmp(found.Rat()) == 0 {
				lines = append(lines, s)
			}
		}
		if len(lines) > 0 {
			twice := slices.DeleteFunc(slices.Clone(h.Slips), func(s Slip) bool { return !s.Twice })
			h.Slips = append(lines, twice...)
		}
	}
}

// unowedIn lists the club's payments that may have been in a currency and are in another.
func (m moneyMoved) unowedIn(c season.Currency) []Slip {
	if m.unowed.all == nil {
		m.unowed.all = append([]Unowed{}, unowedPayments(m.l)...)
	}
	var lines []Slip
	for _, u := range m.unowed.all {
		meant := func(m season.Money) bool { return m.Currency == c }
		if minor := u.ClubMoved(); minor != 0 && slices.ContainsFunc(u.Open, meant) {
			lines = append(lines, Slip{Date: u.Date, Moved: season.Money{Minor: minor, Currency: u.Paid.Currency}, MeantCurrency: c, Settlement: u.Settlement})
		}
	}
	return lines
}
