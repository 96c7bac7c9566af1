package season

import (
	"cmp"
	"slices"
	"strings"
)

// Selection says which flights a question is about. Zero fields do not
// restrict. Flights later than the ledger's AsOf are never selected.
type Selection struct {
	Pilot        *Pilot
	Season       int // 0: any
	Since, Until Date
	Category     string
	Contest      *Contest
}

// Select lists the flights in order of date, void ones and practice included.
func (l *Ledger) Select(s Selection) []*Flight {
	var chosen []*Flight
	for _, f := range l.between(s) {
		if s.wants(f) {
			chosen = append(chosen, f)
		}
	}
	return chosen
}

// between are the flights of the days that the selection is about.
func (l *Ledger) between(s Selection) []*Flight {
	flights := l.Flights
	for _, last := range []Date{s.Until, l.AsOf} {
		if last != 0 {
			flights = flights[:Before(flights, last+1)]
		}
	}
	if s.Since != 0 {
		flights = flights[Before(flights, s.Since):]
	}
	if s.Season != 0 {
		flights = flights[:Before(flights, l.SeasonStart.Begin(s.Season+1))]
		flights = flights[Before(flights, l.SeasonStart.Begin(s.Season)):]
	}
	return flights
}

// Before counts those of flights in order of date that were flown before a day.
func Before(flights []*Flight, day Date) int {
	n, _ := slices.BinarySearchFunc(flights, day, func(f *Flight, day Date) int { return cmp.Compare(f.Date, day) })
	return n
}

// wants reports whether a flight is one of those asked about, whenever it was flown.
func (s Selection) wants(f *Flight) bool {
	return (s.Pilot == nil || f.Pilot == s.Pilot) && (s.Category == "" || f.Category == s.Category) && (s.Contest == nil || f.Contest == s.Contest)
}

// LatestSeason names the latest season in which the selection has flights; 0
// where it has none.
func (l *Ledger) LatestSeason(s Selection) int {
	flights := l.Select(s)
	if len(flights) == 0 {
		return 0
	}
	return l.SeasonStart.Season(flights[len(flights)-1].Date)
}

// ShowsResults reports whether a selection may show the printed results of a contest
// without any flight of it. They are known from the contest's last day on, and of no
// category.
func (l *Ledger) ShowsResults(s Selection, c *Contest) bool {
	return l.Past(c.Last) && (s.Until == 0 || c.Last <= s.Until) &&
		(s.Season == 0 || l.SeasonStart.Season(c.First) == s.Season) && (s.Since == 0 || c.Last >= s.Since) &&
		s.Category == "" && (s.Contest == nil || s.Contest == c)
}

// Placed lists the pilots with a printed result that the selection may show, in the
// order of definition: what a season before the first flight of a ledger has.
func (l *Ledger) Placed(s Selection) []*Pilot {
	has := func(p *Pilot) bool {
		return slices.ContainsFunc(l.Contests, func(c *Contest) bool {
			return l.ShowsResults(s, c) && slices.ContainsFunc(c.Results, func(r Result) bool { return r.Pilot == p })
		})
	}
	var placed []*Pilot
	for _, p := range l.Pilots {
		if has(p) {
			placed = append(placed, p)
		}
	}
	return placed
}

// Flyers lists the pilots who have flights in the selection, in the order of
// their definition.
func (l *Ledger) Flyers(s Selection) []*Pilot {
	var flyers []*Pilot
	flights := l.Select(s)
	for _, p := range l.Pilots {
		if slices.ContainsFunc(flights, func(f *Flight) bool { return f.Pilot == p }) {
			flyers = append(flyers, p)
		}
	}
	return flyers
}

// OnlyFlyer is the only pilot with flights, else the only pilot there is; nil where
// there are several, or none.
func (l *Ledger) OnlyFlyer() *Pilot {
	pilots := l.Flyers(Selection{})
	if len(pilots) == 0 {
		pilots = l.Pilots
	}
	if len(pilots) != 1 {
		return nil
	}
	return pilots[0]
}

