package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"boxbook/season"
	"boxbook/season/ledger"
)

// mostNearFlights is how many flights are named where none has the name asked for.
const mostNearFlights = 5

// noSuchFlight says that no flight has a name, and which are near it.
func noSuchFlight(flights []*season.Flight, selector string) error {
	names := namesOf(flights, func(f *season.Flight) string { return f.Name })
	near := nearFlights(flights, selector)
	if len(near) == 0 || strings.Count(selector, "/") > 1 && ledger.Nearest(selector, names) != "" {
		return unknown("flight", selector, names)
	}
	e := &usageError{text: fmt.Sprintf("no flight is called %q", selector)}
	lines := make([]string, len(near))
	for i, f := range near {
		if lines[i] = f.Name; f.Contest != nil {
			lines[i] += ", " + cmp.Or(f.Contest.Name, f.Contest.Handle)
		}
	}
	e.hint = "near it:\n" + strings.Join(lines, "\n")
	return e
}

// nearFlights are those that may be meant, in the order of flights: whose name
// goes on where the selector ends, else those of a contest that it names, else
// those of its day, else the nearest to it, of the pilot that it names where there
// is one.
func nearFlights(flights []*season.Flight, selector string) []*season.Flight {
	keep := func(fits func(*season.Flight) bool) []*season.Flight {
		kept := slices.DeleteFunc(slices.Clone(flights), func(f *season.Flight) bool { return !fits(f) })
		return kept[max(0, len(kept)-mostNearFlights):]
	}
	if near := keep(func(f *season.Flight) bool { return strings.HasPrefix(f.Name, selector) }); len(near) > 0 {
		return near
	}
	if near := keep(func(f *season.Flight) bool { return f.Contest != nil && called(f.Contest, selector) }); len(near) > 0 {
		return near
	}
	first, rest, _ := strings.Cut(selector, "/")
	day, ok := season.ParseDate(first)
	if !ok {
		return nil
	}
	if near := keep(func(f *season.Flight) bool { return f.Date == day }); len(near) > 0 {
		return near
	}
	pilot, _, _ := strings.Cut(rest, "/")
	near := flights
	if slices.ContainsFunc(flights, func(f *season.Flight) bool { return f.Pilot.Handle == pilot }) {
		near = slices.DeleteFunc(slices.Clone(flights), func(f *season.Flight) bool { return f.Pilot.Handle != pilot })
	}
	return nearestTo(day, near)
}

// called reports whether a contest has a name or a handle, in capitals or not.
func called(c *season.Contest, name string) bool {
	return strings.EqualFold(c.Handle, name) || c.Name != "" && strings.EqualFold(c.Name, name)
}

// nearestTo are the flights nearest to a day, in their order.
func nearestTo(day season.Date, flights []*season.Flight) []*season.Flight {
	away := func(f *season.Flight) season.Date { return max(f.Date-day, day-f.Date) }
	nearest := slices.Clone(flights)
	slices.SortStableFunc(nearest, func(a, b *season.Flight) int { return cmp.Compare(away(a), away(b)) })
	nearest = nearest[:min(mostNearFlights, len(nearest))]
	slices.SortStableFunc(nearest, func(a, b *season.Flight) int { return cmp.Compare(a.Date, b.Date) })
	return nearest
}
