package analysis

import (
	"math"
	"slices"

	"boxbook/season"
	"boxbook/season/stats"
)

// faultDrill judges a drill on a fault kind by the pilot's reviewed flights that could
// show it, the kind beside the other kinds noted in them: a cause that only the
// pilot feels can be drilled too.
// The tests by permutation are made where the word leans on them, or all are wanted.
func faultDrill(l *season.Ledger, d *season.Drill, reviewed []*season.Flight, tests bool) DrillAnswer {
	w := windowsOf(l, d, reviewed)
	kinds := w.kinds(l, d)
	notices := stats.Notices{
		Left: noticesOf(w.left, kinds), Before: noticesOf(w.before, kinds), After: noticesOf(w.after, kinds),
		Cluster: contestNumbers(slices.Concat(w.before, w.after)),
	}
	a := DrillAnswer{
		Drill: d, Left: w.left, Full: w.full(), Later: faultSide(w.later, kinds[0], noticesOf(w.later, kinds[:1])),
		Before: faultSide(w.before, kinds[0], notices.Before), After: faultSide(w.after, kinds[0], notices.After),
		LeftShown: faultSide(w.left, kinds[0], notices.Left).Flights,
	}
	a.Unexposed = len(w.before) + len(w.after) - a.Before.Flights - a.After.Flights
	fall, err := stats.DescribeNotices(notices)
	if err == nil && (tests || fall.PFisher <= DrillMayBe) {
		fall, err = stats.FallOfNotices(notices)
	}
	if err != nil { // no flight on any side
		fall.Least = 1
	}
	a.judgeFault(fall)
	if a.Word.Told() {
		a.Again = notedAgain(slices.Concat(noticesOf(w.after, kinds[:1]), noticesOf(w.later, kinds[:1])))
	}
	return a
}

// notedAgain is how many of the last flights that could show a kind did, without one
// between them that did not: what fell may be back, and a count of all of them does not
// say so. It is 0 for a run that the same counts in any order have with a chance above
// DrillFirm.
func notedAgain(notices [][]stats.Notice) int {
	shown := slices.DeleteFunc(notices, func(n []stats.Notice) bool { return n[0] == stats.Unseeable })
	run := 0
	for run < len(shown) && shown[len(shown)-1-run][0] == stats.Noticed {
		run++
	}
	noted := 0
	for _, n := range shown {
		if n[0] == stats.Noticed {
			noted++
		}
	}
	chance := 1.0
	for i := range run {
		chance *= float64(noted-i) / float64(len(shown)-i)
	}
	if run < DrillAgain || chance > DrillFirm {
		return 0
	}
	return run
}

// kinds are the drilled kind, first, and the other kinds noted in the windows,
// without the targets of other drills that were set between them.
func (w drillWindows) kinds(l *season.Ledger, d *season.Drill) []*season.FaultKind {
	others := w.otherTargets(l, d)
	at := slices.IndexFunc(l.FaultKinds, func(k *season.FaultKind) bool { return k.Name == d.Target })
	kinds := []*season.FaultKind{l.FaultKinds[at]}
	for _, f := range slices.Concat(w.left, w.before, w.after) {
		for _, fault := range f.Faults {
			if !slices.Contains(kinds, fault.Kind) && !slices.Contains(others, fault.Kind.Name) {
				kinds = append(kinds, fault.Kind)
			}
		}
	}
	return kinds
}

// otherTargets are the targets of other drills set between the first flight
// before and the last after.
func (w drillWindows) otherTargets(l *season.Ledger, d *season.Drill) []string {
	compared := slices.Concat(w.before, w.after)
	if len(compared) == 0 {
		return nil
	}
	first, last := compared[0].Date, compared[len(compared)-1].Date
	var targets []string
	for _, o := range l.Drills {
		if o.Pilot == d.Pilot && o.Target != d.Target && l.Past(o.Date) && o.Date >= first && o.Date <= last {
			targets = append(targets, o.Target)
		}
	}
	return targets
}

// noticesOf says of each flight which kinds were noted, and which could have
// been.
func noticesOf(flights []*season.Flight, kinds []*season.FaultKind) [][]stats.Notice {
	rows := make([][]stats.Notice, len(flights))
	for i, f := range flights {
		rows[i] = make([]stats.Notice, len(kinds))
		for k, kind := range kinds {
			switch {
			case slices.ContainsFunc(f.Faults, func(fault season.Fault) bool { return fault.Kind == kind }):
				rows[i][k] = stats.Noticed
			case f.CouldShow(kind):
				rows[i][k] = stats.Unnoticed
			}
		}
	}
	return rows
}

// contestNumbers number the flights' contests.
func contestNumbers(flights []*season.Flight) []int {
	var names []string
	numbers := make([]int, len(flights))
	for i, f := range flights {
		numbers[i] = numberAmong(&names, ContestKey(f))
	}
	return numbers
}

// numberAmong is the place of a name in a list, to which a new one is added.
func numberAmong(names *[]string, name string) int {
	at := slices.Index(*names, name)
	if at < 0 {
		at = len(*names)
		*names = append(*names, name)
	}
	return at
}

