package commands

import (
	"boxbook/cmd/boxbook/internal/entry"
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

func pilotHandles(pilots []*season.Pilot) []string {
	return namesOf(pilots, func(p *season.Pilot) string { return p.Handle })
}

func contestHandles(l *season.Ledger) []string { return entry.Contests(l) }

// flightHandles lists the flights, latest first.
func flightHandles(l *season.Ledger) []string { return entry.Flights(l) }

// What the ledger has to propose, to a shell and a message.
var (
	proposePilots    = entry.Pilots
	proposeContests  = entry.Contests
	proposeFlights   = entry.Flights
	proposeLadders   = entry.Ladders
	proposeSequences = entry.Sequences
	proposePolicies  = func(l *season.Ledger) []string {
		return namesOf(l.Policies, func(p *season.Policy) string { return p.Name })
	}
	proposeCategories = entry.Categories
	proposeProgrammes = entry.Programmes
)
