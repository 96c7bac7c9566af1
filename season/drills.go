package season

import (
	"slices"

	"boxbook/season/stats"
)

// DrillWord is the verdict on a drill.
type DrillWord string

// The verdicts on a drill.
const (
	Worked        DrillWord = "worked"
	MayHaveWorked DrillWord = "may have worked"
	DrillTooFew   DrillWord = "too few to tell"
	DrillOpen     DrillWord = "cannot tell"
)

// The window rule and the thresholds of a drill's verdict.
const (
	DrillSideFlights = 3 // flights looked at on each side, at the least
	promptDefault    = 4 // flights left out before a drill that names none
	drillFirm        = 0.05
	DrillChance      = 0.10 // beyond it a drill that did nothing gives as much easily
)

// DrillAnswer is what became of one drill. The flights that prompted it are in
// neither window: a drill is set on what just went badly, and the next flights
// look better for nothing.
type DrillAnswer struct {
	Drill         *Drill
	Prompted      []*Flight // left out of the window before
	Before, After DrillSide
	// P is one-sided: the chance of so large a fall (for a group: a rise)
	// without any change; 1 where nothing can be tested. Least is the smallest
	// that these numbers of flights could give.
	P, Least float64
	// Rate is the ratio of faults per figure flown, after to before; HasRate
	// says that it can be told. For a fault kind only.
	Rate    stats.RateRatio
	HasRate bool
	// Change is after less before, in percent points against the rest of the
	// flight, with its interval; for a family group only.
	Change, Low, High, Confidence float64
	HasChange                     bool
	Word                          DrillWord
}

// DrillSide is one window of a drill. Seen counts the flights in which the
// fault was noted, of the Flights looked at; Faults the faults on Figures
// flown, of the flights whose figures are known; Others the mean number of other, undrilled faults per flight. For a
// family group Values are the flights' percents against the rest.
type DrillSide struct {
	Seen, Flights int
	Faults        int
	Figures       int
	Others        float64
	Values        []float64
}

// DrillsOf answers for the drills of the selection's pilot, or of everybody,
// in the order in which they were set.
func (l *Ledger) DrillsOf(s Selection) []DrillAnswer {
	var out []DrillAnswer
	for _, d := range l.Drills {
		if l.setWithin(s, d) {
			out = append(out, l.drillAnswer(d))
		}
	}
	slices.SortStableFunc(out, func(a, b DrillAnswer) int { return int(a.Drill.Date) - int(b.Drill.Date) })
	return out
}

// setWithin reports whether a drill was set within the selection: of its pilot,
// and in its season or span of days.
func (l *Ledger) setWithin(s Selection, d *Drill) bool {
	return (s.Pilot == nil || d.Pilot == s.Pilot) && l.past(d.Date) &&
		(s.Season == 0 || l.SeasonStart.Season(d.Date) == s.Season) &&
		(s.Since == 0 || d.Date >= s.Since) && (s.Until == 0 || d.Date <= s.Until)
}

func (l *Ledger) drillAnswer(d *Drill) DrillAnswer {
	if IsGroup(d.Target) {
		return l.groupDrill(d)
	}
	return l.faultDrill(d)
}

// windows splits the flights that can speak of a drill: before it, since the
// one before on the same target, without those that prompted it; and after it,
// from the next day to the next drill on the same target.
func (l *Ledger) windows(d *Drill, flights []*Flight) (before, after, prompted []*Flight) {
	from, to := l.neighbours(d)
	for _, f := range flights {
		switch {
		case f.Date <= d.Date && f.Date > from:
			before = append(before, f)
		case f.Date > d.Date && f.Date <= to:
			after = append(after, f)
		}
	}
	prompted = d.Prompted
	if len(prompted) == 0 {
		prompted = before[max(0, len(before)-promptDefault):]
	}
	kept := slices.DeleteFunc(slices.Clone(before), func(f *Flight) bool { return f.Date == d.Date || slices.Contains(prompted, f) })
	return kept, after, prompted
}

// neighbours gives the dates of the drills before and after on the same
// target.
func (l *Ledger) neighbours(d *Drill) (from, to Date) {
	const never = Date(1 << 30)
	from, to = -never, never
	for _, o := range l.Drills {
		if o == d || o.Pilot != d.Pilot || o.Target != d.Target {
			continue
		}
		if o.Date < d.Date && o.Date > from {
			from = o.Date
		}
		if o.Date > d.Date && o.Date < to {
			to = o.Date
		}
	}
	return from, to
}

// faultDrill judges a drill on a fault kind by the flights in which it was
// seen.
func (l *Ledger) faultDrill(d *Drill) DrillAnswer {
	var watched []*Flight
	for _, f := range l.Select(Selection{Pilot: d.Pilot}) {
		if f.Counts() && f.Watched() {
			watched = append(watched, f)
		}
	}
	before, after, prompted := l.windows(d, watched)
	drilled := l.drilledKinds(d.Pilot)
	a := DrillAnswer{Drill: d, Prompted: prompted, P: 1, Least: 1, Before: faultSide(before, d.Target, drilled), After: faultSide(after, d.Target, drilled)}
	a.judgeFault()
	return a
}

