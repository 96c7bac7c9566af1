package season

import (
	"math"
	"slices"
)

// ClubMoved is how the club's money in a currency changed after one day up to
// another, in minor units, of what is not after AsOf: income, what was paid to it,
// what it paid, and settlements in what was handed over. What is unpaid moves
// nothing.
func (l *Ledger) ClubMoved(c Currency, after, upTo Date) int64 {
	sum := int64(0)
	within := func(d Date) bool { return d > after && d <= upTo && l.Past(d) }
	for _, cost := range l.Costs {
		if cost.Money.Currency == c && within(cost.Date) {
			sum += cost.ClubMoved()
		}
	}
	for _, s := range l.Settlements {
		if s.Paid.Currency == c && within(s.Date) {
			sum += s.ClubMoved()
		}
	}
	return sum
}

// ClubMoved is what a settlement put into the club's pots, in what was handed
// over, below zero for what it took out.
func (s *Settlement) ClubMoved() int64 {
	switch {
	case s.From.Club() == s.To.Club():
		return 0
	case s.To.Club():
		return s.Paid.Minor
	default:
		return -s.Paid.Minor
	}
}

// ClubMoved is what a cost or an income put into the club's pots, below zero for
// what it took out.
func (c *Cost) ClubMoved() int64 {
	switch {
	case c.Income && c.For[0].Club(), c.ToClub && !c.By.Club():
		return c.Money.Minor
	case c.Income, c.ToClub, !c.By.Club():
		return 0
	default:
		return -c.Money.Minor
	}
}

// OwnInHand is what the ledger says should be in a pot where its content was
// typed: what was found, less what is newly off in all pots of its currency together.
// It is false for the first time that a pot is typed, which is its opening.
func (l *Ledger) OwnInHand(h *InHand) (Money, bool) {
	t, compared := l.Compare(h)
	if !compared || l.CountedBefore(h) == nil {
		return Money{}, false
	}
	return Money{h.Money.Minor - t.New().Minor, h.Money.Currency}, true
}

// CountedBefore is the line of a pot before another one of it, nil for the first.
func (l *Ledger) CountedBefore(h *InHand) *InHand {
	return l.counted(h, h.Pot, func(d Date) bool { return d < h.Date })
}

// counted is the latest line of a pot, in the currency of another line, on a day
// that fits; nil where there is none.
func (l *Ledger) counted(like *InHand, pot string, fits func(Date) bool) *InHand {
	var latest *InHand
	for _, h := range l.InHand {
		if h.Pot == pot && h.Money.Currency == like.Money.Currency && fits(h.Date) && (latest == nil || h.Date > latest.Date) {
			latest = h
		}
	}
	return latest
}

// otherPots are the other pots of a line's currency, in order.
func (l *Ledger) otherPots(h *InHand) []string {
	var pots []string
	seen := map[string]bool{h.Pot: true}
	for _, o := range l.InHand {
		if o.Money.Currency == h.Money.Currency && !seen[o.Pot] {
			seen[o.Pot] = true
			pots = append(pots, o.Pot)
		}
	}
	return pots
}

// Compared is how what was in the pots of a currency on a day stands to the ledger:
// lines of money name no pot, so that only the pots together can be compared. Counts
// are the latest of each pot, in the order in which the pots were begun, one where the
// currency has no other pot; one of a pot that was counted too long ago is the next of
// it, where no money of the currency moved between. Before is what the pots had on After, the last day before
// on which all of them were known, Moved what the club's money did since, and Begun
// what was in pots that were begun since. Book is what the ledger says from the
// first count on, as the cash book has it.
//
// Stale are the counts of pots that were counted on an earlier day, where money moved
// since: what differs may be in one of those pots.
type Compared struct {
	Counts               []*InHand
	Money                Money
	After                Date
	Before, Moved, Begun Money
	Book                 Money
	Stale                []*InHand
}

