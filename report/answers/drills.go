package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Drills is what became of drills, in JSON. Without are the kinds that come back
// and have no open drill, where the drills are those of one pilot.
type Drills struct {
	// Season is the one that was asked for, 0 of all.
	Season  int         `json:"season,omitempty"`
	Drills  []Drill     `json:"drills"`
	Without []FaultKind `json:"without,omitempty"`
	Limits  DrillLimits `json:"limits"`
}

// DrillLimits are the thresholds that the sentences about drills name: the
// flights on each side, at the least and at the most; how many are left out before
// a drill; the days on each side; and that a drill that did nothing may have
// worked about once in so many.
type DrillLimits struct {
	Flights int           `json:"flights"`
	LeftOut int           `json:"leftOut"`
	Window  int           `json:"window"`
	Days    int           `json:"days"`
	OnceIn  int           `json:"onceIn"`
	Ranked  report.Number `json:"ranked"`
}

// DrillWord is the verdict on a drill.
type DrillWord = analysis.DrillWord

// The verdicts on a drill.
const (
	Worked        = analysis.Worked
	MayHaveWorked = analysis.MayHaveWorked
	DrillTooFew   = analysis.DrillTooFew
	DrillOpen     = analysis.DrillOpen
)

// DrillReason says what a verdict on a drill lacks.
type DrillReason = analysis.DrillReason

// The reasons of a drill's verdict.
const (
	DrillFewFlights = analysis.DrillFewFlights
	DrillFewCounts  = analysis.DrillFewCounts
	DrillFewWays    = analysis.DrillFewWays
	DrillOthersFell = analysis.DrillOthersFell
	DrillPicked     = analysis.DrillPicked
	DrillByChance   = analysis.DrillByChance
	DrillMixed      = analysis.DrillMixed
	DrillPractice   = analysis.DrillPractice
)

// Drill is one drill. P is one-sided, Fisher's or for a family the plain
// permutation's; it, the tests, the rate and the change are absent where the word
// is too few. Before and after are of the flights that could show the target;
// unexposed counts the others of the windows. Undrilled is the mean number of
// other, undrilled kinds noted in a flight before and after, each absent where no
// flight was looked at.
type Drill struct {
	Pilot  string    `json:"pilot"`
	Target string    `json:"target"`
	Date   string    `json:"date"`
	Text   string    `json:"text,omitempty"`
	By     string    `json:"by,omitempty"`
	Before DrillSide `json:"before"`
	After  DrillSide `json:"after"`
	// Full says that after has all the flights that it can have, so that no further one
	// changes the word; Later counts those behind them, absent where there are none.
	Full  bool        `json:"full,omitempty"`
	Later *DrillCount `json:"later,omitempty"`
	// Again is in how many flights on end, the last since the drill, a fault that fell was
	// noted again; absent where that says nothing.
	Again     int           `json:"again,omitempty"`
	P         report.Number `json:"p,omitzero"`
	Tests     *DrillTests   `json:"tests,omitempty"`
	Undrilled *Undrilled    `json:"undrilled,omitempty"`
	Rate      *Rate         `json:"rate,omitempty"`
	Change    *Change       `json:"change,omitempty"`
	// LeftOut are the flights that it was set on, by its rule: the last before it,
	// those of its own day, those named.
	LeftOut []string `json:"leftOut"`
	// LeftOutShown counts those of them that could show the target.
	LeftOutShown int `json:"leftOutShown,omitempty"`
	Unexposed    int `json:"unexposed"`
	// Ended is the day on which the drill was ended, absent while it is open, and
	// EndedRemark what was said of it then.
	Ended       string `json:"ended,omitempty"`
	EndedRemark string `json:"endedRemark,omitempty"`
	// UpTo is the day of the next drill on the same target where that ends what counts of
	// this one.
	UpTo string `json:"upTo,omitempty"`
	// Apart counts flights of the windows that are not compared, since their
	// sequence was flown on one side of the drill only; for a family group.
	Apart int `json:"apart,omitempty"`
	// More is how many further flights without the fault could show it.
	More   int         `json:"more,omitempty"`
	Word   DrillWord   `json:"word"`
	Reason DrillReason `json:"reason,omitempty"`
	// Name is the pilot's, ByName the coach's. Says is the kind in words, absent
	// where the ledger has none or the target is a family; In are the groups in
	// which the kind shows, absent where in any figure.
	Name   string   `json:"name"`
	ByName string   `json:"byName,omitempty"`
	Says   string   `json:"says,omitempty"`
	In     []string `json:"in,omitempty"`
}

