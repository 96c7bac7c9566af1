package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// amountMeant is the amount that another is by two neighbouring digits the other way round,
// or by its point one or two places elsewhere, which pointed says: the one that, taken off
// that, leaves a difference. It is false where none does.
func amountMeant(m season.Money, difference int64) (meant season.Money, pointed, ok bool) {
	if meant, ok = m.SwapMaking(1, difference); ok {
		return meant, false, true
	}
	for _, meant := range m.PointMoved() {
		if m.Minor-meant.Minor == difference {
			return meant, true, true
		}
	}
	return season.Money{}, false, false
}

// swappedCounts lists the counts of a comparison that would be what the ledger says, were
// two neighbouring digits of what was counted the other way round, or its point elsewhere.
func swappedCounts(t season.Compared) []Slip {
	var found []Slip
	for _, h := range t.Counts {
		if h.Date <= t.After {
			continue // it is what was there before as well
		}
		if meant, pointed, ok := amountMeant(h.Money, t.New().Minor); ok {
			found = append(found, Slip{Date: h.Date, Moved: season.Money{Currency: h.Money.Currency}, Typed: h.Money, MeantAmount: meant, Pointed: pointed, Count: h})
		}
	}
	return found
}

// openingsSwapped says of a currency in which all counts are off by one amount which
// first count of a pot would explain that, were two neighbouring digits of it the other
// way round, or its point elsewhere: with the first of those counts, or with the latest
// where that one is of an earlier year. Where there is one alone, its own digits come first.
func openingsSwapped(moved moneyMoved, counts []InHandYear) {
	done := map[season.Currency]bool{}
	try := func(h *InHandYear) {
		c := h.Money.Currency
		if h.Compared == nil || h.again != 0 || done[c] || h.Compared.Off().Minor == 0 {
			return
		}
		openings, repeated := swappedOpenings(moved.l, moved.compared(c), h.Compared.Off())
		if len(openings) == 0 {
			return
		}
		at := 0
		if repeated { // a count that was mistyped itself would not be off by as much as a later one
			h.Slips = slices.DeleteFunc(slices.Clone(h.Slips), func(s Slip) bool { return s.Count != nil })
		} else if at = slices.IndexFunc(h.Slips, func(s Slip) bool { return s.Count == nil }); at < 0 {
			at = len(h.Slips)
		}
		h.Slips, done[c] = slices.Insert(slices.Clip(h.Slips), at, openings...), true
	}
	for i := range counts {
		if h := &counts[i]; h.Compared != nil && h.Compared.New() == h.Compared.Off() {
			try(h)
		}
	}
	for i := range slices.Backward(counts) {
		h := &counts[i]
		if h.Compared != nil && h.Compared.New().Minor == 0 {
			try(h)
		}
		if h.Compared != nil {
			done[h.Money.Currency] = true
		}
	}
}

// comparison is by how much what was counted in a currency was off on a day, compared over
// the days after another.
type comparison struct {
	after, day season.Date
	off        int64
}

// comparisons are those of a currency that leave no doubt, by day, none after AsOf.
func comparisons(l *season.Ledger, c season.Currency) []comparison {
	all := []comparison{}
	for _, h := range l.InHand {
		if h.Money.Currency != c || !l.Past(h.Date) {
			continue
		}
		if t, compared := l.Compare(h); compared && !t.Unsure() {
			all = append(all, comparison{t.After, h.Date, t.Off().Minor})
		}
	}
	slices.SortStableFunc(all, func(a, b comparison) int { return int(a.day - b.day) })
	return slices.CompactFunc(all, func(a, b comparison) bool { return a.day == b.day })
}

// swappedOpenings lists the first counts of pots that would explain why all later counts
// are off by one amount, and whether there are two or more of those. Before such a pot was
// begun nothing was off.
func swappedOpenings(l *season.Ledger, compared []comparison, off season.Money) (found []Slip, repeated bool) {
	for _, h := range l.OpenedPots(off.Currency) {
		begun, _ := slices.BinarySearchFunc(compared, h.Date+1, func(c comparison, day season.Date) int { return int(c.day - day) })
		earlier, later := compared[:begun], compared[begun:]
		if slices.ContainsFunc(earlier, func(c comparison) bool { return c.off != 0 }) ||
			len(later) < 1 || later[0].off != off.Minor || len(later) > 1 && later[1].off != off.Minor {
			continue
		}
		if meant, pointed, ok := amountMeant(h.Money, -off.Minor); ok {
			found = append(found, Slip{Date: h.Date, Moved: season.Money{Currency: off.Currency}, Typed: h.Money, MeantAmount: meant, Pointed: pointed, Count: h, Opening: true})
			repeated = len(later) > 1
		}
	}
	return found, repeated
}

