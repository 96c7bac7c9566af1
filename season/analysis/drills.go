package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// DrillWord is the verdict on a drill: a code whose spelling is a contract.
type DrillWord string

// The verdicts on a drill.
const (
	Worked        DrillWord = "worked"
	MayHaveWorked DrillWord = "may have worked"
	DrillTooFew   DrillWord = "too few to tell"
	DrillOpen     DrillWord = "cannot tell"
)

// DrillReason says what a verdict on a drill lacks.
type DrillReason string

// The reasons, each a code whose spelling is a contract.
const (
	DrillFewFlights DrillReason = "few-flights" // a side has fewer than DrillSideFlights
	DrillFewCounts  DrillReason = "few-counts"  // no counts from so few flights could tell
	DrillOthersFell DrillReason = "others-fell" // faults without a drill got rarer as well
	DrillByChance   DrillReason = "chance"      // a drill that did nothing gives as much easily
)

// The window rule and the thresholds of a drill's verdict.
const (
	DrillSideFlights = 3 // flights looked at on each side, at the least
	DrillLeftOut     = 4 // flights left out before a drill that names none
	DrillFirm        = 0.05
	DrillMayBe       = 0.10 // beyond it a drill that did nothing gives as much easily
)

// DrillAnswer is what became of one drill. The flights that prompted it are in
// neither window: a drill is set on what just went badly, and the next flights
// look better for nothing.
type DrillAnswer struct {
	Drill         *season.Drill
	Ended         season.Date      // 0 while it is open on the day asked about
	Prompted      []*season.Flight // left out of the window before
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
	// flight, within strata, with its interval; for a family group only. Apart
	// counts flights of the windows that are left out because their stratum was
	// flown on one side only.
	Change, Low, High, Confidence float64
	HasChange                     bool
	Apart                         int
	Word                          DrillWord
	Reason                        DrillReason // "" where it worked or may have
}

// DrillSide is one window of a drill. Seen counts the flights in which the
// fault was noted, seen or felt, of the Flights looked at; Faults the faults on
// Figures flown, of the flights whose figures are known; Others the mean number
// of other, undrilled faults per flight. For a family group Values are the
// flights' percents against the rest.
type DrillSide struct {
	Seen, Flights int
	Faults        int
	Figures       int
	Others        float64
	Values        []float64
}

// DrillsOf answers for the drills of the selection's pilot, or of everybody,
// in the order in which they were set.
func DrillsOf(l *season.Ledger, s season.Selection) []DrillAnswer {
	l = l.KnownTo(s)
	var out []DrillAnswer
	families := map[*season.Pilot][]familySample{}
	for _, d := range l.Drills {
		if !setWithin(l, s, d) {
			continue
		}
		if !season.IsGroup(d.Target) {
			out = append(out, faultDrill(l, d))
			continue
		}
		if families[d.Pilot] == nil {
			families[d.Pilot] = familySamples(gradedFlights(l.Select(season.Selection{Pilot: d.Pilot})))
		}
		out = append(out, groupDrill(l, d, families[d.Pilot]))
	}
	for i := range out {
		out[i].Ended = endedBy(l, out[i].Drill)
	}
	slices.SortStableFunc(out, func(a, b DrillAnswer) int { return int(a.Drill.Date) - int(b.Drill.Date) })
	return out
}

// setWithin reports whether a drill was set within the selection: of its pilot,
// and in its season or span of days.
func setWithin(l *season.Ledger, s season.Selection, d *season.Drill) bool {
	return (s.Pilot == nil || d.Pilot == s.Pilot) && l.Past(d.Date) &&
		(s.Season == 0 || l.SeasonStart.Season(d.Date) == s.Season) &&
		(s.Since == 0 || d.Date >= s.Since)
}

// drillOn finds the latest drill on one of the targets, of the pilot, or of
// everybody; "" is no target.
func drillOn(l *season.Ledger, p *season.Pilot, targets ...string) *season.Drill {
	var latest *season.Drill
	for _, d := range l.Drills {
		aimed := d.Target != "" && slices.Contains(targets, d.Target) && (p == nil || d.Pilot == p)
		if aimed && l.Past(d.Date) && (latest == nil || d.Date >= latest.Date) {
			latest = d
		}
	}
	return latest
}

// endedBy is the day on which a drill was ended, 0 while it is open on the day
// that is asked about.
func endedBy(l *season.Ledger, d *season.Drill) season.Date {
	if d == nil || !l.Past(d.Ended) {
		return 0
	}
	return d.Ended
}