// DrillCount is in how many of flights a drill's fault was noted; of a family, how
// many there are.
type DrillCount struct {
	Seen    int `json:"seen"`
	Flights int `json:"flights"`
}

// DrillTests are the tests beside a drill's P, each a one-sided chance, absent
// where it is not made: z that the kind fell more than the others and fall that
// it fell so far, both with the choice of the drill made again; faults that it is
// a smaller part of all faults; within that it fell in contest flights and practice
// flights, each held against their own kind; t that a family rose, with the choice
// made again.
type DrillTests struct {
	Z      report.Number `json:"z,omitzero"`
	Fall   report.Number `json:"fall,omitzero"`
	Faults report.Number `json:"faults,omitzero"`
	Within report.Number `json:"within,omitzero"`
	T      report.Number `json:"t,omitzero"`
}

// ByKind reports whether the drill's flights are counted by their kind, contest or
// practice: where that is what its verdict lacks.
func (d Drill) ByKind() bool { return d.Reason == DrillMixed || d.Reason == DrillPractice }

// OnFamily reports whether the drill is on a figure family, and not on a kind
// of fault.
func (d Drill) OnFamily() bool { return season.IsGroup(d.Target) }

// DrillSide counts one window: flights in which the fault was noted, seen
// or felt, of the flights that could show it; for a family group the flights and their mean percent
// against the rest. Contests are the contest flights of it, where that is why a fall
// cannot be told.
type DrillSide struct {
	Seen     int           `json:"seen"`
	Flights  int           `json:"flights"`
	Contests *DrillCount   `json:"contests,omitempty"`
	Faults   int           `json:"faults"`
	Figures  int           `json:"figures"`
	Mean     report.Number `json:"mean,omitzero"`
}

// Undrilled is the mean number of other, undrilled kinds noted in a flight.
type Undrilled struct {
	Before report.Number `json:"before,omitzero"`
	After  report.Number `json:"after,omitzero"`
}

// Rate is the ratio of faults per figure flown, after to before, with its range at
// a confidence from 0 to 1.
type Rate struct {
	Ratio      report.Number `json:"ratio,omitzero"`
	Low        report.Number `json:"low"`
	High       report.Number `json:"high,omitzero"`
	Confidence report.Number `json:"confidence"`
}

// Change is a change of percent points with its interval.
type Change struct {
	Change     report.Number `json:"change"`
	Low        report.Number `json:"low"`
	High       report.Number `json:"high"`
	Confidence report.Number `json:"confidence"`
}

// DrillsOf are the drills of the selection's pilot, or of everybody, in the
// order in which they were set.
func DrillsOf(l *season.Ledger, s season.Selection) Drills {
	return drillsAs(l, s, analysis.DrillsOf(l, s))
}

// DrillVerdicts are the same for a page that shows no tests: those that no verdict
// leans on are absent.
func DrillVerdicts(l *season.Ledger, s season.Selection) Drills {
	return drillsAs(l, s, analysis.DrillVerdicts(l, s))
}

func drillsAs(l *season.Ledger, s season.Selection, of []analysis.DrillAnswer) Drills {
	d := Drills{Season: s.Season, Drills: []Drill{}, Limits: DrillLimits{
		Flights: analysis.DrillSideFlights, LeftOut: analysis.DrillLeftOut, Window: analysis.DrillWindow, Days: analysis.DrillDays, OnceIn: analysis.DrillMayBeOnceIn,
		Ranked: report.Float(analysis.DrillRanked),
	}}
	pilot := s.Pilot
	for _, a := range of {
		d.Drills = append(d.Drills, drillOf(l, a))
		pilot = a.Drill.Pilot
	}
	if pilot != nil && !d.SeveralPilots() {
		d.Without = kindsOf(analysis.Without(analysis.ComesBack(l.KnownTo(s), pilot)))
	}
	return d
}

