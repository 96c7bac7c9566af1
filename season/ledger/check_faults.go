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

// checkFaults warns of faults that were typed twice, or may have been. Those of a plain flight come
// before those of its reviews, and are not twice among themselves.
func (r *reader) checkFaults() {
	for _, flight := range r.out.Flights {
		lines := r.faults[flight]
		if len(lines) == 0 {
			continue
		}
		plain, repeated, doubled := len(flight.Faults)-len(lines), flight.RepeatedFaults(), flight.DoubledFaults()
		for i, line := range lines {
			code := faultTwice
			earlier, again := repeated[plain+i]
			if !again {
				code = faultDoubled
				earlier, again = doubled[plain+i]
			}
			switch {
			case !again:
			case earlier < plain:
				r.at(line.f, line.key, code, lineText(r.plainFaultPlace(flight, earlier), line.f))
			default:
				first := lines[earlier-plain]
				r.at(line.f, line.key, code, lineText(place(first.f, first.key.line), line.f))
			}
		}
	}
}
