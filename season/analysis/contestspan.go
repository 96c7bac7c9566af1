package analysis

import "boxbook/season"

// ContestSpan is what a contest cost in another financial year than the one it stands
// with, that in which it begins: over New Year money counts by its own date.
type ContestSpan struct {
	Contest       *season.Contest
	Stands, Dated int // years
	Costs         []season.Money
}

// contestSpans are those of which one of both years is this, in the order of contests.
func contestSpans(l *season.Ledger, year int) []ContestSpan {
	costs := map[*season.Contest]map[int][]season.Money{}
	for _, c := range l.Costs {
		if c.Contest == nil || c.Income || !l.Past(c.Date) {
			continue
		}
		if stands, dated := l.YearOf(c.Contest.First), l.YearOf(c.Date); dated != stands && (stands == year || dated == year) {
			if costs[c.Contest] == nil {
				costs[c.Contest] = map[int][]season.Money{}
			}
			costs[c.Contest][dated] = addMoney(costs[c.Contest][dated], c.Money)
		}
	}
	var all []ContestSpan
	for _, contest := range l.Contests {
		stands := l.YearOf(contest.First)
		for _, dated := range []int{stands - 1, stands + 1} {
			if sums := costs[contest][dated]; len(sums) > 0 {
				all = append(all, ContestSpan{contest, stands, dated, sums})
			}
		}
	}
	return all
}
