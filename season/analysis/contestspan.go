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
	var all []ContestSpan
	for _, contest := range l.Contests {
		stands, costs := l.YearOf(contest.First), map[int][]season.Money{}
		for _, c := range l.Costs {
			if dated := l.YearOf(c.Date); c.Contest == contest && !c.Income && l.Past(c.Date) && dated != stands {
				costs[dated] = addMoney(costs[dated], c.Money)
			}
		}
		for _, dated := range []int{stands - 1, stands + 1} {
			if len(costs[dated]) > 0 && (stands == year || dated == year) {
				all = append(all, ContestSpan{contest, stands, dated, costs[dated]})
			}
		}
	}
	return all
}