// windows splits the flights that can speak of a drill: before it, since the
// one before on the same target, without those that prompted it; and after it,
// from the next day to the next drill on the same target.
func windows(l *season.Ledger, d *season.Drill, flights []*season.Flight) (before, after, prompted []*season.Flight) {
	from, to := neighbours(l, d)
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
		prompted = before[max(0, len(before)-DrillLeftOut):]
	}
	kept := slices.DeleteFunc(slices.Clone(before), func(f *season.Flight) bool { return f.Date == d.Date || slices.Contains(prompted, f) })
	return kept, after, prompted
}

// neighbours gives the dates of the drills before and after on the same
// target.
func neighbours(l *season.Ledger, d *season.Drill) (from, to season.Date) {
	const never = season.Date(1 << 30)
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
// noted: a cause that only the pilot feels can be drilled too.
func faultDrill(l *season.Ledger, d *season.Drill) DrillAnswer {
	var watched []*season.Flight
	for _, f := range l.Select(season.Selection{Pilot: d.Pilot}) {
		if f.Counts() && f.Watched() {
			watched = append(watched, f)
		}
	}
	before, after, prompted := windows(l, d, watched)
	drilled := drilledKinds(l, d.Pilot)
	a := DrillAnswer{Drill: d, Prompted: prompted, P: 1, Least: 1, Before: faultSide(before, d.Target, drilled), After: faultSide(after, d.Target, drilled)}
	a.judgeFault()
	return a
}

// drilledKinds are the targets of all drills of the pilot, up to AsOf.
func drilledKinds(l *season.Ledger, p *season.Pilot) []string {
	var kinds []string
	for _, d := range l.Drills {
		if d.Pilot == p && l.Past(d.Date) {
			kinds = append(kinds, d.Target)
		}
	}
	return kinds
}

// faultSide counts one window.
func faultSide(flights []*season.Flight, target string, drilled []string) DrillSide {
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
		if figures := figureCount(f); figures > 0 { // a rate needs both
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
func figureCount(f *season.Flight) int {
	switch {
	case f.Sequence == nil:
		return 0
	case f.HasMarks():
		n := 0
		for _, i := range f.Flown() {
			n += f.Times(i + 1)
		}
		return n
	default:
		return len(f.Sequence.Figures)
	}
}

// judgeFault finds the word: Fisher's exact test by flight is the verdict, the
// rate the description.
func (a *DrillAnswer) judgeFault() {
	b, c := a.Before, a.After
	if rate, err := stats.CompareRates(c.Faults, float64(c.Figures), b.Faults, float64(b.Figures), TrendConfidence); err == nil {
		a.Rate, a.HasRate = rate, true
	}
	a.Least = stats.SmallestFisherP(b.Flights, c.Flights)
	if test, err := stats.Fisher(c.Seen, c.Flights-c.Seen, b.Seen, b.Flights-b.Seen); err == nil {
		a.P = test.Less
	}
	switch {
	case b.Flights < DrillSideFlights || c.Flights < DrillSideFlights:
		a.Word, a.Reason = DrillTooFew, DrillFewFlights
	case a.P <= DrillMayBe && a.Least <= DrillFirm && !a.beatsOthers():
		a.Word, a.Reason = DrillOpen, DrillOthersFell
	default:
		a.byChance()
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

// judgeGroup tests the change, widened by how alike flights of one contest are:
// share is the part of the variance that a contest makes.
func (a *DrillAnswer) judgeGroup(c comparison, share float64) {
	a.Before, a.After, a.Apart = c.side(false), c.side(true), c.apart
	if a.Before.Flights < DrillSideFlights || a.After.Flights < DrillSideFlights {
		a.Word, a.Reason = DrillTooFew, DrillFewFlights
		return
	}
	effect, err := stats.SplitDesignEffect(byContest(c.points), c.since, share)
	if err != nil {
		effect = 1
	}
	splits, sizes := c.splits()
	a.Least, _ = stats.WidenedP(stats.SmallestSplitP(sizes...), effect)
	if test, err := stats.StratifiedTwoSample(splits...); err == nil {
		a.P, _ = stats.WidenedP(test.Greater, effect)
		a.Change = test.Difference
	}
	if shift, err := stats.StratifiedShift(TrendConfidence, splits...); err == nil {
		wide := math.Sqrt(effect)
		a.HasChange, a.Confidence = true, shift.Confidence
		a.Low, a.High = a.Change-wide*(a.Change-shift.Interval.Low), a.Change+wide*(shift.Interval.High-a.Change)
	}
	a.byChance()
}

// byChance finds the word by the test alone.
func (a *DrillAnswer) byChance() {
	switch {
	case a.Least > DrillFirm:
		a.Word, a.Reason = DrillTooFew, DrillFewCounts
	case a.P <= DrillFirm:
		a.Word = Worked
	case a.P <= DrillMayBe:
		a.Word = MayHaveWorked
	default:
		a.Word, a.Reason = DrillOpen, DrillByChance
	}
}
