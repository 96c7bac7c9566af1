package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Drills is what became of drills, in JSON.
type Drills struct {
	Drills []Drill     `json:"drills"`
	Limits DrillLimits `json:"limits"`
}

// DrillLimits are the thresholds that the sentences about drills name: the
// flights looked at on each side, at the least, and how many are left out before
// a drill that names none.
type DrillLimits struct {
	Flights int `json:"flights"`
	LeftOut int `json:"leftOut"`
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
	DrillOthersFell = analysis.DrillOthersFell
	DrillByChance   = analysis.DrillByChance
)

// Drill is one drill. P is one-sided, absent where nothing can be tested;
// undrilled is the mean number of other, undrilled faults per flight before
// and after, each absent where no flight was looked at.
type Drill struct {
	Pilot     string        `json:"pilot"`
	Target    string        `json:"target"`
	Date      string        `json:"date"`
	Text      string        `json:"text,omitempty"`
	By        string        `json:"by,omitempty"`
	Before    DrillSide     `json:"before"`
	After     DrillSide     `json:"after"`
	P         report.Number `json:"p,omitzero"`
	Undrilled *Undrilled    `json:"undrilled,omitempty"`
	Rate      *Rate         `json:"rate,omitempty"`
	Change    *Change       `json:"change,omitempty"`
	Prompted  []string      `json:"prompted"`
	// Ended is the day on which the drill was ended, absent while it is open, and
	// EndedRemark what was said of it then.
	Ended       string `json:"ended,omitempty"`
	EndedRemark string `json:"endedRemark,omitempty"`
	// Apart counts flights of the windows that are not compared, since their
	// sequence was flown on one side of the drill only; for a family group.
	Apart  int         `json:"apart,omitempty"`
	Word   DrillWord   `json:"word"`
	Reason DrillReason `json:"reason,omitempty"`
	// Name is the pilot's. Typed says that the flights that prompted the drill are
	// named in the ledger.
	Name  string `json:"name"`
	Typed bool   `json:"typed,omitempty"`
}

// OnFamily reports whether the drill is on a figure family, and not on a kind
// of fault.
func (d Drill) OnFamily() bool { return season.IsGroup(d.Target) }

// DrillSide counts one window: flights in which the fault was noted, seen
// or felt, of the flights looked at; for a family group the flights and their mean percent
// against the rest.
type DrillSide struct {
	Seen    int           `json:"seen"`
	Flights int           `json:"flights"`
	Faults  int           `json:"faults"`
	Figures int           `json:"figures"`
	Mean    report.Number `json:"mean,omitzero"`
}

// Undrilled is the mean number of other, undrilled faults per flight.
type Undrilled struct {
	Before report.Number `json:"before,omitzero"`
	After  report.Number `json:"after,omitzero"`
}

// Rate is the ratio of faults per figure flown, after to before. P is the
// one-sided chance of so few since if the rates are equal; MidP counts the number
// seen half.
type Rate struct {
	Ratio report.Number `json:"ratio,omitzero"`
	Low   report.Number `json:"low"`
	High  report.Number `json:"high,omitzero"`
	P     report.Number `json:"p"`
	MidP  report.Number `json:"midP"`
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
	d := Drills{Drills: []Drill{}, Limits: DrillLimits{Flights: analysis.DrillSideFlights, LeftOut: analysis.DrillLeftOut}}
	for _, a := range analysis.DrillsOf(l, s) {
		d.Drills = append(d.Drills, drillOf(a))
	}
	return d
}

func drillOf(a analysis.DrillAnswer) Drill {
	d := Drill{
		Pilot: a.Drill.Pilot.Handle, Target: a.Drill.Target, Date: a.Drill.Date.String(), Text: a.Drill.Text,
		Before: drillSide(a.Before), After: drillSide(a.After), Prompted: []string{}, Apart: a.Apart, Word: a.Word, Reason: a.Reason,
		Name: a.Drill.Pilot.Name, Typed: len(a.Drill.Prompted) > 0,
	}
	if a.Drill.By != nil {
		d.By = a.Drill.By.Handle
	}
	if d.Ended = dayOf(a.Ended); d.Ended != "" {
		d.EndedRemark = a.Drill.EndedRemark
	}
	for _, f := range a.Prompted {
		d.Prompted = append(d.Prompted, f.Name)
	}
	if a.Before.Flights > 0 && a.After.Flights > 0 {
		d.P = report.Float(a.P)
	}
	if !d.OnFamily() && a.Before.Flights+a.After.Flights > 0 {
		d.Undrilled = &Undrilled{undrilled(a.Before), undrilled(a.After)}
	}
	if a.HasRate {
		d.Rate = &Rate{
			Ratio: report.Float(a.Rate.Ratio), Low: report.Float(a.Rate.Interval.Low), High: report.Float(a.Rate.Interval.High),
			P: report.Float(a.Rate.Less), MidP: report.Float(a.Rate.MidLess),
		}
	}
	if a.HasChange {
		d.Change = &Change{report.Float(a.Change), report.Float(a.Low), report.Float(a.High), report.Float(a.Confidence)}
	}
	return d
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

// SeveralPilots reports whether the drills are of more than one pilot.
func (d Drills) SeveralPilots() bool {
	return slices.ContainsFunc(d.Drills, func(o Drill) bool { return o.Pilot != d.Drills[0].Pilot })
}
