package analysis

import (
	"cmp"
	"slices"

	"boxbook/season"
)

// InHandYear is what the club really had in a pot on a day. Own is what the
// ledger says should have been there, nil where the pot was counted for the first
// time, or alone of those of its currency, so that a later count has to tell.
type InHandYear struct {
	*season.InHand
	Own *season.Money
	// Joined says that the pots of its currency are compared together on its day.
	// Compared is how the currency stands; that is with the last count of the day.
	Joined   bool
	Compared *season.Compared
	// Was is an earlier count of the pot in another currency, where one of both may be
	// mistyped.
	Was *season.InHand
	// AgreesLater is the day of a later count from which what is newly off is gone again, so
	// that this count is likelier wrong than a line; 0 where there is none, or a line of
	// another year would explain that. Again is that day in either case.
	AgreesLater season.Date
	again       season.Date
	// Slips are the lines each of which alone would explain what is newly off; where that
	// may be in a pot that was not counted, if it is not. Pairs are two that would together,
	// where none does alone. ByChance is how often one would by its amount alone, where that
	// is all that speaks for the lines.
	Slips    []Slip
	Pairs    *SlipPairs
	ByChance *SlipChance
	// Untyped are the debts of exactly what is newly off, which may have been paid without a
	// line: they come before Slips.
	Untyped []Untyped
}

// newlyOff reports whether a count found something else than the ledger says that was not
// off before, and that no later count has gone again.
func (h *InHandYear) newlyOff() bool {
	return h.Compared != nil && h.again == 0 && h.Compared.New().Minor != 0 && h.Compared.Off().Minor != 0
}

// BudgetYear is what the club meant to spend on a kind, or to take in, and what
// it did. Others is what costs of the kind were borne by others, as members bear what
// they fly: it is none of the club's.
type BudgetYear struct {
	*season.Budget
	Actual season.Money
	Others season.Money
}

// AgreedYear is a year's result as the club's assembly agreed it, and the
// one that the ledger has now.
type AgreedYear struct {
	*season.Agreed
	Own season.Money
}

// inHandOf lists the counts of a year by day, none after the ledger's AsOf.
func inHandOf(l *season.Ledger, year int) []InHandYear {
	var found []InHandYear
	for _, h := range l.InHand {
		if !pastIn(l, year, h.Date) {
			continue
		}
		line := InHandYear{InHand: h, Was: l.OtherCurrency(h)}
		if own, ok := l.OwnInHand(h); ok {
			line.Own = &own
		}
		found = append(found, line)
	}
	slices.SortStableFunc(found, func(a, b InHandYear) int { return cmp.Compare(a.Date, b.Date) })
	joinPots(l, found)
	return found
}

// countedBefore are the latest comparisons before a year that were off, of the currencies
// of which no count of the year can be compared. One that a later count shows to be wrong
// itself is left out.
func countedBefore(l *season.Ledger, year int, counts []InHandYear) []InHandYear {
	var years []int
	var open []season.Currency // of which nothing is known yet
	for _, h := range l.InHand {
		if y := l.YearOf(h.Date); y < year && !slices.Contains(years, y) {
			years = append(years, y)
		}
		if !slices.Contains(open, h.Money.Currency) {
			open = append(open, h.Money.Currency)
		}
	}
	slices.Sort(years)
	var found []InHandYear
	tell := func(counts []InHandYear, before bool) {
		for _, h := range slices.Backward(counts) {
			at := slices.Index(open, h.Money.Currency)
			if h.Compared == nil || at < 0 {
				continue
			}
			open = slices.Delete(open, at, at+1)
			if before && h.Compared.Off().Minor != 0 && h.AgreesLater == 0 {
				found = append(found, h)
			}
		}
	}
	tell(counts, false)
	for _, y := range slices.Backward(years) {
		if len(open) > 0 {
			tell(inHandOf(l, y), true)
		}
	}
	slices.SortFunc(found, func(a, b InHandYear) int { return compareCurrencies(a.Money.Currency, b.Money.Currency) })
	return found
}

// joinPots compares the pots of a currency together where there are several, and says
// of each comparison what would explain it.
func joinPots(l *season.Ledger, counts []InHandYear) {
	type day struct {
		date     season.Date
		currency season.Currency
	}
	moved := moneyMovedIn(l)
	seen, last := map[day]bool{}, map[season.Currency]season.Date{}
	for i := range slices.Backward(counts) {
		h := &counts[i]
		c := h.Money.Currency
		if h.Own == nil {
			continue
		}
		last[c] = max(last[c], h.Date)
		t, _ := l.Compare(h.InHand)
		h.Joined = len(t.Counts) > 1
		if h.Date < last[c] && waits(t, h.Date, last[c]) {
			h.Own = nil
			continue
		}
		at := day{h.Date, c}
		if seen[at] {
			continue
		}
		seen[at], h.Compared = true, &t
		h.explainCount(moved, t)
	}
	openingsSwapped(moved, counts)
	otherCurrency(moved, counts)
	paidElsewhere(moved, counts)
	explainAgain(moved, counts)
	mayBeUntyped(moved, counts)
	byAmountAlone(moved, counts)
	explainByTwo(moved, counts)
}

// waits reports whether a comparison of a day is left to a later count of the year: one
// of its pots was not counted on the day, and what it had is not known, or is by a
// count that is compared itself.
func waits(t season.Compared, day, last season.Date) bool {
	return t.Unsure() || t.Leans(day) && !t.Leans(last)
}

// budgetOf lists the budget of a year as typed.
func budgetOf(l *season.Ledger, year int, club Books) []BudgetYear {
	var found []BudgetYear
	for _, b := range l.Budgets {
		if b.Year != year {
			continue
		}
		sums := club.Costs
		if b.Income {
			sums = club.Income
		}
		line := BudgetYear{Budget: b, Actual: season.Money{Currency: b.Money.Currency}, Others: borneByOthers(l, b)}
		for _, s := range sums {
			if s.Kind == b.Kind && s.Money.Currency == b.Money.Currency {
				line.Actual = s.Money
			}
		}
		found = append(found, line)
	}
	return found
}

// borneByOthers is what of the costs of a budget's kind in its year was for others than
// the club, nothing for income.
func borneByOthers(l *season.Ledger, b *season.Budget) season.Money {
	sum := season.Money{Currency: b.Money.Currency}
	for _, c := range l.Costs {
		if b.Income || c.Income || c.ToClub || c.Kind != b.Kind || c.Money.Currency != sum.Currency || !pastIn(l, b.Year, c.Date) {
			continue
		}
		for i, share := range c.Shares() {
			if !c.For[i].Club() {
				sum.Minor += share
			}
		}
	}
	return sum
}

// agreedOf lists the agreed results of a year as typed.
func agreedOf(l *season.Ledger, year int) []AgreedYear {
	var found []AgreedYear
	for _, a := range l.Agreed {
		if a.Year == year {
			own := season.Money{Minor: l.ClubResult(year, a.Money.Currency), Currency: a.Money.Currency}
			found = append(found, AgreedYear{a, own})
		}
	}
	return found
}

// agreedWithoutMoney lists the agreed results of a year in which the ledger has no money
// at all, as of the last of the book before.
func agreedWithoutMoney(l *season.Ledger, year int) []*season.Agreed {
	if hasMoney(l, year) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(l.Agreed), func(a *season.Agreed) bool { return a.Year != year })
}
