package answers

import (
	"cmp"
	"math"
	"slices"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// TalkPoints is how many points to talk about a debrief has at the most.
const TalkPoints = 3

// Debrief is a flight to talk over, in JSON: the flight's fields and, beside
// them, what was noted on each figure, the points to talk about, what comes back and
// what is open. Agenda says the Talk in words, made by words.SayDebrief.
type Debrief struct {
	Flight
	Rows      []DebriefRow `json:"rows"`
	Agenda    []string     `json:"agenda"`
	Talk      []TalkPoint  `json:"talk"`
	Recurring []FaultKind  `json:"recurring"`
	// RecurringOn is the day that what comes back is counted to, where that is long
	// after the flight.
	RecurringOn string      `json:"recurringOn,omitempty"`
	Drills      []string    `json:"drills"`        // targets of the open drills, the latest first
	Set         []DrillSet  `json:"set,omitempty"` // on the flight's day, for the pilot
	Open        []Open      `json:"open"`
	Limits      FaultLimits `json:"limits"`
}

// DrillSet is a drill as it was set.
type DrillSet struct {
	Target string `json:"target"`
	Text   string `json:"text,omitempty"`
}

// DebriefRow is a line of the sheet, or a figure that was not marked and has
// faults; Line is "figure", "positioning", "harmony", or "flight" for the faults
// of the flight as a whole. Noted are the places of its faults among the flight's.
// Where the figure was flown several times, Marks and Cells are of the first, Given is
// the mean, and Rows are each time by itself.
type DebriefRow struct {
	Line     string        `json:"line"`
	Figure   int           `json:"figure,omitempty"`
	Label    string        `json:"label,omitempty"`
	Marks    []string      `json:"marks"`
	Cells    []MarkCell    `json:"cells,omitempty"` // how each mark counts
	Rows     []Line        `json:"rows,omitempty"`
	K        int           `json:"k,omitempty"`
	Given    report.Number `json:"given,omitzero"`
	Lost     report.Number `json:"lost,omitzero"` // points
	Expected report.Number `json:"expected,omitzero"`
	// Unpriced says that expected is the most it can be.
	Unpriced bool  `json:"unpriced,omitempty"`
	Noted    []int `json:"noted"`
}

// WholeFlight is the row of the faults of the flight as a whole.
const WholeFlight = "flight"

// TalkAbout says what a point to talk about is.
type TalkAbout string

// What there is to talk about, in the order in which it comes.
const (
	TalkLow      TalkAbout = "low"       // a penalty for flying too low
	TalkZero     TalkAbout = "zero"      // a figure is 0
	TalkOpen     TalkAbout = "undecided" // a figure waits for a ruling
	TalkFault    TalkAbout = "fault"     // noted on the flight
	TalkBack     TalkAbout = "recurring" // comes back
	TalkSomeZero TalkAbout = "some-zero" // some judges' hard zero, which does not make the figure 0
	TalkGrade    TalkAbout = "grade"     // one judge stands alone
	TalkOfficial TalkAbout = "official"  // the printed total is not that of the marks
	TalkLoss     TalkAbout = "loss"      // cost most, where nothing else is of that figure
)

// TalkPoint is a point to talk about. A penalty has its place among the flight's
// penalties and its points. A zeroed figure has its place among the
// flight's figures and the points lost, as has one with some judges' hard zero; an
// undecided one has its place. A fault has its figure, its place among the
// flight's faults and the points that it takes; what comes back its place among
// Recurring, a grade its place among Flags. The largest loss has its figure, its place
// among the flight's figures and the points lost.
type TalkPoint struct {
	About  TalkAbout     `json:"about"`
	Figure int           `json:"figure,omitempty"`
	Label  string        `json:"label,omitempty"`
	Kind   string        `json:"kind,omitempty"`
	Says   string        `json:"says,omitempty"`
	At     int           `json:"at"`
	Points report.Number `json:"points,omitzero"`
}

// LongAfter is from how many days on what comes back is of another time than a flight.
const LongAfter = 180

// DebriefOf is a flight with what there is to talk about.
func DebriefOf(l *season.Ledger, f *season.Flight) Debrief {
	back := analysis.ComesBack(l, f.Pilot)
	d := Debrief{
		Flight: FlightOf(f), Agenda: []string{}, Talk: []TalkPoint{},
		Recurring: kindsOf(back[:min(analysis.RecurringNamed, len(back))]), Open: openOf(analysis.OpenMatters(l, f.Pilot)),
		Drills: openDrills(l, f.Pilot),
		Limits: FaultLimits{analysis.RecurringFlights, analysis.RecurringNamed, analysis.RecurringDays},
	}
	if l.AsOf-f.Date > LongAfter {
		d.RecurringOn = l.AsOf.String()
	}
	for _, drill := range l.Drills {
		if drill.Pilot == f.Pilot && drill.Date == f.Date {
			d.Set = append(d.Set, DrillSet{drill.Target, drill.Text})
		}
	}
	d.Flight.addMatters(l, f)
	d.Rows = debriefRows(f, d.Flight)
	d.addTalk(f)
	return d
}

// addTalk collects the points to talk about: what was flown too low, which is more
// than points; zeroed figures, the one that
// cost most before the others, figures that wait for a ruling, then the dearest noted faults, what comes back, a
// lone grade, a disputed total. What comes back does for any flight: where it has a
// place, it leaves the others to what this flight has. The largest loss is among them
// where none is of a figure, else behind them as far as there is room.
func (d *Debrief) addTalk(f *season.Flight) {
	d.Talk = slices.Concat(d.low(), d.zeroes(), d.undecided())
	for _, c := range analysis.DearestFaults(f) {
		if slices.ContainsFunc(d.Talk, func(p TalkPoint) bool { return p.About == TalkZero && p.Figure == c.Fault.Figure }) {
			continue // it says why
		}
		d.Talk = append(d.Talk, TalkPoint{
			About: TalkFault, Figure: c.Fault.Figure, Label: labelIn(f.Sequence, c.Fault.Figure), Kind: c.Fault.Kind.Name,
			Says: c.Fault.Kind.Says, At: c.Fault.Lines[0], Points: report.Exact(c.Points),
		})
	}
	var back, own []TalkPoint
	for i, k := range d.Recurring {
		if !slices.ContainsFunc(d.Talk, func(p TalkPoint) bool { return p.Kind == k.Kind }) {
			back = append(back, TalkPoint{About: TalkBack, Kind: k.Kind, Says: k.Says, At: i})
		}
	}
	own = append(own, d.someZeros()...)
	if i := mostAlone(d.Flags); i >= 0 {
		figure := d.Flags[i].Figure
		own = append(own, TalkPoint{About: TalkGrade, Figure: figure, Label: labelIn(f.Sequence, figure), At: i})
	}
	if f.Disputed() != nil {
		own = append(own, TalkPoint{About: TalkOfficial})
	}
	if !slices.ContainsFunc(slices.Concat(d.Talk, own), func(p TalkPoint) bool { return p.Figure > 0 }) {
		d.Talk = append(d.Talk, d.largestLoss()...)
	}
	room := max(1, TalkPoints-len(d.Talk)-len(own))
	d.Talk = slices.Concat(d.Talk, back[:min(room, len(back))], own)
	for _, loss := range d.largestLoss() {
		if !slices.ContainsFunc(d.Talk, func(p TalkPoint) bool { return p.Figure == loss.Figure }) {
			d.Talk = append(d.Talk, loss)
		}
	}
	d.Talk = append([]TalkPoint{}, d.Talk[:min(TalkPoints, len(d.Talk))]...)
}

// someZeros is the figure with most hard zeros of those that they do not make 0, the first
// of equals; none where there is none.
func (d *Debrief) someZeros() []TalkPoint {
	most := -1
	for i, figure := range d.Figures {
		if some := figure.Vote != nil && figure.Vote.HardZeros > 0 && figure.Mean.Known() && figure.Mean.Rat().Sign() > 0; some &&
			(most < 0 || figure.Vote.HardZeros > d.Figures[most].Vote.HardZeros) {
			most = i
		}
	}
	if most < 0 {
		return nil
	}
	figure := d.Figures[most]
	return []TalkPoint{{About: TalkSomeZero, Figure: figure.Number, Label: figure.Label, At: most, Points: figure.Lost}}
}

// largestLoss is the figure that cost most, the first of equals; none where none cost
// anything.
func (d *Debrief) largestLoss() []TalkPoint {
	most := -1
	for i, figure := range d.Figures {
		if lost := figure.Lost; lost.Known() && lost.Rat().Sign() > 0 && (most < 0 || lost.Rat().Cmp(d.Figures[most].Lost.Rat()) > 0) {
			most = i
		}
	}
	if most < 0 {
		return nil
	}
	figure := d.Figures[most]
	return []TalkPoint{{About: TalkLoss, Figure: figure.Number, Label: figure.Label, At: most, Points: figure.Lost}}
}

// low are the penalties for flying too low.
func (d *Debrief) low() []TalkPoint {
	talk := []TalkPoint{}
	for i, p := range d.Penalties {
		if p.Kind == string(season.PenaltyLow) {
			talk = append(talk, TalkPoint{About: TalkLow, At: i, Points: p.Points})
		}
	}
	return talk
}

// zeroes are the figures that are 0, the one that cost most first.
func (d *Debrief) zeroes() []TalkPoint {
	talk := []TalkPoint{}
	for i, figure := range d.Figures {
		if mean := figure.Mean.Rat(); mean != nil && mean.Sign() == 0 {
			talk = append(talk, TalkPoint{About: TalkZero, Figure: figure.Number, Label: figure.Label, At: i, Points: figure.Lost})
		}
	}
	slices.SortStableFunc(talk, func(a, b TalkPoint) int { return cmp.Compare(b.Points.Float64(), a.Points.Float64()) })
	return talk
}

// undecided are the figures that wait for a ruling.
func (d *Debrief) undecided() []TalkPoint {
	var talk []TalkPoint
	for i, figure := range d.Figures {
		if figure.Ruling == RulingUndecided {
			talk = append(talk, TalkPoint{About: TalkOpen, Figure: figure.Number, Label: figure.Label, At: i})
		}
	}
	return talk
}

// mostAlone is the place of the grade farthest from what the others say, of a
// figure; -1 where there is none.
func mostAlone(flags []Flag) int {
	most := -1
	apart := func(i int) float64 { return math.Abs(flags[i].T.Float64()) }
	for i, flag := range flags {
		if flag.Figure > 0 && (most < 0 || apart(i) > apart(most)) {
			most = i
		}
	}
	return most
}

// debriefRows lay the faults beside the lines of the sheet; where nothing was
// marked, beside the figures that have some.
func debriefRows(f *season.Flight, d Flight) []DebriefRow {
	rows := []DebriefRow{}
	for _, figure := range d.Figures {
		rows = append(rows, DebriefRow{
			Line: "figure", Figure: figure.Number, Label: FigureLabel(figure), Marks: figure.Marks, Cells: figure.Cells, Rows: figure.Rows, K: figure.K, Given: figure.Mean, Lost: figure.Lost,
			Noted: notedOn(d, figure.Number),
		})
	}
	for i, fault := range d.Faults {
		if fault.Figure > 0 && !slices.ContainsFunc(rows, func(r DebriefRow) bool { return r.Figure == d.Faults[i].Figure }) {
			rows = append(rows, DebriefRow{
				Line: "figure", Figure: fault.Figure, Label: sequenceLabel(f, fault.Figure), Marks: []string{}, K: f.FigureK(fault.Figure), Noted: notedOn(d, fault.Figure),
			})
		}
	}
	slices.SortStableFunc(rows, func(a, b DebriefRow) int { return cmp.Compare(a.Figure, b.Figure) })
	for i := range rows {
		rows[i].expect(d.Expected)
	}
	for _, line := range []struct {
		name string
		of   *Line
	}{{"positioning", d.Positioning}, {"harmony", d.Harmony}} {
		if line.of != nil {
			rows = append(rows, DebriefRow{Line: line.name, Marks: line.of.Marks, Cells: line.of.Cells, K: line.of.K, Given: line.of.Mean, Lost: line.of.Lost, Noted: []int{}})
		}
	}
	if whole := notedOn(d, 0); len(whole) > 0 {
		rows = append(rows, DebriefRow{Line: WholeFlight, Marks: []string{}, Noted: whole})
	}
	return rows
}

// sequenceLabel is a figure's label, "" where no sequence has it.
func sequenceLabel(f *season.Flight, figure int) string {
	if f.FigureK(figure) == 0 {
		return ""
	}
	return labelIn(f.Sequence, figure)
}

// notedOn are the places of the faults of a figure, 0 for the flight as a whole.
func notedOn(d Flight, figure int) []int {
	noted := []int{}
	for i, fault := range d.Faults {
		if fault.Figure == figure {
			noted = append(noted, i)
		}
	}
	return noted
}

// expect fills the grade that the figure's faults should have left.
func (r *DebriefRow) expect(expected []Expected) {
	for _, e := range expected {
		if e.Figure == r.Figure {
			r.Expected, r.Unpriced = e.Expected, e.Unpriced
		}
	}
}

// DebriefForm is the sequence of a flight as a form to be filled in, in JSON.
type DebriefForm struct {
	Flight    string       `json:"flight"`
	PilotName string       `json:"pilotName"`
	Sequence  string       `json:"sequence"`
	Figures   []FormFigure `json:"figures"`
	Lines     []FormFigure `json:"lines"`
	Talk      int          `json:"talk"`
}

// FormFigure is a figure of the form, or a weighted line, which has no number.
type FormFigure struct {
	Number int    `json:"number,omitempty"`
	Label  string `json:"label"`
	K      int    `json:"k"`
}

// DebriefFormOf is the form of a flight that has a sequence.
func DebriefFormOf(f *season.Flight) DebriefForm {
	d := DebriefForm{
		Flight: f.Name, PilotName: f.Pilot.Name, Sequence: f.Sequence.Handle, Talk: TalkPoints, Figures: []FormFigure{}, Lines: []FormFigure{},
	}
	for i, figure := range f.Sequence.Figures {
		d.Figures = append(d.Figures, FormFigure{i + 1, labelIn(f.Sequence, i+1), figure.K})
	}
	for _, line := range []FormFigure{{Label: "positioning", K: f.Sequence.Positioning}, {Label: "harmony", K: f.Sequence.Harmony}} {
		if line.K > 0 {
			d.Lines = append(d.Lines, line)
		}
	}
	return d
}
