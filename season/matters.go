package season

import (
	"cmp"
	"slices"
)

// Closing is a safety matter put right on a day, typed apart from any flight. It
// closes what is dated on or before that day and stands open.
type Closing struct {
	Date   Date
	Pilot  *Pilot
	Kind   *FaultKind
	By     *Coach // nil where not said
	Remark string
	At     Place
}

// Matter is a safety matter that a flight brought to light.
type Matter struct {
	Flight *Flight
	Fault  Fault
}

// Matters are the safety matters that stand open up to a day (0: whenever),
// oldest first, of all pilots where none is given: a matter stays open until a
// later flight of its pilot, or a closing dated on its day or later, closes its
// kind. Nothing else closes it. The same matter of one flight noted by two is
// one matter. Those of practice and of void flights stand among them. Idle are
// the places of the lines that closed nothing.
func Matters(l *Ledger, p *Pilot, upTo Date) (open []Matter, idle []Place) {
	for _, e := range l.matterEvents(p, upTo) {
		for _, c := range e.closed {
			left := slices.DeleteFunc(slices.Clone(open), func(m Matter) bool { return m.Flight.Pilot == e.pilot && m.Fault.Kind == c.Kind })
			if len(left) == len(open) {
				idle = append(idle, c.At)
			}
			open = left
		}
		if e.flight != nil {
			open = append(open, e.flight.matters()...)
		}
	}
	return open, idle
}

// matterEvent is a flight with what it closes, or a closing.
type matterEvent struct {
	date   Date
	pilot  *Pilot
	flight *Flight // nil for a closing
	closed []Closed
}

// matterEvents are the flights and closings by date; on one day the closings
// come last.
func (l *Ledger) matterEvents(p *Pilot, upTo Date) []matterEvent {
	var events []matterEvent
	add := func(e matterEvent) {
		if (p == nil || e.pilot == p) && (upTo == 0 || e.date <= upTo) {
			events = append(events, e)
		}
	}
	for _, f := range l.Flights {
		if len(f.Faults)+len(f.Closed) > 0 {
			add(matterEvent{f.Date, f.Pilot, f, f.Closed})
		}
	}
	for _, c := range l.Closings {
		add(matterEvent{c.Date, c.Pilot, nil, []Closed{{Kind: c.Kind, Remark: c.Remark, At: c.At}}})
	}
	slices.SortStableFunc(events, func(a, b matterEvent) int { return cmp.Compare(a.date, b.date) })
	return events
}

// matters are the flight's own, in the order of their lines: of each kind,
// figure and element those of the observer who noted most.
func (f *Flight) matters() []Matter {
	type place struct {
		key faultKey
		by  *Coach
	}
	if !slices.ContainsFunc(f.Faults, func(fault Fault) bool { return fault.Safety }) {
		return nil
	}
	count, most := map[place]int{}, map[faultKey]place{}
	repeated := f.RepeatedFaults()
	for i, fault := range f.Faults {
		if _, again := repeated[i]; again || !fault.Safety {
			continue
		}
		at := place{faultKey{fault.Kind, fault.Figure, fault.On}, fault.By}
		count[at]++
		if first, there := most[at.key]; !there || count[at] > count[first] {
			most[at.key] = at
		}
	}
	var found []Matter
	for i, fault := range f.Faults {
		key := faultKey{fault.Kind, fault.Figure, fault.On}
		if _, again := repeated[i]; !again && fault.Safety && most[key].by == fault.By {
			found = append(found, Matter{f, fault})
		}
	}
	return found
}
