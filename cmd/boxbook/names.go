package main

import "boxbook/season"

// namesOf lists what items are called, in their order.
func namesOf[T any](items []T, name func(T) string) []string {
	var names []string
	for _, item := range items {
		names = append(names, name(item))
	}
	return names
}

func pilotHandles(pilots []*season.Pilot) []string {
	return namesOf(pilots, func(p *season.Pilot) string { return p.Handle })
}

func contestHandles(l *season.Ledger) []string {
	return namesOf(l.Contests, func(c *season.Contest) string { return c.Handle })
}

// flightHandles lists the flights, latest first.
func flightHandles(l *season.Ledger) []string {
	flights := l.Select(season.Selection{})
	names := make([]string, 0, len(flights))
	for i := len(flights) - 1; i >= 0; i-- {
		names = append(names, flights[i].Name)
	}
	return names
}

// What the ledger has to propose, to a field, a shell and a message.
var (
	proposePilots    = func(l *season.Ledger) []string { return pilotHandles(l.Pilots) }
	proposeParties   = func(l *season.Ledger) []string { return append(pilotHandles(l.Pilots), "club") }
	proposeContests  = contestHandles
	proposeFlights   = flightHandles
	proposeSequences = func(l *season.Ledger) []string {
		return namesOf(l.Sequences, func(s *season.Sequence) string { return s.Handle })
	}
	proposeCoaches = func(l *season.Ledger) []string {
		return namesOf(l.Coaches, func(c *season.Coach) string { return c.Handle })
	}
	proposeKinds = func(l *season.Ledger) []string {
		return namesOf(l.FaultKinds, func(k *season.FaultKind) string { return k.Name })
	}
	proposeTargets = func(l *season.Ledger) []string { return append(proposeKinds(l), season.Groups...) }
	proposeLadders = func(l *season.Ledger) []string {
		return namesOf(l.Ladders, func(ladder *season.Ladder) string { return ladder.Name })
	}
	proposeStyles = func(l *season.Ledger) []string {
		return namesOf(l.Styles, func(style *season.RuleStyle) string { return style.Name })
	}
	proposePolicies = func(l *season.Ledger) []string {
		return namesOf(l.Policies, func(p *season.Policy) string { return p.Name })
	}
	proposeCategories = (*season.Ledger).CategoryNames
	proposeProgrammes = func(*season.Ledger) []string {
		return namesOf(season.Programmes, func(p season.Programme) string { return string(p) })
	}
	proposeToday = func(l *season.Ledger) []string { return []string{l.AsOf.String()} }
)