// LastSelector names the latest flight.
const LastSelector = "last"

// Matching finds the flights that a selector names among the selected ones: an
// exact name wins, else a leading part in whole pieces; `last` is the latest.
func (l *Ledger) Matching(selector string, s Selection) []*Flight {
	flights := l.Select(s)
	if selector == LastSelector {
		return flights[max(0, len(flights)-1):]
	}
	name := selector
	if strings.Count(name, "/") == 3 {
		name = strings.TrimSuffix(name, "/1")
	}
	for _, f := range flights {
		if f.Name == name {
			return []*Flight{f}
		}
	}
	var found []*Flight
	for _, f := range flights {
		if strings.HasPrefix(f.Name, strings.TrimSuffix(selector, "/")+"/") {
			found = append(found, f)
		}
	}
	return found
}

// PilotNamed finds a pilot by handle, nil where there is none; so do the others.
func (l *Ledger) PilotNamed(handle string) *Pilot {
	return find(l.Pilots, func(p *Pilot) bool { return p.Handle == handle })
}

// PilotCalled finds a pilot by handle or by the full name, as it is written but for
// the case of letters; nil where there is none, or several have the name.
func (l *Ledger) PilotCalled(word string) *Pilot {
	if p := l.PilotNamed(word); p != nil {
		return p
	}
	return onlyNamed(l.Pilots, word, func(p *Pilot) string { return p.Name })
}

// CoachCalled finds a coach the same way.
func (l *Ledger) CoachCalled(word string) *Coach {
	if c := find(l.Coaches, func(c *Coach) bool { return c.Handle == word }); c != nil {
		return c
	}
	return onlyNamed(l.Coaches, word, func(c *Coach) string { return c.Name })
}

// onlyNamed is the only one of the full name, nil where none or several have it.
func onlyNamed[T any](all []*T, word string, name func(*T) string) *T {
	var found *T
	for _, one := range all {
		switch {
		case !strings.EqualFold(name(one), strings.Join(strings.Fields(word), " ")):
		case found != nil:
			return nil
		default:
			found = one
		}
	}
	return found
}

// On reports whether a day is one of the contest's.
func (c *Contest) On(day Date) bool { return c.First <= day && day <= c.Last }

// ContestNamed finds a contest by handle.
func (l *Ledger) ContestNamed(handle string) *Contest {
	return find(l.Contests, func(c *Contest) bool { return c.Handle == handle })
}

// SequenceNamed finds a sequence by handle.
func (l *Ledger) SequenceNamed(handle string) *Sequence {
	return find(l.Sequences, func(s *Sequence) bool { return s.Handle == handle })
}

// PolicyNamed finds a policy by name.
func (l *Ledger) PolicyNamed(name string) *Policy {
	return find(l.Policies, func(p *Policy) bool { return p.Name == name })
}

// LadderNamed finds a ladder by name.
func (l *Ledger) LadderNamed(name string) *Ladder {
	return find(l.Ladders, func(ladder *Ladder) bool { return ladder.Name == name })
}

// find is the first item that fits, nil where none does.
func find[T any](items []*T, fits func(*T) bool) *T {
	if i := slices.IndexFunc(items, fits); i >= 0 {
		return items[i]
	}
	return nil
}

// CategoryNames lists every category that a ladder or a flight has, ladders'
// first, in order.
func (l *Ledger) CategoryNames() []string {
	var names []string
	add := func(name string) {
		if name != "" && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	for _, ladder := range l.Ladders {
		for _, c := range ladder.Categories {
			add(c.Name)
		}
	}
	flown := slices.Clone(l.Flights)
	slices.SortStableFunc(flown, func(a, b *Flight) int { return cmp.Compare(a.Category, b.Category) })
	for _, f := range flown {
		add(f.Category)
	}
	return names
}
