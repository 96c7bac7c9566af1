package analysis

import (
	"slices"

	"boxbook/season"
)

// AircraftMix is how flights that are compared with each other differ in their aircraft.
// Named counts those that they name. Changed says that one gave way to another for good:
// each was flown in one run of flights, of at least aircraftRun; flights that name none
// are a run too, and Unnamed counts them then, and only then: here and there a name
// that was not typed says nothing.
type AircraftMix struct {
	Named, Unnamed int
	Changed        bool
}

// aircraftRun is the least flights in a row that tell a change of aircraft from one that
// was borrowed.
const aircraftRun = 2

// Mixed reports whether it is worth a word.
func (m AircraftMix) Mixed() bool { return m.Named > 1 || m.Changed }

// aircraftMix looks at flights in the order flown.
func aircraftMix(flights []*season.Flight) AircraftMix {
	var runs, named []string
	var lengths []int
	unnamed := 0
	for _, f := range flights {
		if last := len(runs) - 1; last >= 0 && runs[last] == f.Aircraft {
			lengths[last]++
		} else {
			runs, lengths = append(runs, f.Aircraft), append(lengths, 1)
		}
		switch {
		case f.Aircraft == "":
			unnamed++
		case !slices.Contains(named, f.Aircraft):
			named = append(named, f.Aircraft)
		}
	}
	kinds := len(named)
	if unnamed > 0 {
		kinds++
	}
	m := AircraftMix{Named: len(named)}
	m.Changed = kinds > 1 && len(runs) == kinds && slices.Min(lengths) >= aircraftRun
	if m.Changed {
		m.Unnamed = unnamed
	}
	return m
}

// Aircraft is how the flights of the series differ in theirs, where one gave way to
// another; else nothing: one that was borrowed is of no weight among the others.
func (o Present) Aircraft() AircraftMix {
	if m := aircraftMix(o.Flights); m.Changed {
		return m
	}
	return AircraftMix{}
}

// otherAircraft reports whether two lists of flights have no aircraft in common, and
// whether one of them names none at all.
func otherAircraft(before, after []*season.Flight) (other, unnamed bool) {
	names := func(flights []*season.Flight) map[string]bool {
		found := map[string]bool{}
		for _, f := range flights {
			found[f.Aircraft] = true
		}
		return found
	}
	a, b := names(before), names(after)
	for name := range a {
		if b[name] {
			return false, false
		}
	}
	return len(a) > 0 && len(b) > 0, len(a) == 1 && a[""] || len(b) == 1 && b[""]
}
