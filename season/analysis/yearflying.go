package analysis

import (
	"cmp"
	"slices"
	"strings"

	"boxbook/season"
)

// clubYear is the year that a flight belongs to: its contest's, which is the
// year in which it begins, else that of its own date.
func clubYear(l *season.Ledger, f *season.Flight) int {
	if f.Contest != nil {
		return l.YearOf(f.Contest.First)
	}
	return l.YearOf(f.Date)
}

// yearFlying is what was flown, judged and printed in a calendar year.
type yearFlying struct {
	ledger   *season.Ledger
	contests []*season.Contest // those that began in the year, by first day
	flights  []*season.Flight  // those that count, practice included
}

func flyingOf(l *season.Ledger, year int) yearFlying {
	y := yearFlying{ledger: l}
	for _, c := range l.Contests {
		if l.YearOf(c.First) == year {
			y.contests = append(y.contests, c)
		}
	}
	slices.SortStableFunc(y.contests, func(a, b *season.Contest) int { return cmp.Compare(a.First, b.First) })
	for _, f := range l.Select(season.Selection{}) {
		if f.Counts() && clubYear(l, f) == year {
			y.flights = append(y.flights, f)
		}
	}
	return y
}

// flown lists the contest flights that match.
func (y yearFlying) flown(match func(*season.Flight) bool) []*season.Flight {
	var flights []*season.Flight
	for _, f := range y.flights {
		if f.Contested() && match(f) {
			flights = append(flights, f)
		}
	}
	return flights
}

// loose counts the contest flights that name no contest.
func (y yearFlying) loose() int {
	return len(y.flown(func(f *season.Flight) bool { return f.Contest == nil }))
}

// results are a contest's typed results, none before its last day.
func (y yearFlying) results(c *season.Contest) []season.Result {
	if !y.ledger.Past(c.Last) {
		return nil
	}
	return c.Results
}

// entrants are the pilots with a contest flight or a typed result.
func (y yearFlying) entrants(c *season.Contest) []*season.Pilot {
	var pilots []*season.Pilot
	add := func(p *season.Pilot) {
		if !slices.Contains(pilots, p) {
			pilots = append(pilots, p)
		}
	}
	for _, f := range y.flown(func(f *season.Flight) bool { return f.Contest == c }) {
		add(f.Pilot)
	}
	for _, r := range y.results(c) {
		add(r.Pilot)
	}
	return pilots
}

// contestYears lists the contests that began up to AsOf, and of those to come
// the ones that have cost something already.
func (y yearFlying) contestYears() []ContestYear {
	var out []ContestYear
	for _, c := range y.contests {
		line := ContestYear{
			Contest: c, Entries: len(y.entrants(c)), Results: y.results(c), Costs: contestCosts(y.ledger, c), Income: contestIncome(y.ledger, c), Shares: contestCostShares(y.ledger, c),
			Flights: len(y.flown(func(f *season.Flight) bool { return f.Contest == c })),
		}
		if y.ledger.Past(c.First) || line.Entries > 0 || len(line.Costs) > 0 {
			out = append(out, line)
		}
	}
	return out
}

// contestCosts sums the costs that stand with a contest, by currency.
func contestCosts(l *season.Ledger, c *season.Contest) []season.Money {
	var sums []season.Money
	for _, cost := range l.Costs {
		if cost.Contest == c && !cost.Income && l.Past(cost.Date) {
			sums = addMoney(sums, cost.Money)
		}
	}
	return sums
}

// contestIncome sums the club's income with a contest, by currency: what was paid or
// billed to it.
func contestIncome(l *season.Ledger, c *season.Contest) []season.Money {
	var sums []season.Money
	for _, cost := range l.Costs {
		if cost.Contest == c && cost.ToClub && !cost.ForItself() && l.Past(cost.Date) {
			sums = addMoney(sums, cost.Money)
		}
	}
	return sums
}