// Own is what should be in the pots by what they had on After.
func (t Compared) Own() Money {
	return Money{t.Before.Minor + t.Moved.Minor + t.Begun.Minor, t.Money.Currency}
}

// Off is by how much what was counted is off what the ledger says, New how much of that
// came after After; the rest was off on that day.
func (t Compared) Off() Money { return Money{t.Money.Minor - t.Book.Minor, t.Money.Currency} }

// Leans reports whether it goes by a count of a later day.
func (t Compared) Leans(day Date) bool {
	return slices.ContainsFunc(t.Counts, func(h *InHand) bool { return h.Date > day })
}

// Unsure reports whether what is newly off may be in a pot that was not counted.
func (t Compared) Unsure() bool { return len(t.Stale) > 0 && t.New().Minor != 0 }

// New is what is off since After.
func (t Compared) New() Money { return Money{t.Money.Minor - t.Own().Minor, t.Money.Currency} }

// Compare compares the pots of a line's currency on its day; false where none that was
// counted on that day had been before.
func (l *Ledger) Compare(h *InHand) (Compared, bool) {
	c, known := h.Money.Currency, false
	t := Compared{Money: Money{Currency: c}, Before: Money{Currency: c}, Begun: Money{Currency: c}}
	for _, now := range l.countsOn(h, h.Date) {
		t.Counts = append(t.Counts, l.settled(now, h.Date))
	}
	for _, now := range t.Counts {
		t.Money.Minor += now.Money.Minor
		known = known || now.Date == h.Date && l.CountedBefore(now) != nil
	}
	if !known {
		return t, false
	}
	t.After, t.Stale = l.knownBefore(h), l.stale(t.Counts, h.Date)
	for _, now := range t.Counts {
		if then := l.counted(h, now.Pot, func(d Date) bool { return d <= t.After }); then != nil {
			t.Before.Minor += then.Money.Minor
		} else {
			t.Begun.Minor += l.begun(now).Money.Minor
		}
	}
	t.Moved, t.Book = Money{l.ClubMoved(c, t.After, h.Date), c}, Money{l.ClubHeld(c, h.Date), c}
	slices.SortStableFunc(t.Counts, func(a, b *InHand) int { return slices.Index(l.InHand, l.begun(a)) - slices.Index(l.InHand, l.begun(b)) })
	return t, true
}

// countsOn are the latest counts of the pots of a line's currency up to a day, that of
// its own pot first.
func (l *Ledger) countsOn(h *InHand, day Date) []*InHand {
	var counts []*InHand
	for _, pot := range append([]string{h.Pot}, l.otherPots(h)...) {
		if now := l.counted(h, pot, func(d Date) bool { return d <= day }); now != nil {
			counts = append(counts, now)
		}
	}
	return counts
}

// settled is a count or, where money moved after it, the next of its pot after a day,
// none after AsOf, from which on none had: that one says what was there.
func (l *Ledger) settled(now *InHand, day Date) *InHand {
	if len(l.stale([]*InHand{now}, day)) == 0 {
		return now
	}
	var next *InHand
	for _, h := range l.InHand {
		if h.Pot == now.Pot && h.Money.Currency == now.Money.Currency && h.Date > day && l.Past(h.Date) && (next == nil || h.Date < next.Date) {
			next = h
		}
	}
	if next == nil || l.clubMovesWithin(next.Money.Currency, day, next.Date) {
		return now
	}
	return next
}

// stale are those of some counts that say nothing sure of a day: a line moved the club's
// money after them.
func (l *Ledger) stale(counts []*InHand, day Date) []*InHand {
	var stale []*InHand
	for _, h := range counts {
		if h.Date < day && l.clubMovesWithin(h.Money.Currency, h.Date, day) {
			stale = append(stale, h)
		}
	}
	return stale
}

