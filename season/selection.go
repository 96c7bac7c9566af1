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
	for _, f := range l.Flights {
		if l.wants(s, f) {
			chosen = append(chosen, f)
		}
	}
	return chosen
}

func (l *Ledger) wants(s Selection, f *Flight) bool {
	switch {
	case l.AsOf != 0 && f.Date > l.AsOf,
		s.Pilot != nil && f.Pilot != s.Pilot,
		s.Season != 0 && l.SeasonStart.Season(f.Date) != s.Season,
		s.Since != 0 && f.Date < s.Since,
		s.Until != 0 && f.Date > s.Until,
		s.Category != "" && f.Category != s.Category,
		s.Contest != nil && f.Contest != s.Contest:
		return false
	default:
		return true
	}
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

// PilotNamed finds a pilot by handle.
func (l *Ledger) PilotNamed(handle string) *Pilot {
	i := slices.IndexFunc(l.Pilots, func(p *Pilot) bool { return p.Handle == handle })
	if i < 0 {
		return nil
	}
	return l.Pilots[i]
}

// ContestNamed finds a contest by handle.
func (l *Ledger) ContestNamed(handle string) *Contest {
	i := slices.IndexFunc(l.Contests, func(c *Contest) bool { return c.Handle == handle })
	if i < 0 {
		return nil
	}
	return l.Contests[i]
}

// SequenceNamed finds a sequence by handle.
func (l *Ledger) SequenceNamed(handle string) *Sequence {
	i := slices.IndexFunc(l.Sequences, func(s *Sequence) bool { return s.Handle == handle })
	if i < 0 {
		return nil
	}
	return l.Sequences[i]
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
