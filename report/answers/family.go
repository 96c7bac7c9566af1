package answers

import (
	"slices"

	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Family is one trend group, or one figure of a sequence, over time, in JSON: a
// row a flight. Best is the best percent of any season in front of judges, in the
// category asked for if one was, in BestFlight; absent where there is none. VersusRest is the mean of the rows'
// comparisons, over Compared flights in front of judges; where a figure was zeroed in
// ZeroFlights of these, VersusRestWithoutZeros is that of the others, absent where
// there are none. Drills are those on it and
// on the kinds of fault noted on it. Figure is absent for a group.
type Family struct {
	Pilot      string         `json:"pilot"`
	Key        string         `json:"key"`
	Groups     []string       `json:"groups"`
	Figure     int            `json:"figure,omitempty"`
	Label      string         `json:"label,omitempty"`
	Flights    []FamilyFlight `json:"flights"`
	Best       report.Number  `json:"best,omitzero"`
	BestFlight string         `json:"bestFlight,omitempty"`
	VersusRest report.Number  `json:"versusRest,omitzero"`
	Compared   int            `json:"compared"`

	VersusRestWithoutZeros report.Number `json:"versusRestWithoutZeros,omitzero"`
	ZeroFlights            int           `json:"zeroFlights,omitempty"`

	Drills []Drill     `json:"drills"`
	Limits DrillLimits `json:"limits"`
}

// FamilyFlight is a flight: its figures with the family, and their percent, weighed
// by the K that belongs to it. VersusRest is that less the percent of the flight's
// other figures, absent where these are too few. Zeroed are the figures of either
// that were zeroed.
type FamilyFlight struct {
	Flight      string         `json:"flight"`
	Date        string         `json:"date"`
	Contest     string         `json:"contest,omitempty"`
	ContestName string         `json:"contestName,omitempty"`
	Programme   string         `json:"programme"`
	Category    string         `json:"category,omitempty"`
	Figures     []FamilyFigure `json:"figures"`
	Percent     report.Number  `json:"percent"`
	VersusRest  report.Number  `json:"versusRest,omitzero"`
	Zeroed      []int          `json:"zeroed,omitempty"`
	Faults      []FamilyFault  `json:"faults"`
}

// OwnZero reports whether one of the flight's figures with the family was zeroed.
func (f FamilyFlight) OwnZero() bool {
	return slices.ContainsFunc(f.Figures, func(own FamilyFigure) bool { return slices.Contains(f.Zeroed, own.Number) })
}

// RestZero reports whether the comparison with the rest has a zeroed figure in it.
func (f FamilyFlight) RestZero() bool { return len(f.Zeroed) > 0 && f.VersusRest.Known() }

// FamilyFigure is a figure with its marks, of a figure that was flown several times
// those of its first row; Mean is what it counts.
type FamilyFigure struct {
	Number int           `json:"number"`
	Label  string        `json:"label,omitempty"`
	Marks  []string      `json:"marks"`
	Mean   report.Number `json:"mean"`
}

// FamilyFault is a fault noted, once or more, as it counts.
type FamilyFault struct {
	Figure int    `json:"figure"`
	Kind   string `json:"kind"`
	Times  int    `json:"times"`
	Seen   bool   `json:"seen"`
}

// FamilyOf follows a family or a figure over the selection's flights; key is how
// it was named.
func FamilyOf(l *season.Ledger, s season.Selection, key analysis.FamilyKey, named string) Family {
	over := analysis.FamilyOver(l, s, key)
	d := Family{
		Pilot: s.Pilot.Handle, Key: named, Groups: listOf(key.Groups()), Flights: []FamilyFlight{}, Drills: []Drill{},
		Compared: over.Compared,
	}
	if key.Sequence != nil {
		d.Figure, d.Label = key.Figure, labelIn(key.Sequence, key.Figure)
	}
	if over.Compared > 0 {
		d.VersusRest = report.Float(over.VersusRest)
	}
	if d.ZeroFlights = over.Zeros; over.Zeros > 0 && over.Zeros < over.Compared {
		d.VersusRestWithoutZeros = report.Float(over.WithoutZeros)
	}
	if over.Best >= 0 {
		d.Best, d.BestFlight = report.Float(over.All[over.Best].Percent), over.All[over.Best].Flight.Name
	}
	for _, row := range over.Flights {
		d.Flights = append(d.Flights, familyFlight(row))
	}
	d.addDrills(DrillsOf(l.KnownTo(s), season.Selection{Pilot: s.Pilot}), over.All)
	return d
}

// addDrills keeps the drills on the key's groups and on what was noted on it.
func (d *Family) addDrills(all Drills, rows []analysis.FamilyFlight) {
	d.Limits = all.Limits
	noted := func(kind string) bool {
		return slices.ContainsFunc(rows, func(row analysis.FamilyFlight) bool {
			return slices.ContainsFunc(row.Faults, func(n season.NotedFault) bool { return n.Kind.Name == kind })
		})
	}
	for _, drill := range all.Drills {
		if slices.Contains(d.Groups, drill.Target) || noted(drill.Target) {
			d.Drills = append(d.Drills, drill)
		}
	}
}

func familyFlight(row analysis.FamilyFlight) FamilyFlight {
	f := row.Flight
	d := FamilyFlight{
		Flight: f.Name, Date: f.Date.String(), Programme: string(f.Programme), Category: f.Category, Figures: []FamilyFigure{},
		Percent: report.Float(row.Percent), VersusRest: report.Float(row.VersusRest), Zeroed: row.Zeroed, Faults: []FamilyFault{},
	}
	if f.Contest != nil {
		d.Contest, d.ContestName = f.Contest.Handle, f.Contest.Name
	}
	for i, at := range f.Flown() {
		if number := at + 1; slices.Contains(row.Figures, number) {
			d.Figures = append(d.Figures, FamilyFigure{
				number, labelIn(f.Sequence, number), marksOf(f.MarksOf(scoring.Figure, number)), report.Exact(f.Score().Lines[i].Mean),
			})
		}
	}
	for _, n := range row.Faults {
		d.Faults = append(d.Faults, FamilyFault{n.Figure, n.Kind.Name, n.Times, n.Seen})
	}
	return d
}

func marksOf(marks []scoring.Mark) []string {
	said := make([]string, len(marks))
	for i, m := range marks {
		said[i] = m.String()
	}
	return said
}
