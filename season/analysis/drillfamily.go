package analysis

import (
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// groupDrill judges a drill on a family group by the group's percent against
// the rest of the same flight, in contest flights with decided marks, beside all
// other groups. Only flights of one stratum are compared, as in a trend:
// sequences differ in how hard a family is on them. The samples are those of all
// of the pilot's flights.
func groupDrill(l *season.Ledger, d *season.Drill, samples []familySample) DrillAnswer {
	target := slices.Index(season.Groups, d.Target)
	w := windowsOf(l, d, samples[target].compared)
	a := DrillAnswer{Drill: d, Left: w.left, LeftShown: len(w.left), Full: w.full(), Later: DrillSide{Flights: len(w.later)}}
	a.countGroup(w, samples[target])
	var strata, contests []string
	rows := func(flights []*season.Flight) []stats.Levels {
		out := make([]stats.Levels, len(flights))
		for i, f := range flights {
			out[i] = levelsOf(f, samples)
			out[i].Stratum, out[i].Cluster = numberAmong(&strata, Stratum(f)), numberAmong(&contests, ContestKey(f))
		}
		return out
	}
	shift, err := stats.ShiftOfGroup(stats.Shifts{Target: target, Left: rows(w.left), Before: rows(w.before), After: rows(w.after)})
	if err != nil { // nothing can be compared
		shift.Least = 1
	}
	a.judgeGroup(shift)
	return a
}

// levelsOf are a flight's groups, each against the rest of it.
func levelsOf(f *season.Flight, samples []familySample) stats.Levels {
	o := stats.Levels{Values: make([]float64, len(samples)), Has: make([]bool, len(samples))}
	for g, s := range samples {
		if at := slices.Index(s.compared, f); at >= 0 {
			o.Values[g], o.Has[g] = s.rests[at], true
		}
	}
	return o
}

// countGroup counts the flights of the windows whose stratum was flown on both
// sides, and those that were flown on one side only; where nothing can be
// compared, nothing is apart.
func (a *DrillAnswer) countGroup(w drillWindows, s familySample) {
	has := func(flights []*season.Flight, f *season.Flight) bool {
		return slices.ContainsFunc(flights, func(o *season.Flight) bool { return Stratum(o) == Stratum(f) })
	}
	count := func(side *DrillSide, flights, across []*season.Flight) {
		for _, f := range flights {
			if len(across) > 0 && !has(across, f) {
				a.Apart++
				continue
			}
			side.Flights++
			side.Values = append(side.Values, s.rests[slices.Index(s.compared, f)])
		}
	}
	count(&a.Before, w.before, w.after)
	count(&a.After, w.after, w.before)
}

// judgeGroup finds the word.
func (a *DrillAnswer) judgeGroup(shift stats.GroupShift) {
	if a.tooFew(shift.Least) {
		return
	}
	a.P, a.Tests.T, a.Change = shift.P, shift.PRanked, shift.Change
	if bounds, err := shift.Interval(TrendConfidence); err == nil {
		a.HasChange, a.Confidence, a.Low, a.High = true, TrendConfidence, bounds.Low, bounds.High
	}
	switch {
	case a.P <= DrillFirm && a.Tests.T <= DrillFirm:
		a.Word = Worked
	case a.P <= DrillFirm:
		a.Word, a.Reason = DrillOpen, DrillPicked
	default:
		a.Word, a.Reason = DrillOpen, DrillByChance
	}
}
