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

// Told reports whether a verdict tells of a change for the better.
func (w DrillWord) Told() bool { return w == Worked || w == MayHaveWorked }

// DrillReason says what a verdict on a drill lacks.
type DrillReason string

// The reasons, each a code whose spelling is a contract.
const (
	DrillFewFlights DrillReason = "few-flights" // a side has fewer than DrillSideFlights that could show it
	DrillFewCounts  DrillReason = "few-counts"  // too few flights for any count to tell
	DrillFewWays    DrillReason = "few-ways"    // too few contests to be rearranged
	DrillOthersFell DrillReason = "others-fell" // faults without a drill got rarer as well
	DrillPicked     DrillReason = "picked"      // of so many the worst one moves as much by chance
	DrillByChance   DrillReason = "chance"      // a drill that did nothing gives as much easily
	DrillMixed      DrillReason = "mixed"       // contest and practice flights, each by themselves, do not show it
	DrillPractice   DrillReason = "practice"    // practice flights alone fell, those of contests did not
)

// The windows of a drill.
const (
	DrillLeftOut     = 4   // the last flights before a drill, which it was set on
	DrillWindow      = 24  // flights on each side, at the most
	DrillDays        = 730 // days on each side
	DrillSideFlights = 3   // flights on each side, at the least
	DrillAgain       = 3   // flights on end with what had fallen, at the least, to say that it is there again
)

// The thresholds of a drill's verdict: held by simulation, so that a drill that
// did nothing is seldom said to have worked.
const (
	DrillFirm        = 0.05 // Fisher's p, of all flights and within their kinds; a family's plain and rank-matched p
	DrillRanked      = 0.08 // rank-matched p of z and of the fall
	DrillBeside      = 0.25 // Fisher's p against the other faults
	DrillMayBe       = 0.10 // both of Fisher's p of what may have worked
	DrillMayBeRanked = 0.12 // rank-matched p of z of what may have worked
	DrillWays        = 13   // arrangements, at the least
	DrillMayBeOnceIn = 9    // a drill that did nothing may have worked about once in so many
)