// drilledKinds are the targets of all drills of the pilot, up to AsOf.
func (l *Ledger) drilledKinds(p *Pilot) []string {
	var kinds []string
	for _, d := range l.Drills {
		if d.Pilot == p && l.past(d.Date) {
			kinds = append(kinds, d.Target)
		}
	}
	return kinds
}

// faultSide counts one window.
func faultSide(flights []*Flight, target string, drilled []string) DrillSide {
	side := DrillSide{Flights: len(flights)}
	others := 0
	for _, f := range flights {
		seen, faults := false, 0
		for _, n := range f.Noted() {
			switch {
			case n.Kind.Name == target:
				seen = true
				faults += n.Times
			case !slices.Contains(drilled, n.Kind.Name):
				others += n.Times
			}
		}
		if seen {
			side.Seen++
		}
		if figures := f.figureCount(); figures > 0 { // a rate needs both
			side.Faults += faults
			side.Figures += figures
		}
	}
	if len(flights) > 0 {
		side.Others = float64(others) / float64(len(flights))
	}
	return side
}

// figureCount is how many figures were flown, where that is known.
func (f *Flight) figureCount() int {
	switch {
	case f.Sequence == nil:
		return 0
	case f.HasMarks():
		return len(f.Flown())
	default:
		return len(f.Sequence.Figures)
	}
}

// judgeFault finds the word: Fisher's exact test by flight is the verdict, the
// rate the description.
func (a *DrillAnswer) judgeFault() {
	b, c := a.Before, a.After
	if rate, err := stats.CompareRates(c.Faults, float64(c.Figures), b.Faults, float64(b.Figures), trendSurety); err == nil {
		a.Rate, a.HasRate = rate, true
	}
	a.Least = stats.SmallestFisherP(b.Flights, c.Flights)
	if test, err := stats.Fisher(c.Seen, c.Flights-c.Seen, b.Seen, b.Flights-b.Seen); err == nil {
		a.P = test.Less
	}
	switch {
	case b.Flights < DrillSideFlights || c.Flights < DrillSideFlights || a.Least > drillFirm:
		a.Word = DrillTooFew
	case a.P <= drillFirm && a.beatsOthers():
		a.Word = Worked
	case a.P <= DrillChance && a.beatsOthers():
		a.Word = MayHaveWorked
	default:
		a.Word = DrillOpen
	}
}

// beatsOthers reports whether the other, undrilled faults fell by a smaller
// ratio than the drilled one: where everything got rarer, the drill has not
// been shown to matter.
func (a *DrillAnswer) beatsOthers() bool {
	b, c := a.Before, a.After
	if b.Others == 0 || b.Seen == 0 {
		return true
	}
	target := float64(c.Seen) / float64(c.Flights) * float64(b.Flights) / float64(b.Seen)
	return c.Others/b.Others > target
}

// groupDrill judges a drill on a family group by the group's percent against
// the rest of the same flight.
func (l *Ledger) groupDrill(d *Drill) DrillAnswer {
	var flights []*Flight
	values := map[*Flight]float64{}
	for _, f := range gradedFlights(l.Select(Selection{Pilot: d.Pilot})) {
		var sample familySample
		sample.add(f, f.decidedFigures(), d.Target)
		if len(sample.rests) > 0 {
			flights = append(flights, f)
			values[f] = sample.rests[0]
		}
	}
	before, after, prompted := l.windows(d, flights)
	a := DrillAnswer{Drill: d, Prompted: prompted, P: 1, Least: 1, Before: groupSide(before, values), After: groupSide(after, values)}
	a.judgeGroup()
	return a
}

func groupSide(flights []*Flight, values map[*Flight]float64) DrillSide {
	side := DrillSide{Flights: len(flights)}
	for _, f := range flights {
		side.Values = append(side.Values, values[f])
	}
	return side
}

func (a *DrillAnswer) judgeGroup() {
	before, after := a.Before.Values, a.After.Values
	if len(before) < DrillSideFlights || len(after) < DrillSideFlights {
		a.Word = DrillTooFew
		return
	}
	a.Least = stats.SmallestSplitP(len(after), len(before))
	if test, err := stats.TwoSample(after, before); err == nil {
		a.P = test.Greater
	}
	if shift, err := stats.TwoSampleShift(after, before, trendSurety); err == nil {
		a.HasChange, a.Change = true, average(after)-average(before)
		a.Low, a.High, a.Confidence = shift.Interval.Low, shift.Interval.High, shift.Confidence
	}
	switch {
	case a.Least > drillFirm:
		a.Word = DrillTooFew
	case a.P <= drillFirm:
		a.Word = Worked
	case a.P <= DrillChance:
		a.Word = MayHaveWorked
	default:
		a.Word = DrillOpen
	}
}
