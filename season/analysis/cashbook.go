package analysis

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// CashBook is the club's money over a financial year, all pots of a currency
// together.
type CashBook struct {
	Lines  []CashLine // by date; on one day costs and income, then settlements, then counts
	Totals []CashTotal
}

// CashLine is money that the club received or paid, or a count of what it has in
// hand. One of Cost, Settlement and Count is set. In and Out are minor units;
// Found is what a count brings that no line of the ledger has moved, the content of
// a pot that is counted for the first time after another. Running is what should be
// in hand afterwards.
type CashLine struct {
	Date       season.Date
	Currency   season.Currency
	Cost       *season.Cost
	Settlement *season.Settlement
	Count      *InHandYear
	With       []season.Party // whom it came from, or for whom it was paid
	In, Out    int64
	Found      int64
	Running    int64
}

// CashTotal is a currency's cash over the year, in minor units. Counted says that
// the balances go by a count, the first one of the currency, on that day; else they
// are what has moved since the ledger began.
//
//	Closing = Opening + In - Out + Found
type CashTotal struct {
	Currency season.Currency
	Opening  int64
	In, Out  int64
	Found    int64
	Closing  int64
	Counted  bool
	Since    season.Date
}

// CashBookOf is the club's cash book of a year, without what is dated after the
// ledger's AsOf.
func CashBookOf(l *season.Ledger, y YearSummary) CashBook {
	var b CashBook
	lines := cashLines(l, y)
	for _, c := range cashCurrencies(l) {
		pots := l.OpenedPots(c)
		t := CashTotal{Currency: c, Opening: l.ClubHeld(c, y.First-1)}
		if len(pots) > 0 {
			t.Counted, t.Since = true, pots[0].Date
		}
		t.Closing = t.Opening
		any := false
		for i := range lines {
			if lines[i].Currency == c {
				lines[i].enter(&t)
				any = true
			}
		}
		if any || t.Opening != 0 {
			b.Totals = append(b.Totals, t)
		}
	}
	b.Lines = lines
	return b
}

func (s *CashLine) enter(t *CashTotal) {
	t.In += s.In
	t.Out += s.Out
	t.Found += s.Found
	t.Closing += s.In - s.Out + s.Found
	s.Running = t.Closing
}

// cashLines are what moved the club's money in a year, and the counts of it.
func cashLines(l *season.Ledger, y YearSummary) []CashLine {
	var lines []CashLine
	for _, c := range cashCurrencies(l) {
		for _, s := range clubSlips(l, c) {
			if pastIn(l, y.Year, s.Date) {
				lines = append(lines, CashLine{
					Date: s.Date, Currency: c, Cost: s.Cost, Settlement: s.Settlement, With: cashWith(s),
					In: max(s.Moved.Minor, 0), Out: max(-s.Moved.Minor, 0),
				})
			}
		}
	}
	for i := range y.InHand {
		count := &y.InHand[i]
		line := CashLine{Date: count.Date, Currency: count.Money.Currency, Count: count}
		if pots := l.OpenedPots(line.Currency); count.Date > pots[0].Date && slices.Contains(pots, count.InHand) {
			line.Found = count.Money.Minor
		}
		lines = append(lines, line)
	}
	slices.SortStableFunc(lines, func(a, b CashLine) int { return cmp.Compare(a.Date, b.Date) })
	return lines
}

// cashWith are whom the club's money came from, or for whom it was paid; nobody
// for what is the club's own, or came from outside.
func cashWith(s Slip) []season.Party {
	switch {
	case s.Settlement != nil && s.Settlement.From.Club():
		return []season.Party{s.Settlement.To}
	case s.Settlement != nil:
		return []season.Party{s.Settlement.From}
	case s.Cost.Income:
		return nil
	case !s.Cost.By.Club():
		return []season.Party{s.Cost.By}
	default:
		return slices.DeleteFunc(slices.Clone(s.Cost.For), season.Party.Club)
	}
}

// cashCurrencies are those of all money of a ledger and of all that was counted.
func cashCurrencies(l *season.Ledger) []season.Currency {
	all := moneyCurrencies(l)
	for _, h := range l.InHand {
		if !slices.Contains(all, h.Money.Currency) {
			all = append(all, h.Money.Currency)
		}
	}
	slices.SortFunc(all, compareCurrencies)
	return all
}
