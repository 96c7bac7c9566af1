package answers

import (
	"boxbook/report"
	"boxbook/season/analysis"
)

// Panel is the judges over a selection, in JSON. Leniency, its standard
// error and scatter are in grades; leniency is relative to the part, shrunken.
// Noise is in percent.
type Panel struct {
	Judges  []PanelJudge  `json:"judges"`
	Flags   []Flag        `json:"flags"`
	Flights []PanelFlight `json:"flights"`

	Parts []analysis.PanelPart
}

// PanelJudge is one judge over the selection.
type PanelJudge struct {
	Name     string        `json:"name"`
	Part     int           `json:"part"`
	Leniency report.Number `json:"leniency"`
	SE       report.Number `json:"se"`
	Scatter  report.Number `json:"scatter,omitzero"`
	N        int           `json:"n"`
	Flights  int           `json:"flights"`
}

// Flag is a lone grade that stands apart. T and P are absent where only the
// second look, by medians, saw it.
type Flag struct {
	Flight string        `json:"flight,omitempty"`
	Figure int           `json:"figure"`
	Judge  string        `json:"judge"`
	Mark   string        `json:"mark"`
	Fitted report.Number `json:"fitted"`
	T      report.Number `json:"t,omitzero"`
	P      report.Number `json:"p,omitzero"`
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
	if flag.T != 0 {
		d.T, d.P = report.Float(flag.T), report.Float(flag.P)
	}
	return d
}

func PanelOf(p analysis.Panels) Panel {
	d := Panel{Judges: []PanelJudge{}, Flags: []Flag{}, Flights: []PanelFlight{}, Parts: p.Parts}
	for _, j := range p.Judges {
		judge := PanelJudge{
			Name: j.Name, Part: j.Part, Leniency: report.Float(j.Leniency), SE: report.Float(j.SE), N: j.Grades, Flights: j.Flights,
		}
		if j.N > 1 {
			judge.Scatter = report.Float(j.Scatter)
		}
		d.Judges = append(d.Judges, judge)
	}
	for _, flag := range p.Flags {
		d.Flags = append(d.Flags, flagOf(flag, true))
	}
	for _, f := range p.Flights {
		d.Flights = append(d.Flights, PanelFlight{f.Flight.Name, report.Float(f.Check.Noise), report.Float(f.Check.Scatter)})
	}
	return d
}