func drillOf(l *season.Ledger, a analysis.DrillAnswer) Drill {
	d := Drill{
		Pilot: a.Drill.Pilot.Handle, Target: a.Drill.Target, Date: a.Drill.Date.String(), Text: a.Drill.Text,
		Before: drillSide(a.Before), After: drillSide(a.After), P: report.Float(a.P), LeftOut: flightNames(a.Left), Unexposed: a.Unexposed, Apart: a.Apart, More: a.More,
		Word: a.Word, Reason: a.Reason, Name: a.Drill.Pilot.Name,
	}
	if a.Drill.By != nil {
		d.By, d.ByName = a.Drill.By.Handle, a.Drill.By.Name
	}
	if d.Ended = dayOf(a.Ended); d.Ended != "" {
		d.EndedRemark = a.Drill.EndedRemark
	}
	d.UpTo = dayOf(a.UpTo)
	for _, k := range l.FaultKinds {
		if k.Name == d.Target {
			d.Says, d.In = k.Says, k.In
		}
	}
	d.Full, d.LeftOutShown, d.Again = a.Full, a.LeftShown, a.Again
	if d.ByKind() {
		d.Before.Contests = &DrillCount{a.Before.Contests.Seen, a.Before.Contests.Exposed}
		d.After.Contests = &DrillCount{a.After.Contests.Seen, a.After.Contests.Exposed}
	}
	if a.Later.Flights > 0 {
		d.Later = &DrillCount{a.Later.Seen, a.Later.Flights}
	}
	d.measured(a)
	return d
}

// measured fills what is told beside the counts.
func (d *Drill) measured(a analysis.DrillAnswer) {
	if d.P.Known() {
		d.Tests = &DrillTests{report.Float(a.Tests.Z), report.Float(a.Tests.Fall), report.Float(a.Tests.Faults), report.Float(a.Tests.Within), report.Float(a.Tests.T)}
	}
	if !d.OnFamily() && a.Before.Flights+a.After.Flights > 0 {
		d.Undrilled = &Undrilled{undrilled(a.Before), undrilled(a.After)}
	}
	if a.HasRate {
		d.Rate = &Rate{Ratio: report.Float(a.Rate.Ratio), Low: report.Float(a.Rate.Interval.Low), High: report.Float(a.Rate.Interval.High), Confidence: report.Float(analysis.TrendConfidence)}
	}
	if a.HasChange {
		d.Change = &Change{report.Float(a.Change), report.Float(a.Low), report.Float(a.High), report.Float(a.Confidence)}
	}
}

// undrilled is the mean number of other faults on one side; not known where no
// flight was looked at.
func undrilled(s analysis.DrillSide) report.Number {
	if s.Flights == 0 {
		return report.Number{}
	}
	return report.Float(s.Others)
}

func drillSide(s analysis.DrillSide) DrillSide {
	d := DrillSide{Seen: s.Seen, Flights: s.Flights, Faults: s.Faults, Figures: s.Figures}
	if len(s.Values) > 0 {
		sum := 0.0
		for _, v := range s.Values {
			sum += v
		}
		d.Mean = report.Float(sum / float64(len(s.Values)))
	}
	return d
}

// Over reports whether no later flight counts, since the drill was ended or set anew.
func (d Drill) Over() bool { return d.Ended != "" || d.UpTo != "" }

// NothingBeside reports whether no other fault was noted in a drill's flights that its own
// could be held against.
func (d Drill) NothingBeside() bool {
	return d.Undrilled != nil && d.Undrilled.Before.Float64()+d.Undrilled.After.Float64() == 0
}

// SeveralPilots reports whether the drills are of more than one pilot.
func (d Drills) SeveralPilots() bool {
	return slices.ContainsFunc(d.Drills, func(o Drill) bool { return o.Pilot != d.Drills[0].Pilot })
}
