package analysis

import (
	"cmp"
	"math/big"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
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
// points at stake. Until RecurringFlights since that drill could show it, the
// share from before it stands: one clean flight ends no fault. A kind was noted
// in at least RecurringTwice of at least RecurringFlights flights. Of each row
// Flights, Exposed, Count, Seen, Felt, Points and Unknown are of these flights;
// its Group is the one that all of it was in, Since the first flight of any season with it. The ledger's AsOf stands for today.
func ComesBack(l *season.Ledger, p *season.Pilot) []RecurringKind {
	return ComesBackOrUntold(l, p).Back
}

// Returning is what comes back by [ComesBack], the largest share first. Untold are the
// kinds that would, were it not for a drill since which fewer than RecurringFlights could
// show them, and that had not come back before it: of each Flights and Exposed are as if
// it had no drill, SinceFlights and SinceExposed those since.
type Returning struct {
	Back, Untold []RecurringKind
}

// ComesBackOrUntold is what comes back, and what cannot be told yet.
func ComesBackOrUntold(l *season.Ledger, p *season.Pilot) Returning {
	met, flights := recently(l, p)
	return comingBack(l, p, met.Kinds, flights)
}

// comesBackIn is that rule, and beside it the rule in each group: its faults alone, of
// the flights that flew the group.
func comesBackIn(l *season.Ledger, p *season.Pilot) (anywhere, inGroups Returning) {
	met, flights := recently(l, p)
	return comingBack(l, p, met.Kinds, flights), comingBack(l, p, met.Rows, flights)
}

// recently gives what was noted in the reviewed flights of the last
// RecurringDays, and these.
func recently(l *season.Ledger, p *season.Pilot) (met Recurring, noted []notedFlight) {
	met = Recurring{Pilot: p}
	flights := reviewedFlights(l, p)
	if len(flights) == 0 {
		return met, nil
	}
	today := cmp.Or(l.AsOf, flights[len(flights)-1].Date)
	flights = slices.DeleteFunc(flights, func(f *season.Flight) bool { return f.Date <= today-RecurringDays })
	for _, f := range flights {
		noted = append(noted, notedIn(f))
		met.addFlight(noted[len(noted)-1])
	}
	met.nameGroups()
	met.setDrills(l, p)
	met.firstMet(l)
	return met, noted
}

// comingBack keeps the rows that come back, and those that cannot be told yet.
func comingBack(l *season.Ledger, p *season.Pilot, rows []RecurringKind, flights []notedFlight) Returning {
	var out Returning
	for _, row := range rows {
		if row.Kind.Safety {
			continue
		}
		row = row.sinceDrill(l, p, row.Drill, flights)
		if row.comesBack() {
			out.Back = append(out.Back, row)
			continue
		}
		if all := row.after(nil, flights); row.BeforeDrill && all.comesBack() {
			all.SinceFlights, all.SinceExposed = row.SinceFlights, row.SinceExposed
			out.Untold = append(out.Untold, all)
		}
	}
	slices.SortStableFunc(out.Back, compareRates)
	slices.SortStableFunc(out.Untold, compareRates)
	return out
}

// reviewedFlights are the pilot's flights that were gone through for faults and
// count, practice too.
func reviewedFlights(l *season.Ledger, p *season.Pilot) []*season.Flight {
	var kept []*season.Flight
	for _, f := range l.Select(season.Selection{Pilot: p}) {
		if f.Counts() && f.FiguresWatched() {
			kept = append(kept, f)
		}
	}
	return kept
}

// sinceDrill counts the kind again, in the flights after one of its drills, nil for all;
// where too few of these could show it, as it stood on the day of its latest drill, since
// the drill before by the same rule.
func (t RecurringKind) sinceDrill(l *season.Ledger, p *season.Pilot, drill *season.Drill, flights []notedFlight) RecurringKind {
	since := t.after(drill, flights)
	if drill == nil || since.enoughOfBoth() {
		return since
	}
	before := slices.DeleteFunc(slices.Clone(flights), func(f notedFlight) bool { return f.Date > drill.Date })
	out := t.sinceDrill(l, p, drillBefore(l, p, drill.Date, t.Kind.Name, t.Group), before)
	if out.replacedBy(since) {
		return since
	}
	out.BeforeDrill, out.SinceFlights, out.SinceExposed = true, since.Flights, since.Exposed
	return out
}

// replacedBy reports whether flights enough since a drill could show a kind for its count
// before it to stand no longer; of one that came back, of the sort in which it was noted.
func (t RecurringKind) replacedBy(since RecurringKind) bool {
	return since.Exposed >= RecurringFlights && (!t.comesBack() || t.alikeIn(since) >= RecurringFlights)
}

// comesBack reports whether a kind was noted often enough, in flights enough.
func (t RecurringKind) comesBack() bool {
	return t.Flights >= RecurringTwice && t.Exposed >= RecurringFlights
}

// enoughOfBoth reports whether there are flights enough of contests and of practice.
func (t RecurringKind) enoughOfBoth() bool {
	return min(t.Contests.Exposed, t.Exposed-t.Contests.Exposed) >= RecurringFlights
}

// Alone says that a kind was noted in contest flights alone, or in practice alone, though
// enough of the others could have shown it.
type Alone string

// Where a kind was noted; the spellings are a contract.
const (
	Anywhere      Alone = ""
	ContestsAlone Alone = "contests"
	PracticeAlone Alone = "practice"
)

// Alone says in which flights alone the kind was noted.
func (t RecurringKind) Alone() Alone {
	switch practice := t.Exposed - t.Contests.Exposed; {
	case t.Flights == 0:
		return Anywhere
	case t.Contests.Seen == t.Flights && practice >= RecurringFlights:
		return ContestsAlone
	case t.Contests.Seen == 0 && t.Contests.Exposed >= RecurringFlights:
		return PracticeAlone
	}
	return Anywhere
}

// alikeIn counts the flights of another count that are of a sort in which this one's
// were noted: a winter of practice says nothing of a fault of contests.
func (t RecurringKind) alikeIn(other RecurringKind) int {
	return alikeFlights(t.tally(), t.Contests, other.tally(), other.Contests)
}

func (t RecurringKind) tally() stats.Tally { return stats.Tally{Seen: t.Flights, Exposed: t.Exposed} }

// alikeFlights counts the flights since that could show a fault and are of a sort,
// contests or practice, in which it was noted before; all and contests of each.
func alikeFlights(before, contestsBefore, since, contestsSince stats.Tally) int {
	n := 0
	if contestsBefore.Seen > 0 {
		n += contestsSince.Exposed
	}
	if before.Seen > contestsBefore.Seen {
		n += since.Exposed - contestsSince.Exposed
	}
	return n
}

// after counts the kind in the flights after a drill, in all where there is none.
func (t RecurringKind) after(drill *season.Drill, flights []notedFlight) RecurringKind {
	out := RecurringKind{Kind: t.Kind, Group: t.Group, Drill: t.Drill, Ended: t.Ended, Beside: t.Beside, Points: new(big.Rat), within: t.within}
	for _, f := range flights {
		if drill != nil && f.Date <= drill.Date || !f.shows(&t) {
			continue
		}
		out.Exposed++
		contested := f.Contested()
		if contested {
			out.Contests.Exposed++
		}
		first := true
		for i, n := range f.noted {
			if n.Kind == t.Kind && (!t.within || f.groups[i] == t.Group) {
				out.add(f.Date, n, f.points[i], first)
				first = false
			}
		}
		if contested && !first {
			out.Contests.Seen++
		}
	}
	out.Since = t.Since
	return out
}

// Without keeps the kinds on which no drill is open.
func Without(back []RecurringKind) []RecurringKind {
	var kept []RecurringKind
	for _, row := range back {
		if row.Drill == nil || row.Ended != 0 {
			kept = append(kept, row)
		}
	}
	return kept
}

// Despite is what comes back most of the kinds with an open drill, and what became of that
// drill: what comes back most of all, else the first that was noted since its drill, and
// whose drill is not told to have helped or helped for a while; nil where there is none.
func Despite(l *season.Ledger, back []RecurringKind) (*RecurringKind, DrillAnswer) {
	for i, row := range back {
		if row.Drill == nil || row.Ended != 0 || i > 0 && row.BeforeDrill {
			continue
		}
		drill := drillsSet(l, []*season.Drill{row.Drill}, false)[0]
		if i == 0 || !drill.Word.Told() || drill.Again > 0 {
			return &back[i], drill
		}
	}
	return nil, DrillAnswer{}
}

// compareRates puts the kind first that was noted in the larger share of the
// flights that could show it.
func compareRates(a, b RecurringKind) int {
	return cmp.Or(cmp.Compare(b.Flights*a.Exposed, a.Flights*b.Exposed), cmp.Compare(b.Flights, a.Flights), b.Points.Cmp(a.Points), cmp.Compare(a.Kind.Name, b.Kind.Name))
}
