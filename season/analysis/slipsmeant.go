package analysis

import (
	"math/big"
	"slices"

	"boxbook/season"
)

// swapped lists the lines after one day up to another that would have moved what was
// found, were two neighbouring digits of their amount the other way round.
func swapped(l *season.Ledger, c season.Currency, missing int64, after, upTo season.Date) []Slip {
	var found []Slip
	for _, s := range clubSlips(l, c) {
		typed := s.typed()
		if s.Date <= after || s.Date > upTo || typed.Minor == 0 {
			continue
		}
		if meant, ok := typed.SwapMaking(s.Moved.Minor/typed.Minor, missing); ok {
			s.Typed, s.MeantAmount = typed, meant
			found = append(found, s)
		}
	}
	return found
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
func otherCurrency(l *season.Ledger, counts []InHandYear) {
	for i := range counts {
		for j := range counts[:i] {
			a, b := &counts[i], &counts[j]
			if a.Compared == nil || b.Compared == nil || a.Money.Currency == b.Money.Currency {
				continue
			}
			if lines := append(notedElsewhere(l, a, b), notedElsewhere(l, b, a)...); len(lines) > 0 {
				a.Slips, b.Slips = lines, slices.Clone(lines)
			}
		}
	}
}

// notedElsewhere lists the lines in one count's currency that would explain it and
// another, if they were in that one's.
func notedElsewhere(l *season.Ledger, noted, meant *InHandYear) []Slip {
	missing, found := noted.Compared.New(), meant.Compared.New()
	if missing.Minor == 0 || new(big.Rat).Add(missing.Rat(), found.Rat()).Sign() != 0 {
		return nil
	}
	after, upTo := max(noted.Compared.After, meant.Compared.After), min(noted.Date, meant.Date)
	var lines []Slip
	for _, s := range clubSlips(l, missing.Currency) {
		if s.Date > after && s.Date <= upTo && s.Moved.Minor == -missing.Minor {
			s.MeantCurrency = found.Currency
			lines = append(lines, s)
		}
	}
	return lines
}
