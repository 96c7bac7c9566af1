package answers

import (
	"boxbook/report"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Panel is the judges over a selection, in JSON. Leniency, its standard
// error (by the judge's own scatter) and scatter are in grades; leniency is relative to the part, shrunken.
// Noise is in percent.
type Panel struct {
	// Pilot is whose flights alone were asked for, "" of everybody's.
	Pilot   string        `json:"pilot,omitempty"`
	Judges  []PanelJudge  `json:"judges"`
	Flags   []Flag        `json:"flags"`
	Zeros   []ZeroAlone   `json:"zeros"`
	Flights []PanelFlight `json:"flights"`
	Parts   []PanelPart   `json:"parts"`
	// JudgesNeeded and FiguresNeeded are the least of which anything is said.
	JudgesNeeded  int `json:"judgesNeeded"`
	FiguresNeeded int `json:"figuresNeeded"`
}

// PanelPart is a set of judges who can be compared, counted from 1. Between is
// the standard deviation of their levels, 0 where no judge differs from the
// panel by more than chance; Scatter that of a grade about them, in grades.
type PanelPart struct {
	Between report.Number `json:"between"`
	Scatter report.Number `json:"scatter"`
}

// PanelJudge is one judge over the selection. A seat, such as A or J2, is a
// person only At a contest, or at a flight that names none; Name says both, in
// the words of words.SayPanel. Apart says that the judge differs from the part by
// more than chance; Drawn that this is so only by the mean that others draw, far on the
// other side, which those have in Draws. Hidden says that the judge differs by more than
// chance once those are left out who have Hides, and Without is the leniency then.
type PanelJudge struct {
	Name     string        `json:"name"`
	Judge    string        `json:"judge"`
	At       string        `json:"at,omitempty"`
	Part     int           `json:"part"`
	Leniency report.Number `json:"leniency"`
	SE       report.Number `json:"se"`
	Scatter  report.Number `json:"scatter,omitzero"`
	N        int           `json:"n"`
	Flights  int           `json:"flights"`
	Apart    bool          `json:"apart,omitempty"`
	Drawn    bool          `json:"drawn,omitempty"`
	Draws    bool          `json:"draws,omitempty"`
	Hidden   bool          `json:"hidden,omitempty"`
	Hides    bool          `json:"hides,omitempty"`
	Without  report.Number `json:"leniencyWithout,omitzero"`
	// Flagged counts the judge's lone grades, which no other number here takes in;
	// TimesOthers is the judge's scatter over that of the others, where it is larger by
	// more than chance.
	Flagged     int           `json:"flagged,omitempty"`
	TimesOthers report.Number `json:"timesOthers,omitzero"`
}

// Flag is a lone grade that stands apart. T and P are absent where only the
// second look, by medians, saw it.
type Flag struct {
	Flight string `json:"flight,omitempty"`
	Figure int    `json:"figure"`
	Judge  string `json:"judge"`
	Mark   string `json:"mark"`
	// HardZeros are the others who gave the figure a hard zero, where the grade is
	// 0.0: which may have been typed for one.
	HardZeros int           `json:"hardZeros,omitempty"`
	Fitted    report.Number `json:"fitted"`
	T         report.Number `json:"t,omitzero"`
	P         report.Number `json:"p,omitzero"`
}

// ZeroAlone is a zero where most of the panel gave a grade, or a grade where most gave
// a zero. Nothing else on the page takes it in.
type ZeroAlone struct {
	Flight string `json:"flight"`
	Figure int    `json:"figure"`
	Judge  string `json:"judge"`
	Mark   string `json:"mark"`
}

// PanelFlight is one flight's panel.
type PanelFlight struct {
	Flight  string        `json:"flight"`
	Noise   report.Number `json:"noise"`
	Scatter report.Number `json:"scatter"`
}

func flagOf(flag analysis.MarkFlag, named bool) Flag {
	d := Flag{Figure: flag.Figure, Judge: flag.Judge, Mark: flag.Mark.String(), Fitted: report.Float(flag.Fitted)}
	if named {
		d.Flight = flag.Flight.Name
	}
	if flag.Mark == (scoring.Mark{Kind: scoring.Grade}) {
		d.HardZeros = hardZeros(flag.Flight.MarksOf(flag.Line, flag.Figure))
	}
	if flag.T != 0 {
		d.T, d.P = report.Float(flag.T), report.Float(flag.P)
	}
	return d
}

func hardZeros(marks []scoring.Mark) int {
	n := 0
	for _, m := range marks {
		if m.Kind == scoring.HardZero || m.Kind == scoring.ConfirmedHardZero {
			n++
		}
	}
	return n
}

// PanelOf answers for the contest flights of a selection.
func PanelOf(l *season.Ledger, s season.Selection) Panel {
	p := analysis.PanelsOf(l, s)
	d := Panel{
		Judges: []PanelJudge{}, Flags: []Flag{}, Zeros: []ZeroAlone{}, Flights: []PanelFlight{}, Parts: []PanelPart{},
		JudgesNeeded: analysis.PanelJudges, FiguresNeeded: analysis.PanelFigures,
	}
	if s.Pilot != nil {
		d.Pilot = s.Pilot.Handle
	}
	for _, j := range p.Judges {
		d.Judges = append(d.Judges, panelJudge(j))
	}
	for _, flag := range p.Flags {
		d.Flags = append(d.Flags, flagOf(flag, true))
	}
	for _, z := range p.Zeros {
		d.Zeros = append(d.Zeros, ZeroAlone{z.Flight.Name, z.Figure, z.Judge, z.Mark.String()})
	}
	for _, f := range p.Flights {
		d.Flights = append(d.Flights, PanelFlight{f.Flight.Name, report.Float(f.Check.Noise), report.Float(f.Check.Scatter)})
	}
	for _, part := range p.Parts {
		d.Parts = append(d.Parts, PanelPart{report.Float(part.Between), report.Float(part.Scatter)})
	}
	return d
}

func panelJudge(j analysis.SeasonJudge) PanelJudge {
	judge := PanelJudge{
		Judge: j.Name, At: j.At, Part: j.Part, Leniency: report.Float(j.Leniency), SE: report.Float(j.SE),
		N: j.Grades, Flights: j.Flights, Apart: j.Apart, Drawn: j.Drawn, Draws: j.Draws, Hidden: j.Hidden, Hides: j.Hides, Flagged: j.Flagged,
	}
	if j.Times > 0 {
		judge.TimesOthers = report.Float(j.Times)
	}
	if j.Hidden {
		judge.Without = report.Float(j.Without)
	}
	if j.N > 1 {
		judge.Scatter = report.Float(j.Scatter)
	}
	return judge
}