// faultSide counts one window by its notices, whose first are of the drilled kind.
func faultSide(flights []*season.Flight, drilled *season.FaultKind, notices [][]stats.Notice) DrillSide {
	var side DrillSide
	others := 0
	for i, notices := range notices {
		for _, n := range notices[1:] {
			if n == stats.Noticed {
				others++
			}
		}
		if notices[0] == stats.Unseeable {
			continue
		}
		side.Flights++
		if notices[0] == stats.Noticed {
			side.Seen++
		}
		if flights[i].Contested() {
			side.Contests.Add(notices[0])
		}
		if figures := figureCount(flights[i]); figures > 0 { // a rate needs both
			side.Faults += flights[i].TimesNoted(drilled)
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
		for i := range f.Rows.Len() {
			if f.Rows.Has(i) {
				n += f.Times(i + 1)
			}
		}
		return n
	default:
		return len(f.Sequence.Figures)
	}
}

// judgeFault finds the word. With too few flights there is no p, and no rate
// with its interval either.
func (a *DrillAnswer) judgeFault(fall stats.NoticedFall) {
	if a.tooFew(fall.Least) {
		return
	}
	if fall.Arrangements < DrillWays {
		a.Reason = DrillFewWays
		return
	}
	a.P, a.Tests.Z, a.Tests.Fall, a.Tests.Faults = fall.PFisher, fall.PZ, fall.PFall, fall.PBeside
	a.Tests.Within = a.fallWithin()
	if rate, err := stats.CompareRates(a.After.Faults, float64(a.After.Figures), a.Before.Faults, float64(a.Before.Figures), TrendConfidence); err == nil {
		a.Rate, a.HasRate = rate, true
	}
	alike := a.alikeSince() && !a.practiceAlone()
	switch {
	case alike && max(a.P, a.Tests.Within) <= DrillFirm && max(a.Tests.Z, a.Tests.Fall) <= DrillRanked && a.Tests.Faults <= DrillBeside:
		a.Word = Worked
	case alike && max(a.P, a.Tests.Within) <= DrillMayBe && a.Tests.Z <= DrillMayBeRanked:
		a.Word = MayHaveWorked
	default:
		a.Word, a.Reason = DrillOpen, a.whyOpen()
		a.More = a.cleanFlights()
	}
}

// fallWithin is Fisher's chance of so large a fall where contest flights are held
// against contest flights, and practice against practice: a fault of contests is not
// mended by a winter of practice, in which it never showed.
func (a *DrillAnswer) fallWithin() float64 {
	table := func(after, before stats.Tally) [4]int {
		return [4]int{after.Seen, after.Exposed - after.Seen, before.Seen, before.Exposed - before.Seen}
	}
	less, err := stats.FisherWithin(table(a.After.Contests, a.Before.Contests), table(a.After.practice(), a.Before.practice()))
	if err != nil { // no ledger has a million flights in a window
		return 1
	}
	return less
}

// alikeSince reports whether there are flights enough since of a sort, contests or
// practice, in which the fault was noted before.
func (a *DrillAnswer) alikeSince() bool {
	return alikeFlights(a.Before.tally(), a.Before.Contests, a.After.tally(), a.After.Contests) >= DrillSideFlights
}

// practiceAlone reports whether contest flights, in which the fault was noted before,
// show no fall at all: what practice shows is then none of them.
func (a *DrillAnswer) practiceAlone() bool {
	before, after := a.Before.Contests, a.After.Contests
	return before.Seen > 0 && after.Seen > 0 && after.Seen*before.Exposed >= before.Seen*after.Exposed
}

func (s DrillSide) tally() stats.Tally { return stats.Tally{Seen: s.Seen, Exposed: s.Flights} }

// practice are the flights of a side that were no contest flights.
func (s DrillSide) practice() stats.Tally {
	return stats.Tally{Seen: s.Seen - s.Contests.Seen, Exposed: s.Flights - s.Contests.Exposed}
}

// tooFew begins a drill as one of which nothing can be told, and reports whether it
// stays so: for want of flights on a side, or since no counts like these could show
// anything.
func (a *DrillAnswer) tooFew(least float64) bool {
	a.untold()
	switch {
	case a.Before.Flights < DrillSideFlights || a.After.Flights < DrillSideFlights:
		a.Reason = DrillFewFlights
	case least > DrillFirm:
		a.Reason = DrillFewCounts
	default:
		return false
	}
	return true
}

// untold is a drill of which nothing can be told.
func (a *DrillAnswer) untold() {
	a.Word, a.P, a.Tests = DrillTooFew, math.NaN(), untested()
}

// whyOpen says what a fall lacks.
func (a *DrillAnswer) whyOpen() DrillReason {
	switch {
	case a.P > DrillMayBe:
		return DrillByChance
	case a.practiceAlone():
		return DrillPractice
	case !a.alikeSince() || a.Tests.Within > DrillMayBe:
		return DrillMixed
	case a.Tests.Faults > DrillBeside:
		return DrillOthersFell
	default:
		return DrillPicked
	}
}

// cleanFlights is how many further flights without the fault could make Fisher's
// p firm, 0 where it is firm or none within the window could.
func (a *DrillAnswer) cleanFlights() int {
	b, c := a.Before, a.After
	if a.P <= DrillFirm {
		return 0
	}
	for more := 1; c.Flights+more <= DrillWindow; more++ {
		test, err := stats.Fisher(c.Seen, c.Flights+more-c.Seen, b.Seen, b.Flights-b.Seen)
		if err == nil && test.Less <= DrillFirm {
			return more
		}
	}
	return 0
}
