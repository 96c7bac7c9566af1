package analysis

import (
	"slices"

	"boxbook/season"
)

// Untyped is what a party owed the club on the day of a count that found as much more, or
// what the club owed the party where Out: it may have been paid, and not typed. It is all
// that was open in the currency, or else one debt of it, Of; Since is the day of that, or
// of the oldest, 0 for what the club owed.
type Untyped struct {
	Party season.Party
	Money season.Money
	Out   bool
	Of    *season.Posting
	Since season.Date
}

// mayBeUntyped says of the counts which debt may have been paid without a line, of those
// for which no line speaks by more than its amount. A debt that was paid since is in the
// ledger.
func mayBeUntyped(moved moneyMoved, counts []InHandYear) {
	var with map[season.Party][]season.Posting
	for i := range counts {
		h := &counts[i]
		if !h.newlyOff() || slices.ContainsFunc(h.Slips, Slip.likely) {
			continue
		}
		if with == nil {
			with = postingsWithClub(moved.l)
		}
		h.Untyped = slices.DeleteFunc(untypedOf(moved.l, with, h.Compared.New(), h.Date), func(u Untyped) bool {
			return slices.ContainsFunc(h.Slips, u.madeBy)
		})
	}
}

// likely reports whether more than its amount speaks for a slip: it leaves a debt of its
// own, which is no clue beside it.
func (s Slip) likely() bool {
	return s.Twice || s.Turned || s.FitsAgreed != 0 || s.MeantCurrency.Code != ""
}

// madeBy reports whether a debt is no other clue than a slip: the payment that made it.
func (u Untyped) madeBy(s Slip) bool {
	p := s.Settlement
	return p != nil && (u.Out && p.From == u.Party || !u.Out && p.To == u.Party)
}

// untypedOf lists the debts of exactly what a count found more or less, by the end of its
// day by the postings with the club: all that a party owed first, then one debt of several, in
// the order of parties.
func untypedOf(l *season.Ledger, with map[season.Party][]season.Posting, found season.Money, day season.Date) []Untyped {
	out, size := found.Minor < 0, max(found.Minor, -found.Minor)
	var all, parts []Untyped
	for _, p := range l.Parties() {
		open, since, paid := int64(0), int64(0), false
		for _, post := range with[p] {
			switch owes := owesClub(post, p); {
			case post.Money.Currency != found.Currency:
			case post.Date <= day:
				open += owes
			case post.Settlement != nil:
				since -= owes
				paid = paid || max(owes, -owes) == size
			}
		}
		if out {
			open, since = -open, -since
		}
		if p.Club() || open < size || since >= open || paid {
			continue
		}
		u := Untyped{Party: p, Money: season.Money{Minor: size, Currency: found.Currency}, Out: out}
		if out {
			if open == size {
				all = append(all, u)
			}
			continue
		}
		debts := openDebtsUpTo(l, day, p, found.Currency, with[p])
		if open == size {
			if len(debts) > 0 {
				u.Since = debts[0].Posting.Date
			}
			all = append(all, u)
		} else if at := slices.IndexFunc(debts, func(d OpenDebt) bool { return d.Money.Minor == size }); at >= 0 {
			post := debts[at].Posting
			u.Of, u.Since = &post, post.Date
			parts = append(parts, u)
		}
	}
	return append(all, parts...)
}

// paidByOthers lists the club's bills that others paid over some days, of which one would
// explain what is missing, if the club paid it itself.
func paidByOthers(l *season.Ledger, c season.Currency, missing int64, days span) []Slip {
	var found []Slip
	for _, cost := range l.Costs {
		if cost.Money.Currency == c && cost.Money.Minor == missing && days.has(cost.Date) && l.Past(cost.Date) &&
			!cost.Income && !cost.ToClub && !cost.By.Club() && slices.ContainsFunc(cost.For, season.Party.Club) {
			found = append(found, Slip{Date: cost.Date, Moved: season.Money{Currency: c}, ByClub: true, Cost: cost})
		}
	}
	slices.SortStableFunc(found, func(a, b Slip) int { return int(a.Date - b.Date) })
	return found
}

// fitAsWell lists the lines that explain what is missing by their amount as well as those
// that may never have moved it: the club's bills that others paid, and lines of that amount
// the other way, which may have moved twice, where there are such or lines for them to
// stand beside.
func fitAsWell(moved moneyMoved, c season.Currency, missing int64, days span, lines []Slip) []Slip {
	if slices.ContainsFunc(lines, Slip.likely) {
		return nil
	}
	others := paidByOthers(moved.l, c, missing, days)
	if len(others) == 0 && !slices.ContainsFunc(lines, func(s Slip) bool { return s.Moved.Minor == missing && s.Meant == 0 && days.has(s.Date) }) {
		return nil
	}
	for _, s := range moved.past(c) {
		if s.Moved.Minor == -missing && days.has(s.Date) {
			s.Again = true
			others = append(others, s)
		}
	}
	return others
}
