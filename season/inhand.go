package season

import "slices"

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
// typed: what was in all pots of the currency when this one was typed before, and
// what moved since, less what the other pots have. It is false for the first time
// that a pot is typed, which is its opening.
func (l *Ledger) OwnInHand(h *InHand) (Money, bool) {
	before := l.CountedBefore(h)
	if before == nil {
		return Money{}, false
	}
	own := before.Money.Minor + l.ClubMoved(h.Money.Currency, before.Date, h.Date)
	for _, pot := range l.otherPots(h) {
		now := l.counted(h, pot, func(d Date) bool { return d <= h.Date })
		then := l.counted(h, pot, func(d Date) bool { return d <= before.Date })
		if now != nil && then != nil { // one that was opened since brought its own money
			own += then.Money.Minor - now.Money.Minor
		}
	}
	return Money{own, h.Money.Currency}, true
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

// Together is what was in all pots of a currency on a day on which some were counted:
// lines of money name no pot, so that only the pots together can be compared. Counts
// are the latest of each pot, in the order in which the pots were begun; Before is what
// the pots had on After, Moved what the club's money did since, and Begun what was in
// pots that were begun since. What should be there is the three of them.
type Together struct {
	Counts               []*InHand
	Money                Money
	After                Date
	Before, Moved, Begun Money
}

// Own is what the ledger says should be in the pots together.
func (t Together) Own() Money {
	return Money{t.Before.Minor + t.Moved.Minor + t.Begun.Minor, t.Money.Currency}
}

// InHandTogether compares the pots of a line's currency on its day; false where there
// is one pot alone, or where none that was counted on that day had been before.
func (l *Ledger) InHandTogether(h *InHand) (Together, bool) {
	c, known := h.Money.Currency, false
	t := Together{Money: Money{Currency: c}, Before: Money{Currency: c}, Begun: Money{Currency: c}}
	pots := append([]string{h.Pot}, l.otherPots(h)...)
	for _, pot := range pots {
		now := l.counted(h, pot, func(d Date) bool { return d <= h.Date })
		if now == nil {
			continue
		}
		t.Counts = append(t.Counts, now)
		t.Money.Minor += now.Money.Minor
		if before := l.CountedBefore(now); now.Date == h.Date && before != nil && (!known || before.Date < t.After) {
			t.After, known = before.Date, true
		}
	}
	if !known || len(t.Counts) < 2 {
		return t, false
	}
	for _, now := range t.Counts {
		if then := l.counted(h, now.Pot, func(d Date) bool { return d <= t.After }); then != nil {
			t.Before.Minor += then.Money.Minor
		} else {
			t.Begun.Minor += l.begun(now).Money.Minor
		}
	}
	t.Moved = Money{l.ClubMoved(c, t.After, h.Date), c}
	slices.SortStableFunc(t.Counts, func(a, b *InHand) int { return slices.Index(l.InHand, l.begun(a)) - slices.Index(l.InHand, l.begun(b)) })
	return t, true
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