// contestCostShares is what each party bears of the costs that stand with a contest.
func contestCostShares(l *season.Ledger, c *season.Contest) []PartyMoney {
	sums := map[season.Party][]season.Money{}
	for _, cost := range l.Costs {
		if cost.Contest != c || cost.Income || !l.Past(cost.Date) {
			continue
		}
		for i, share := range cost.Shares() {
			sums[cost.For[i]] = addMoney(sums[cost.For[i]], season.Money{Minor: share, Currency: cost.Money.Currency})
		}
	}
	var all []PartyMoney
	for _, p := range l.Parties() {
		if len(sums[p]) > 0 {
			all = append(all, PartyMoney{p, sums[p]})
		}
	}
	return all
}

// addMoney adds an amount to the sum of its currency; sums are sorted by code.
func addMoney(sums []season.Money, m season.Money) []season.Money {
	at, found := slices.BinarySearchFunc(sums, m.Currency, func(s season.Money, c season.Currency) int { return compareCurrencies(s.Currency, c) })
	if !found {
		return slices.Insert(sums, at, m)
	}
	sums[at].Minor += m.Minor
	return sums
}

func compareCurrencies(a, b season.Currency) int { return strings.Compare(a.Code, b.Code) }

// pilotYear is one pilot's year.
func (y yearFlying) pilotYear(p *season.Pilot, books Books) PilotYear {
	out := PilotYear{Pilot: p, Books: books}
	flights := y.flown(func(f *season.Flight) bool { return f.Pilot == p })
	out.Flights = len(flights)
	sum := sumOf(flights)
	out.Best, out.Mean = sum.Best, sum.Mean
	for _, f := range y.flights {
		if f.Pilot == p && !f.Contested() {
			out.Practice++
		}
	}
	for _, c := range y.contests {
		if slices.Contains(y.entrants(c), p) {
			out.Contests++
		}
		for _, r := range y.results(c) {
			if r.Pilot == p && r.Rank >= 1 && r.Rank <= len(out.Places) {
				out.Places[r.Rank-1]++
			}
		}
	}
	out.Duties = y.duties(season.Party{Pilot: p})
	return out
}

// duties sums a party's sessions by role.
func (y yearFlying) duties(who season.Party) []DutyYear {
	var out []DutyYear
	for _, c := range y.contests {
		if !y.ledger.Past(c.First) {
			continue
		}
		for _, d := range c.Duties {
			if d.Who != who {
				continue
			}
			at, found := slices.BinarySearchFunc(out, d.Role, func(sum DutyYear, role string) int { return strings.Compare(sum.Role, role) })
			if !found {
				out = slices.Insert(out, at, DutyYear{Role: d.Role})
			}
			out[at].Sessions += d.Sessions
		}
	}
	return out
}

// categoryYears sums the year by category.
func (y yearFlying) categoryYears() []CategoryYear {
	entries := y.categoryEntries()
	var out []CategoryYear
	for _, name := range append(y.ledger.CategoryNames(), "") {
		flights := y.flown(func(f *season.Flight) bool { return f.Category == name })
		line := CategoryYear{Name: name, Entries: entries[name], Flights: len(flights)}
		sum := sumOf(flights)
		line.Best, line.Mean = sum.Best, sum.Mean
		if line.Entries+line.Flights > 0 {
			out = append(out, line)
		}
	}
	return out
}

// categoryEntries counts, by category, each pilot of each contest once.
func (y yearFlying) categoryEntries() map[string]int {
	entries := map[string]int{}
	for _, c := range y.contests {
		for _, p := range y.entrants(c) {
			flights := y.flown(func(f *season.Flight) bool { return f.Contest == c && f.Pilot == p })
			if len(flights) == 0 {
				entries[""]++ // known by the result alone
			}
			var seen []string
			for _, f := range flights {
				if !slices.Contains(seen, f.Category) {
					seen = append(seen, f.Category)
					entries[f.Category]++
				}
			}
		}
	}
	return entries
}
