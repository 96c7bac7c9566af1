package entry

import (
	"slices"

	"boxbook/season"
)

// namesOf lists what items are called, in their order.
func namesOf[T any](items []T, name func(T) string) []string {
	var names []string
	for _, item := range items {
		names = append(names, name(item))
	}
	return names
}

// latest gives names from the last in the ledger to the first.
func latest(names func(*season.Ledger) []string) func(*season.Ledger) []string {
	return func(l *season.Ledger) []string {
		backward := slices.Clone(names(l))
		slices.Reverse(backward)
		return backward
	}
}

// Pilots are the handles of a ledger's pilots.
func Pilots(l *season.Ledger) []string {
	return namesOf(l.Pilots, func(p *season.Pilot) string { return p.Handle })
}

// Parties are those who pay and are paid: pilots, coaches, persons and the club.
func Parties(l *season.Ledger) []string { return namesOf(l.Parties(), season.Party.Name) }

// People are the parties that are somebody: all but the club.
func People(l *season.Ledger) []string {
	return namesOf(slices.DeleteFunc(l.Parties(), season.Party.Club), season.Party.Name)
}

// PartiesOrAll are the parties, and the word for everybody at a contest.
func PartiesOrAll(l *season.Ledger) []string { return append(Parties(l), allThere) }

// CostKinds are the words for what money was spent on, the latest first.
func CostKinds(l *season.Ledger) []string { return moneyKinds(l, false) }

// IncomeKinds are the words for what money came from, the latest first.
func IncomeKinds(l *season.Ledger) []string { return moneyKinds(l, true) }

// MoneyKinds are the words of costs, then those of incomes.
func MoneyKinds(l *season.Ledger) []string {
	kinds := append(CostKinds(l), IncomeKinds(l)...)
	slices.Reverse(kinds)
	return latestOnce(kinds)
}

func moneyKinds(l *season.Ledger, income bool) []string {
	var kinds []string
	for _, b := range l.Budgets {
		if b.Income == income {
			kinds = append(kinds, b.Kind)
		}
	}
	for _, c := range l.Costs {
		if c.Income == income {
			kinds = append(kinds, c.Kind)
		}
	}
	return latestOnce(kinds)
}

// Currencies are the codes of a ledger's currencies, the latest first.
func Currencies(l *season.Ledger) []string {
	codes := namesOf(l.Rates, func(r *season.Rate) string { return r.From.Code })
	codes = append(codes, namesOf(l.Rates, func(r *season.Rate) string { return r.To.Code })...)
	codes = append(codes, namesOf(l.Debts, func(d *season.Debt) string { return d.Money.Currency.Code })...)
	codes = append(codes, namesOf(l.Settlements, func(s *season.Settlement) string { return s.Paid.Currency.Code })...)
	return latestOnce(append(codes, namesOf(l.Costs, func(c *season.Cost) string { return c.Money.Currency.Code })...))
}

// Pots are where the club keeps its money, the latest first.
func Pots(l *season.Ledger) []string {
	return latestOnce(namesOf(l.InHand, func(h *season.InHand) string { return h.Pot }))
}

// ExpiryWords are the words for what expires, of all pilots.
func ExpiryWords(l *season.Ledger) []string {
	var words []string
	for _, p := range l.Pilots {
		words = append(words, namesOf(p.Expires, func(e season.Expiry) string { return e.What })...)
	}
	return latestOnce(words)
}

// DutyRoles are the words for work done at contests, the latest first.
func DutyRoles(l *season.Ledger) []string {
	var roles []string
	for _, c := range l.Contests {
		roles = append(roles, namesOf(c.Duties, func(d season.Duty) string { return d.Role })...)
	}
	return latestOnce(roles)
}

// latestOnce gives each name once, from the last to the first.
func latestOnce(names []string) []string {
	var once []string
	for _, name := range slices.Backward(names) {
		if !slices.Contains(once, name) {
			once = append(once, name)
		}
	}
	return once
}

// SafetyKinds are the kinds of fault that stay open until they are closed.
func SafetyKinds(l *season.Ledger) []string {
	var names []string
	for _, k := range l.FaultKinds {
		if k.Safety {
			names = append(names, k.Name)
		}
	}
	return names
}

// OpenDrills are the names of the drills that have not ended, latest first.
func OpenDrills(l *season.Ledger) []string {
	var names []string
	for _, d := range slices.Backward(l.Drills) {
		if d.Ended == 0 {
			names = append(names, DrillName(d))
		}
	}
	return names
}

// DrillName is how an entry names a drill: DATE/PILOT/TARGET.
func DrillName(d *season.Drill) string {
	return d.Date.String() + "/" + d.Pilot.Handle + "/" + d.Target
}

// Groups are the catalogue's groups and families.
func Groups(*season.Ledger) []string { return season.Groups }

// Contests are the handles of a ledger's contests.
func Contests(l *season.Ledger) []string {
	return namesOf(l.Contests, func(c *season.Contest) string { return c.Handle })
}

// Flights are the names of a ledger's flights, latest first.
func Flights(l *season.Ledger) []string {
	flights := l.Select(season.Selection{})
	names := make([]string, 0, len(flights))
	for i := len(flights) - 1; i >= 0; i-- {
		names = append(names, flights[i].Name)
	}
	return names
}

// flightsToReview are the flights by name, those that wait for a review first. Of
// each the latest come first.
func flightsToReview(l *season.Ledger) []string {
	var waiting, others []string
	for _, f := range slices.Backward(l.Select(season.Selection{})) {
		if f.Counts() && f.WaitsForReview() {
			waiting = append(waiting, f.Name)
		} else {
			others = append(others, f.Name)
		}
	}
	return append(waiting, others...)
}

// Sequences are the handles of a ledger's sequences.
func Sequences(l *season.Ledger) []string {
	return namesOf(l.Sequences, func(s *season.Sequence) string { return s.Handle })
}

// Coaches are the handles of a ledger's coaches.
func Coaches(l *season.Ledger) []string {
	return namesOf(l.Coaches, func(c *season.Coach) string { return c.Handle })
}

// FaultKinds are the names of the kinds of fault.
func FaultKinds(l *season.Ledger) []string {
	return namesOf(l.FaultKinds, func(k *season.FaultKind) string { return k.Name })
}

// Ladders are the names of the category ladders.
func Ladders(l *season.Ledger) []string {
	return namesOf(l.Ladders, func(ladder *season.Ladder) string { return ladder.Name })
}

// Styles are the names of the rule styles.
func Styles(l *season.Ledger) []string {
	return namesOf(l.Styles, func(style *season.RuleStyle) string { return style.Name })
}

// Categories are the names of all ladders' categories.
func Categories(l *season.Ledger) []string { return l.CategoryNames() }

// Programmes are the words for what is flown, practice among them.
func Programmes(*season.Ledger) []string {
	return namesOf(season.Programmes, func(p season.Programme) string { return string(p) })
}

// Targets are what a drill can be set on: a fault kind or a group.
func Targets(l *season.Ledger) []string { return append(FaultKinds(l), season.Groups...) }