// knownBefore is the last day before a line's on which what all pots of its currency
// had is known: each was counted on it, or no money has moved since it was. The day of
// the first count is one.
func (l *Ledger) knownBefore(h *InHand) Date {
	var days []Date
	for _, o := range l.InHand {
		if o.Money.Currency == h.Money.Currency && o.Date < h.Date {
			days = append(days, o.Date)
		}
	}
	slices.Sort(days)
	days = slices.Compact(days)
	for _, day := range slices.Backward(days) {
		if len(l.stale(l.countsOn(h, day), day)) == 0 {
			return day
		}
	}
	return days[0] // not reached: on the first day there is nothing older
}

// clubMovesWithin reports whether a line moved the club's money in a currency after one
// day up to another.
func (l *Ledger) clubMovesWithin(c Currency, after, upTo Date) bool {
	within := func(d Date) bool { return d > after && d <= upTo && l.Past(d) }
	return slices.ContainsFunc(l.Costs, func(cost *Cost) bool {
		return cost.Money.Currency == c && within(cost.Date) && cost.ClubMoved() != 0
	}) || slices.ContainsFunc(l.Settlements, func(s *Settlement) bool {
		return s.Paid.Currency == c && within(s.Date) && s.ClubMoved() != 0
	})
}

// HeldTogether reports whether a pot was counted in two currencies on one day.
func (l *Ledger) HeldTogether(pot string, a, b Currency) bool {
	days := map[Date]bool{}
	for _, h := range l.InHand {
		if h.Pot == pot && h.Money.Currency == a {
			days[h.Date] = true
		}
	}
	return slices.ContainsFunc(l.InHand, func(h *InHand) bool { return h.Pot == pot && h.Money.Currency == b && days[h.Date] })
}

// OtherCurrency is, of the first count of a pot in a currency, the latest before it in another
// one, in which and in its own the pot was counted on no day: either may be mistyped. It is
// nil where there is none.
func (l *Ledger) OtherCurrency(h *InHand) *InHand {
	if l.CountedBefore(h) != nil {
		return nil
	}
	var latest *InHand
	together := map[Currency]bool{h.Money.Currency: true}
	for _, o := range l.InHand {
		c := o.Money.Currency
		if o.Pot != h.Pot || o.Date >= h.Date || latest != nil && o.Date <= latest.Date {
			continue
		}
		if _, known := together[c]; !known {
			together[c] = l.HeldTogether(h.Pot, c, h.Money.Currency)
		}
		if !together[c] {
			latest = o
		}
	}
	return latest
}

// OpenedPots are the first counts of each pot in a currency, by day, none after AsOf.
func (l *Ledger) OpenedPots(c Currency) []*InHand {
	counts := slices.Clone(l.InHand)
	slices.SortStableFunc(counts, func(a, b *InHand) int { return int(a.Date - b.Date) })
	var first []*InHand
	for _, h := range counts {
		seen := func(o *InHand) bool { return o.Pot == h.Pot }
		if h.Money.Currency == c && l.Past(h.Date) && !slices.ContainsFunc(first, seen) {
			first = append(first, h)
		}
	}
	return first
}

// beginning is before any day.
const beginning = Date(math.MinInt32)

// ClubHeld is what should be in hand at the end of a day: what was found in the
// pots that were opened by then, and what has moved since the first of them was.
// Before that it is worked back; where no pot was ever counted, it is what has moved
// since the ledger began.
func (l *Ledger) ClubHeld(c Currency, on Date) int64 {
	pots := l.OpenedPots(c)
	if len(pots) == 0 {
		return l.ClubMoved(c, beginning, on)
	}
	anchor, held := pots[0].Date, int64(0)
	for _, h := range pots {
		if h.Date <= max(on, anchor) {
			held += h.Money.Minor
		}
	}
	if on < anchor {
		return held - l.ClubMoved(c, on, anchor)
	}
	return held + l.ClubMoved(c, anchor, on)
}

// begun is the first line of a pot.
func (l *Ledger) begun(h *InHand) *InHand {
	first := h
	for _, o := range l.InHand {
		if o.Pot == h.Pot && o.Money.Currency == h.Money.Currency && o.Date < first.Date {
			first = o
		}
	}
	return first
}
