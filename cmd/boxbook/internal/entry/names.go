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

// Parties are those who pay and are paid: the pilots and the club.
func Parties(l *season.Ledger) []string { return append(Pilots(l), "club") }

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
