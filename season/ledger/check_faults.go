package ledger

import "boxbook/season"

// placed is the first word of a line.
type placed struct {
	f   *file
	key token
}

// addFault gives a flight the fault that stands on a line.
func (r *reader) addFault(flight *season.Flight, fault season.Fault, at placed) {
	flight.Faults = append(flight.Faults, fault)
	r.faults[flight] = append(r.faults[flight], at)
}

// checkFaults warns of faults of figures that were not flown, and of those that were typed
// twice. Those of a plain flight come before those of its reviews, and are neither by
// themselves.
func (r *reader) checkFaults() {
	for _, flight := range r.out.Flights {
		if len(r.faults[flight]) == 0 {
			continue
		}
		r.dropNotFlown(flight)
		lines := r.faults[flight]
		plain, repeated := len(flight.Faults)-len(lines), flight.RepeatedFaults()
		for i, line := range lines {
			earlier, again := repeated[plain+i]
			switch {
			case !again:
			case earlier < plain:
				r.at(line.f, line.key, faultTwice, lineText(r.plainFaultPlace(flight, earlier), line.f))
			default:
				first := lines[earlier-plain]
				r.at(line.f, line.key, faultTwice, lineText(place(first.f, first.key.line), line.f))
			}
		}
	}
}

// dropNotFlown takes out of a practice flight the faults of figures that have no row of
// marks there, while others have one, and warns of them: they count nowhere. A matter of
// safety is none of a figure, and stays.
func (r *reader) dropNotFlown(flight *season.Flight) {
	if flight.Programme != season.Practice || flight.Sequence == nil || r.broken[flight] || r.broken[flight.Sequence] {
		return
	}
	lines := r.faults[flight]
	plain := len(flight.Faults) - len(lines)
	kept, at := flight.Faults[:plain:plain], []placed(nil)
	for i, fault := range flight.Faults[plain:] {
		if fault.Figure > 0 && !flight.Flew(fault.Figure) {
			d := r.at(lines[i].f, lines[i].key, faultNotFlown, fault.Figure, flight.Name)
			if !fault.Safety {
				continue
			}
			d.hinted("name the figure that it was on, or - for the whole flight")
		}
		kept, at = append(kept, fault), append(at, lines[i])
	}
	flight.Faults, r.faults[flight] = kept, at
}