// DrillAnswer is what became of one drill. The flights that it was set on are in
// neither window: a drill is set on what just went badly, and the next flights
// look better for nothing.
type DrillAnswer struct {
	Drill         *season.Drill
	Ended         season.Date      // 0 while it is open on the day asked about
	UpTo          season.Date      // the day of the next drill on the same target, which ends what counts; 0 where none does
	Left          []*season.Flight // left out: what it was set on, and its own day's
	LeftShown     int              // how many of them could show the target
	Before, After DrillSide
	// Full says that the window after the drill has all the flights that it can have:
	// no further one changes the word. Later are those behind it, of the drill's time.
	Full  bool
	Later DrillSide
	// Again is in how many flights on end, the last since the drill that could show the
	// target, its fault was noted, where it fell before: 0 where these are fewer than
	// DrillAgain, or as many as such counts in any order have.
	Again int
	// Unexposed counts the flights of the windows in which no figure was flown that
	// could show the target.
	Unexposed int
	// P is one-sided: Fisher's chance of so large a fall without any change; for a
	// family the plain permutation's of a rise. Tests are the others. Both are NaN
	// where the word is DrillTooFew.
	P     float64
	Tests DrillTests
	// More is how many further flights without the fault could make P firm, 0 where
	// none within the window could; only where the word is DrillOpen.
	More int
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

// DrillTests are the tests beside a drill's P, NaN where one is not made: Z that
// the kind fell more than the others, Fall that it fell by so much, both with the
// choice of the drill made again; Faults that it is a smaller part of all faults;
// Within that it fell in contest flights and practice flights, each held against
// their own kind; T that a family rose, with the choice made again.
type DrillTests struct{ Z, Fall, Faults, Within, T float64 }

// untested are the tests of a drill of which nothing can be told.
func untested() DrillTests {
	none := math.NaN()
	return DrillTests{none, none, none, none, none}
}

// DrillSide is one window of a drill. Seen counts the flights in which the
// fault was noted, seen or felt, of the Flights that could show it; Contests are
// those of both that were contest flights; Faults the
// faults on Figures flown, of these flights where their figures are known; Others
// the mean number of other, undrilled kinds noted in a flight. For a family group
// Values are the flights' percents against the rest.
type DrillSide struct {
	Seen, Flights int
	Contests      stats.Tally
	Faults        int
	Figures       int
	Others        float64
	Values        []float64
}

// DrillsOf answers for the drills of the selection's pilot, or of everybody,
// in the order in which they were set.
func DrillsOf(l *season.Ledger, s season.Selection) []DrillAnswer { return drillsOf(l, s, true) }

// DrillVerdicts are the same without the tests that no verdict leans on: a fall
// that chance gives easily needs no second test, and thousands of arrangements
// are looked at for one.
func DrillVerdicts(l *season.Ledger, s season.Selection) []DrillAnswer { return drillsOf(l, s, false) }

func drillsOf(l *season.Ledger, s season.Selection, tests bool) []DrillAnswer {
	l = l.KnownTo(s)
	out := drillsSet(l, slices.DeleteFunc(slices.Clone(l.Drills), func(d *season.Drill) bool { return !setWithin(l, s, d) }), tests)
	slices.SortStableFunc(out, func(a, b DrillAnswer) int { return int(a.Drill.Date) - int(b.Drill.Date) })
	return out
}

// drillsSet answers of some drills, in their order.
func drillsSet(l *season.Ledger, set []*season.Drill, tests bool) []DrillAnswer {
	families, reviewed := map[*season.Pilot][]familySample{}, map[*season.Pilot][]*season.Flight{}
	for _, d := range set {
		switch group := season.IsGroup(d.Target); {
		case group && families[d.Pilot] == nil:
			families[d.Pilot] = familySamples(gradedFlights(l.Select(season.Selection{Pilot: d.Pilot})))
		case !group && reviewed[d.Pilot] == nil:
			reviewed[d.Pilot] = reviewedFlights(l, d.Pilot)
		}
	}
	// Side by side: each deals its flights thousands of times, with dice of its own.
	out := make([]DrillAnswer, len(set))
	season.SideBySide(len(set), func(i int) {
		if d := set[i]; season.IsGroup(d.Target) {
			out[i] = groupDrill(l, d, families[d.Pilot])
		} else {
			out[i] = faultDrill(l, d, reviewed[d.Pilot], tests)
		}
	})
	for i := range out {
		out[i].Ended, out[i].UpTo = endedBy(l, out[i].Drill), upTo(l, out[i].Drill)
	}
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
	return drillBefore(l, p, math.MaxInt32, targets...)
}

// drillBefore is that drill of those set before a day.
func drillBefore(l *season.Ledger, p *season.Pilot, day season.Date, targets ...string) *season.Drill {
	var latest *season.Drill
	for _, d := range l.Drills {
		aimed := d.Target != "" && slices.Contains(targets, d.Target) && (p == nil || d.Pilot == p)
		if aimed && d.Date < day && l.Past(d.Date) && (latest == nil || d.Date >= latest.Date) {
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

// drillWindows are the flights that speak of a drill, each list by date; later are
// those of its time that its window after has no room for.
type drillWindows struct{ left, before, after, later []*season.Flight }

// full reports whether the window after the drill has no room left.
func (w drillWindows) full() bool { return len(w.after) == DrillWindow }

// windowsOf splits the flights that can speak of a drill. Left are the last four
// before it, those of its own day and those that prompted it. Before are the
// latest of the others; after the first ones from the next day on, to the next
// drill on the same target or to its end.
func windowsOf(l *season.Ledger, d *season.Drill, flights []*season.Flight) drillWindows {
	var w drillWindows
	var earlier []*season.Flight
	last := min(lastDay(l, d), d.Date+DrillDays)
	flights = flights[:season.Before(flights, max(last, d.Date)+1)]
	for _, f := range flights[season.Before(flights, d.Date-DrillDays):] {
		switch {
		case f.Date > d.Date && f.Date <= last:
			w.after = append(w.after, f)
		case f.Date == d.Date:
			w.left = append(w.left, f)
		case f.Date < d.Date:
			earlier = append(earlier, f)
		}
	}
	recent := max(0, len(earlier)-DrillLeftOut)
	var left []*season.Flight
	for i, f := range earlier {
		if i >= recent || slices.Contains(d.Prompted, f) {
			left = append(left, f)
		} else {
			w.before = append(w.before, f)
		}
	}
	w.left = append(left, w.left...)
	w.before = w.before[max(0, len(w.before)-DrillWindow):]
	room := min(DrillWindow, len(w.after))
	w.after, w.later = w.after[:room], w.after[room:]
	return w
}

// lastDay is the day on which a drill's time is up: that of the next drill on
// the same target, or its end.
func lastDay(l *season.Ledger, d *season.Drill) season.Date {
	last := season.Date(1 << 30)
	if ended := endedBy(l, d); ended != 0 {
		last = ended
	}
	if next := nextOn(l, d); next != 0 {
		last = min(last, next)
	}
	return last
}

// nextOn is the day of the next drill on the same target, 0 where there is none.
func nextOn(l *season.Ledger, d *season.Drill) season.Date {
	next := season.Date(0)
	for _, o := range l.Drills {
		if o.Pilot == d.Pilot && o.Target == d.Target && o.Date > d.Date && l.Past(o.Date) && (next == 0 || o.Date < next) {
			next = o.Date
		}
	}
	return next
}

// upTo is that day where it ends what counts of a drill.
func upTo(l *season.Ledger, d *season.Drill) season.Date {
	if next := nextOn(l, d); next != 0 && next == lastDay(l, d) && next != endedBy(l, d) {
		return next
	}
	return 0
}
