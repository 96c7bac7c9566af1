package commands

import (
	"slices"
	"strconv"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season"
)

// namesOf lists what items are called, in their order.
func namesOf[T, N any](items []T, name func(T) N) []N {
	var names []N
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

// proposeSeasons are the seasons with flights, the latest first.
func proposeSeasons(l *season.Ledger) []string {
	return years(namesOf(l.Flights, func(f *season.Flight) int { return l.SeasonStart.Season(f.Date) }))
}

// proposeYears are the club's years with money or flights, the latest first.
func proposeYears(l *season.Ledger) []string {
	all := namesOf(l.Flights, func(f *season.Flight) int { return l.YearOf(f.Date) })
	all = append(all, namesOf(l.Costs, func(c *season.Cost) int { return l.YearOf(c.Date) })...)
	return years(append(all, namesOf(l.Settlements, func(s *season.Settlement) int { return l.YearOf(s.Date) })...))
}

// years are each of some years once, the latest first.
func years(all []int) []string {
	slices.Sort(all)
	all = slices.Compact(all)
	slices.Reverse(all)
	return namesOf(all, strconv.Itoa)
}
