package commands

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

// noSuchFlight says that no flight of those asked about has a name, and which may be
// meant: those that the same words stand for, else those near it.
func noSuchFlight(l *season.Ledger, s season.Selection, selector string) error {
	e := &usageError{text: fmt.Sprintf("no flight is called %q", selector)}
	if meant := flightsMeant(l, s, selector); len(meant) > 0 {
		e.hint = "did you mean " + orList(meant) + "?"
		return e
	}
	if date := redated(selector); date != "" {
		selector = date
	} else if near := ledger.Near(selector, pilotHandles(l.Pilots)); len(near) == 1 {
		e.hint = "did you mean " + orList(flightsMeant(l, s, near[0])) + "?"
		return e
	}
	flights := l.Select(s)
	names := namesOf(flights, func(f *season.Flight) string { return f.Name })
	near := nearFlights(flights, selector)
	if len(near) == 0 || strings.Count(selector, "/") > 1 && ledger.Nearest(selector, names) != "" {
		return unknown("flight", selector, names)
	}
	lines := make([]string, len(near))
	for i, f := range near {
		if lines[i] = f.Name; f.Contest != nil {
			lines[i] += ", " + cmp.Or(f.Contest.Name, f.Contest.Handle)
		}
	}
	e.hint = "near it:\n" + strings.Join(lines, "\n")
	return e
}

// flightsMeant are the flights, three at the most, latest first, that a date written
// otherwise, a programme or another piece of a name stands for.
func flightsMeant(l *season.Ledger, s season.Selection, word string) []string {
	const most = 3
	var names []string
	if date := redated(word); date != "" {
		names = namesOf(l.Matching(date, s), func(f *season.Flight) string { return f.Name })
	} else {
		for _, f := range slices.Backward(l.Select(s)) {
			if slices.Contains(strings.Split(f.Name, "/"), word) {
				names = append(names, f.Name)
			}
		}
	}
	return names[:min(len(names), most)]
}

// redated is a selector with its date as it is written, "" where it begins with none
// that is written otherwise.
func redated(selector string) string {
	for end := len(selector); end > 0; end = strings.LastIndex(selector[:end], "/") {
		if date := ledger.DateHinted(selector[:end]); date != "" {
			return date + selector[end:]
		}
	}
	return ""
}

// pilotMeant says of a word alone that is neither a pilot nor a flight who may be
// meant; nil where it may be a flight.
func pilotMeant(l *season.Ledger, s season.Selection, word string) error {
	if word == season.LastSelector || !season.IsHandle(word) || len(l.Select(s)) == 0 || len(l.Matching(word, s)) > 0 || len(flightsMeant(l, s, word)) > 0 || len(nearFlights(l.Select(s), word)) > 0 {
		return nil
	}
	const kind = "pilot or flight"
	handles := pilotHandles(l.Pilots)
	if len(ledger.Near(word, handles)) > 0 {
		return unknown(kind, word, handles)
	}
	return &usageError{fmt.Sprintf("no %s is called %q", kind, word), "pilots: " + strings.Join(handles[:min(len(handles), mostParties)], ", ")}
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
