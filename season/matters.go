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
	By     *Coach  // nil where not said
	Flight *Flight // the one in which the line stands, nil where it stands by itself
	Remark string
	At     Place
}

// Matter is a safety matter that a flight brought to light.
type Matter struct {
	Flight  *Flight
	Fault   Fault
	Closing *Closing // what closed it, nil while it stands open
}

// Matters are the safety matters that stand open up to a day (0: whenever),
// oldest first, of all pilots where none is given: a matter stays open until a
// later flight of its pilot, or a closing dated on its day or later, closes its
// kind. Nothing else closes it. The same matter of one flight noted by two is
// one matter. Those of practice and of void flights stand among them. Idle are
// the places of the lines that closed nothing.
func Matters(l *Ledger, p *Pilot, upTo Date) (open []Matter, idle []Place) {
	all, idle := AllMatters(l, p, upTo)
	return slices.DeleteFunc(all, func(m Matter) bool { return m.Closing != nil }), idle
}

// AllMatters are the same with those that were closed, each with its closing; idle
// is that of [Matters].
func AllMatters(l *Ledger, p *Pilot, upTo Date) (all []Matter, idle []Place) {
	var open []int // places in all
	for _, e := range l.matterEvents(p, upTo) {
		for _, c := range e.closed {
			left := open[:0]
			before := len(open)
			for _, i := range open {
				if m := &all[i]; m.Flight.Pilot == e.pilot && m.Fault.Kind == c.Kind {
					m.Closing = c
				} else {
					left = append(left, i)
				}
			}
			if open = left; len(open) == before {
				idle = append(idle, c.At)
			}
		}
		if e.flight != nil {
			for _, m := range e.flight.matters() {
				open, all = append(open, len(all)), append(all, m)
			}
		}
	}
	return all, idle
}

// matterEvent is a flight with what it closes, or a closing.
type matterEvent struct {
	date   Date
	pilot  *Pilot
	flight *Flight // nil for a closing
	closed []*Closing
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
			add(matterEvent{f.Date, f.Pilot, f, f.closings()})
		}
	}
	for _, c := range l.Closings {
		add(matterEvent{c.Date, c.Pilot, nil, []*Closing{c}})
	}
	slices.SortStableFunc(events, func(a, b matterEvent) int { return cmp.Compare(a.date, b.date) })
	return events
}

// closings are the flight's lines that close something; they name nobody.
func (f *Flight) closings() []*Closing {
	var all []*Closing
	for _, c := range f.Closed {
		all = append(all, &Closing{Date: f.Date, Pilot: f.Pilot, Kind: c.Kind, Flight: f, Remark: c.Remark, At: c.At})
	}
	return all
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
			found = append(found, Matter{Flight: f, Fault: fault})
		}
	}
	return found
}
