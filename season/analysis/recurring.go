package analysis

import (
	"cmp"
	"math/big"
	"slices"

	"boxbook/season"
)

// The rule of what comes back: how many days it looks back, and in how many
// flights a fault must have been noted to have come back at all.
const (
	RecurringDays  = 730
	RecurringTwice = 2
)

// ComesBack is the one rule of what comes back most, whoever asks: the kinds of
// fault of flying by the share of flights in which each was noted, since the
// latest drill on it, of the reviewed flights that could show it over the last
// RecurringDays, the largest share first; equal shares by flights, then by
// points at stake. A kind was noted in at least RecurringTwice of at least
// RecurringFlights flights. Of each row Flights, Exposed, Count, Seen, Felt,
// Points and Unknown are of these flights; its Group is the one that all of it
// was in, Since the first flight of any season with it. The ledger's AsOf stands for today.
func ComesBack(l *season.Ledger, p *season.Pilot) []RecurringKind {
	flights := reviewedFlights(l, p)
	if len(flights) == 0 {
		return nil
	}
	today := cmp.Or(l.AsOf, flights[len(flights)-1].Date)
	flights = slices.DeleteFunc(flights, func(f *season.Flight) bool { return f.Date <= today-RecurringDays })
	met := Recurring{Pilot: p}
	for _, f := range flights {
		met.addFlight(f)
	}
	met.nameGroups()
	met.setDrills(l, p)
	met.firstMet(l)
	var back []RecurringKind
	for _, row := range met.Kinds {
		row = row.sinceDrill(flights)
		if !row.Kind.Safety && row.Flights >= RecurringTwice && row.Exposed >= RecurringFlights {
			back = append(back, row)
		}
	}
	slices.SortStableFunc(back, compareRates)
	return back
}

// reviewedFlights are the pilot's flights that were gone through for faults and
// count, practice too.
func reviewedFlights(l *season.Ledger, p *season.Pilot) []*season.Flight {
	var kept []*season.Flight
	for _, f := range l.Select(season.Selection{Pilot: p}) {
		if f.Counts() && f.Watched() {
			kept = append(kept, f)
		}
	}
	return kept
}

// sinceDrill counts the kind again, in the flights after its latest drill.
func (t RecurringKind) sinceDrill(flights []*season.Flight) RecurringKind {
	out := RecurringKind{Kind: t.Kind, Group: t.Group, Drill: t.Drill, Ended: t.Ended, Points: new(big.Rat)}
	for _, f := range flights {
		if t.Drill != nil && f.Date <= t.Drill.Date || !f.CouldShow(t.Kind) {
			continue
		}
		out.Exposed++
		first := true
		points := pointsAtStake(f)
		for i, n := range f.Noted() {
			if n.Kind == t.Kind {
				out.add(f, n, points[i], first)
				first = false
			}
		}
	}
	out.Since = t.Since
	return out
}

// Undrilled reports whether no drill is open on the kind.
func (t RecurringKind) Undrilled() bool { return t.Drill == nil || t.Ended != 0 }

// compareRates puts the kind first that was noted in the larger share of the
// flights that could show it.
func compareRates(a, b RecurringKind) int {
	return cmp.Or(cmp.Compare(b.Flights*a.Exposed, a.Flights*b.Exposed), cmp.Compare(b.Flights, a.Flights), b.Points.Cmp(a.Points), cmp.Compare(a.Kind.Name, b.Kind.Name))
}