// agreesLater is the day of the first later count from which what is newly off in a
// comparison is gone again, 0 where there is none, and the last by which it was not. In
// doubt says that a line between moves as much, so that this count may be right. Where
// it may be in a pot that was not counted, a later count tells nothing of that one.
func agreesLater(moved moneyMoved, h *season.InHand, t season.Compared) (first, still season.Date, inDoubt bool) {
	if t.Unsure() {
		return 0, 0, false
	}
	still = h.Date
	for _, o := range moved.compared(h.Money.Currency) {
		switch {
		case o.day <= h.Date:
		case o.off != t.Off().Minor-t.New().Minor:
			still = o.day
		default:
			return o.day, still, movedAfter(moved.past(h.Money.Currency), -t.New().Minor, h.Date, o.day)
		}
	}
	return 0, 0, false
}

// movedAfter reports whether a line behind one day up to another moves exactly what was
// missing on the first: it may have moved by then, and the count be right.
func movedAfter(lines []Slip, missing int64, day, upTo season.Date) bool {
	return slices.ContainsFunc(lines, func(s Slip) bool { return s.Date > day && s.Date <= upTo && s.Moved.Minor == -missing })
}

// swapped lists the lines after one day up to another that would have moved what was
// found, were two neighbouring digits of their amount the other way round; payments of
// exactly what was charged come last, since another amount is the less likely one.
func swapped(moved moneyMoved, c season.Currency, missing int64, after, upTo season.Date) []Slip {
	var found, charged []Slip
	for _, s := range moved.past(c) {
		typed := s.typed()
		if s.Date <= after || s.Date > upTo || typed.Minor == 0 {
			continue
		}
		if meant, ok := typed.SwapMaking(s.Moved.Minor/typed.Minor, missing); ok {
			s.Typed, s.MeantAmount = typed, meant
			if s.chargedExactly(moved.l) {
				charged = append(charged, s)
			} else {
				found = append(found, s)
			}
		}
	}
	return append(found, charged...)
}

// chargedExactly reports whether a line is a payment to the club of an amount that was
// charged to the payer.
func (s Slip) chargedExactly(l *season.Ledger) bool {
	return s.Settlement != nil && s.Settlement.To.Club() && slices.ContainsFunc(l.Costs, func(c *season.Cost) bool {
		return c.Typed() == s.Settlement.Paid && slices.Contains(c.For, s.Settlement.From)
	})
}

// typed is the amount as it stands in the line, of one where it was typed for each.
func (s Slip) typed() season.Money {
	switch {
	case s.Settlement != nil:
		return s.Settlement.Paid
	default:
		return s.Cost.Typed()
	}
}

// otherCurrency finds counts of two currencies of which one found as much too little as
// the other found too much: a line of that amount, dated where both are compared, would
// explain both, if it was noted in the wrong one of them.
func otherCurrency(moved moneyMoved, counts []InHandYear) {
	for i := range counts {
		for j := range counts[:i] {
			a, b := &counts[i], &counts[j]
			if a.Compared == nil || b.Compared == nil || a.again != 0 || b.again != 0 || a.Money.Currency == b.Money.Currency {
				continue
			}
			if lines := append(notedElsewhere(moved, a, b), notedElsewhere(moved, b, a)...); len(lines) > 0 {
				a.Slips, b.Slips = lines, slices.Clone(lines)
			}
		}
	}
}

// notedElsewhere lists the lines in one count's currency that would explain it and
// another, if they were in that one's.
func notedElsewhere(moved moneyMoved, noted, meant *InHandYear) []Slip {
	missing, found := noted.Compared.New(), meant.Compared.New()
	if missing.Minor == 0 || new(big.Rat).Add(missing.Rat(), found.Rat()).Sign() != 0 {
		return nil
	}
	after, upTo := max(noted.Compared.After, meant.Compared.After), min(noted.Date, meant.Date)
	var lines []Slip
	for _, s := range moved.past(missing.Currency) {
		if s.Date > after && s.Date <= upTo && s.Moved.Minor == -missing.Minor {
			s.MeantCurrency = found.Currency
			lines = append(lines, s)
		}
	}
	return lines
}
