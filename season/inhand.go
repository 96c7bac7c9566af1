package season

// ClubMoved is how the club's money in a currency changed after one day up to
// another, in minor units, of what is not after AsOf: income, what was paid to it,
// what it paid, and settlements in what was handed over. What is unpaid moves
// nothing.
func (l *Ledger) ClubMoved(c Currency, after, upTo Date) int64 {
	sum := int64(0)
	within := func(d Date) bool { return d > after && d <= upTo && l.Past(d) }
	for _, cost := range l.Costs {
		if cost.Money.Currency == c && within(cost.Date) {
			sum += cost.clubMoved()
		}
	}
	for _, s := range l.Settlements {
		if s.Paid.Currency != c || !within(s.Date) {
			continue
		}
		if s.From.Club() {
			sum -= s.Paid.Minor
		}
		if s.To.Club() {
			sum += s.Paid.Minor
		}
	}
	return sum
}

// clubMoved is what a cost or an income put into the club's pots, below zero for
// what it took out.
func (c *Cost) clubMoved() int64 {
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
	own, ok := l.ReckonInHand(h)
	if !ok {
		return Money{}, false
	}
	return Money{own.Before.Money.Minor + own.Moved + own.Others, h.Money.Currency}, true
}

// Reckoned is how OwnInHand comes about: what was in the pot before, what moved
// since and what other pots have less than then, in minor units.
type Reckoned struct {
	Before        *InHand
	Moved, Others int64
}

// ReckonInHand takes OwnInHand apart.
func (l *Ledger) ReckonInHand(h *InHand) (Reckoned, bool) {
	before := l.counted(h, h.Pot, func(d Date) bool { return d < h.Date })
	if before == nil {
		return Reckoned{}, false
	}
	own := Reckoned{Before: before, Moved: l.ClubMoved(h.Money.Currency, before.Date, h.Date)}
	for _, pot := range l.otherPots(h) {
		now := l.counted(h, pot, func(d Date) bool { return d <= h.Date })
		then := l.counted(h, pot, func(d Date) bool { return d <= before.Date })
		if now != nil && then != nil { // one that was opened since brought its own money
			own.Others += then.Money.Minor - now.Money.Minor
		}
	}
	return own, true
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
