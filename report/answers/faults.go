package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Faults is a pilot's faults over a selection of flights, in JSON.
type Faults struct {
	Pilot  string `json:"pilot"`
	Season int    `json:"season,omitempty"`
	// Reviewed counts the flights looked at: with a fault line or a review.
	Reviewed int         `json:"reviewed"`
	Kinds    []FaultKind `json:"kinds"`
	// Recurring are the three kinds that come back most, over all groups: by the
	// share of flights since the latest drill on each, or before it until enough since
	// could show it, of the reviewed flights of Limits.Days that could, whatever was
	// selected. Without are those that come back and have no open drill.
	Recurring []FaultKind `json:"recurring"`
	Without   []FaultKind `json:"without"`
	// Untold are the kinds that come back as if they had no drill, but of which too few
	// flights since it tell: SeenSince of ExposedSince; absent where there is none.
	Untold []FaultKind `json:"untold,omitempty"`
	Open   []Open      `json:"open"`
	// Matters are those of safety that the selected flights brought to light, oldest
	// first, open or closed.
	Matters     []Matter    `json:"matters,omitempty"`
	Calibration Calibration `json:"calibration"`
	Limits      FaultLimits `json:"limits"`
}

// FaultLimits are the thresholds that the sentences about faults name: how many
// flights must have been looked at to tell what comes back, and how many kinds
// are named.
type FaultLimits struct {
	Flights int `json:"flights"`
	Named   int `json:"named"`
	Days    int `json:"days"`
}

// FaultKind is one kind of fault in one trend group, or all of a kind, in
// the group that all of it was in. Points are at stake,
// deduction x K as noted, absent where none are known; Unknown counts the seen
// faults without. Flights are those with it, of the Exposed that could show it.
// Since is the date of the first flight of any season with it, Drill that of the
// latest drill set, DrillText what it is. Says is the kind in words, absent
// where the ledger has none. PerFlight is points a flight that could show it.
type FaultKind struct {
	Kind    string        `json:"kind"`
	Group   string        `json:"group,omitempty"`
	Flights int           `json:"flights"`
	Exposed int           `json:"exposed"`
	Count   int           `json:"count"`
	Points  report.Number `json:"points,omitzero"`
	Seen    int           `json:"seen"`
	Felt    int           `json:"felt"`
	Since   string        `json:"since"`
	Drill   string        `json:"drill,omitempty"`
	Unknown int           `json:"unknown,omitempty"`
	// Safety says that it is a matter of safety, which costs no points.
	Safety bool `json:"safety,omitempty"`

	Says      string `json:"says,omitempty"`
	DrillText string `json:"drillText,omitempty"`
	// DrillEnded is the day on which that drill was ended, absent while it is open.
	DrillEnded string `json:"drillEnded,omitempty"`
	// BeforeDrill says that too few reviewed flights since that drill could show it: what
	// comes back is counted in flights before it. It was noted in SeenSince of the
	// ExposedSince since.
	BeforeDrill  bool `json:"beforeDrill,omitempty"`
	SeenSince    int  `json:"seenSince,omitempty"`
	ExposedSince int  `json:"exposedSince,omitempty"`
	// Alone says that it was noted in contest flights alone, or in practice alone, and
	// Contests counts the contest flights of flights and exposed; absent where it was
	// noted in both, or too few of the others could have shown it.
	Alone    analysis.Alone `json:"alone,omitempty"`
	Contests *FaultContests `json:"contests,omitempty"`
	// DrillBeside is the family of an open drill where some of the kind was noted, and
	// no drill is set on all of it.
	DrillBeside string        `json:"drillBeside,omitempty"`
	PerFlight   report.Number `json:"perFlight,omitzero"`
	// DrillWord is the verdict on the drill of what comes back in spite of it; absent of
	// any other.
	DrillWord DrillWord `json:"drillWord,omitempty"`
	// DrillAgain is in how many of the last flights since, on end, it was noted again after
	// it fell, or may have.
	DrillAgain int `json:"drillAgain,omitempty"`
}

// DrillHelped reports whether that drill worked or may have, and nothing says that what
// it was set on is there again.
func (k FaultKind) DrillHelped() bool { return k.DrillWord.Told() && k.DrillAgain == 0 }

