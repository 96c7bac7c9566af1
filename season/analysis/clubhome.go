package analysis

import (
	"slices"

	"boxbook/season"
)

// ClubAlone reports whether a ledger has money of the club and no flight, so that it is a
// treasurer's.
func ClubAlone(l *season.Ledger) bool {
	if len(l.Flights) > 0 {
		return false
	}
	return len(l.InHand)+len(l.Agreed)+len(l.Budgets) > 0 || slices.ContainsFunc(l.Costs, func(c *season.Cost) bool {
		return c.ClubResult() != 0 || c.ClubMoved() != 0
	}) || slices.ContainsFunc(l.Settlements, func(s *season.Settlement) bool { return s.From.Club() || s.To.Club() }) ||
		slices.ContainsFunc(l.Debts, func(d *season.Debt) bool { return d.From.Club() || d.To.Club() })
}

// LatestCount is the day of the latest count of a pot that is not after AsOf, 0 where there
// is none.
func LatestCount(l *season.Ledger) season.Date {
	latest := season.Date(0)
	for _, h := range l.InHand {
		if l.Past(h.Date) {
			latest = max(latest, h.Date)
		}
	}
	return latest
}