// despiteOf is what comes back in spite of a drill, nil for none.
func despiteOf(row *analysis.RecurringKind, drill analysis.DrillAnswer) *FaultKind {
	if row == nil {
		return nil
	}
	k := kindsOf([]analysis.RecurringKind{*row})[0]
	k.DrillWord, k.DrillAgain = drill.Word, drill.Again
	return &k
}

// EnoughSince reports whether flights enough since its drill could show the kind, so that
// where it still stands as before it they are of the other sort.
func (k FaultKind) EnoughSince() bool { return k.ExposedSince >= analysis.RecurringFlights }

// Where a kind was noted.
const (
	Anywhere      = analysis.Anywhere
	ContestsAlone = analysis.ContestsAlone
	PracticeAlone = analysis.PracticeAlone
)

// FaultContests counts contest flights: with a kind, of those that could show it.
type FaultContests struct {
	Flights int `json:"flights"`
	Exposed int `json:"exposed"`
}

// Open is a matter that stays open until it is closed. Says is the kind in words,
// absent where the ledger has none.
type Open struct {
	Flight string `json:"flight"`
	Kind   string `json:"kind"`
	Remark string `json:"remark,omitempty"`
	Says   string `json:"says,omitempty"`
}

// Calibration is expected minus given in grades over all figures with seen
// faults: mean, standard deviation and number of figures. Graded is the mean without
// the zeroed of them, absent where none is or nothing is left.
type Calibration struct {
	Bias   report.Number `json:"bias,omitzero"`
	Spread report.Number `json:"spread,omitzero"`
	N      int           `json:"n"`
	Zeroed int           `json:"zeroed,omitempty"`
	Graded report.Number `json:"graded,omitzero"`
}

// FaultsOf are the faults of the selection's pilot over the selected flights.
func FaultsOf(l *season.Ledger, s season.Selection) Faults {
	t := analysis.FaultsOf(l, s)
	d := Faults{
		Pilot: s.Pilot.Handle, Season: s.Season, Limits: FaultLimits{Flights: analysis.RecurringFlights, Named: analysis.RecurringNamed, Days: analysis.RecurringDays}, Reviewed: t.Watched, Open: openOf(t.Open), Matters: mattersOf(t.Matters),
		Kinds: kindsOf(t.Rows), Recurring: kindsOf(t.Back), Without: kindsOf(t.Without), Untold: kindsOf(t.Untold),
		Calibration: Calibration{report.Exact(t.Calibration.Bias), report.Float(t.Calibration.Spread), t.Calibration.N, t.Calibration.Zeroed, report.Exact(t.Calibration.Graded)},
	}
	return d
}

// openOf are the matters that stand open.
func openOf(matters []analysis.OpenMatter) []Open {
	open := []Open{}
	for _, m := range matters {
		open = append(open, Open{m.Flight.Name, m.Fault.Kind.Name, m.Fault.Remark, m.Fault.Kind.Says})
	}
	return open
}

func kindsOf(rows []analysis.RecurringKind) []FaultKind {
	kinds := []FaultKind{}
	for _, row := range rows {
		data := FaultKind{
			Kind: row.Kind.Name, Group: row.Group, Flights: row.Flights, Exposed: row.Exposed, Count: row.Count, Seen: row.Seen, Felt: row.Felt,
			Since: row.Since.String(), Unknown: row.Unknown, Safety: row.Kind.Safety, Says: row.Kind.Says,
		}
		if row.Unknown == 0 || row.Points.Sign() > 0 {
			data.Points = report.Exact(row.Points)
			data.PerFlight = report.Exact(new(big.Rat).Quo(row.Points, whole(row.Exposed)))
		}
		if row.Drill != nil {
			data.Drill, data.DrillText = row.Drill.Date.String(), row.Drill.Text
			data.DrillEnded, data.BeforeDrill = dayOf(row.Ended), row.BeforeDrill
			data.SeenSince, data.ExposedSince = row.SinceFlights, row.SinceExposed
		}
		if row.Beside != nil {
			data.DrillBeside = row.Beside.Target
		}
		if data.Alone = row.Alone(); data.Alone != Anywhere {
			data.Contests = &FaultContests{row.Contests.Seen, row.Contests.Exposed}
		}
		kinds = append(kinds, data)
	}
	return kinds
}
