package calibration

import (
	"encoding/json"
	"fmt"

	"boxbook/report/answers"
	"boxbook/season"
)

// What is read of the JSON contract; a number that is not known is nil.

// Span is a range.
type Span struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

// Known reports whether there is a range.
func (s Span) Known() bool { return s.Low != nil && s.High != nil }

// Holds reports whether a value is in the range.
func (s Span) Holds(v float64) bool { return s.Known() && *s.Low <= v && v <= *s.High }

// Width is how wide the range is.
func (s Span) Width() float64 { return *s.High - *s.Low }

// SpanOf is a range of two ends.
func SpanOf(low, high float64) Span { return Span{&low, &high} }

// Trend is a trend's word.
type Trend struct {
	Word string `json:"word"`
}

// Firm reports whether a trend is called.
func (t *Trend) Firm() bool { return t != nil && (t.Word == "improving" || t.Word == "declining") }

// Season is what is read of `season`.
type Season struct {
	Trend *Trend `json:"trend"`
	Level *struct {
		Next Span `json:"next"`
	} `json:"level"`
}

// Gate is the state of one gate of `ready`.
type Gate struct {
	Gate  string `json:"gate"`
	State string `json:"state"`
}

// Ready is what is read of `ready`.
type Ready struct {
	Gates []Gate `json:"gates"`
}

// Forecast is what is read of `forecast`.
type Forecast struct {
	Span
	Figures []Span `json:"figures"`
}

// Families is what is read of `families`.
type Families struct {
	Groups []Family `json:"groups"`
}

// Family is one family of `families`.
type Family struct {
	Group      string `json:"group"`
	Weak       bool   `json:"weak"`
	WeakFigure string `json:"weakFigure"`
	Trend      *Trend `json:"trend"`
}

// Drills is what is read of `drills`.
type Drills struct {
	Drills []Drill `json:"drills"`
}

// Drill is one drill of `drills`.
type Drill struct {
	Target string `json:"target"`
	Word   string `json:"word"`
}

// Plan is what is read of `plan`.
type Plan struct {
	Items []struct {
		Group string `json:"group"`
	} `json:"items"`
}

// Program is whoever answers: boxbook, or another to see that the limits break.
type Program struct {
	Season   func(l *season.Ledger) Season
	Ready    func(l *season.Ledger, policy *season.Policy) Ready
	Forecast func(l *season.Ledger, s *season.Sequence) Forecast
	Families func(l *season.Ledger) Families
	Drills   func(l *season.Ledger) Drills
	Plan     func(l *season.Ledger) Plan
}

// Boxbook is the program itself, asked by its JSON.
func Boxbook() Program {
	return Program{
		Season: func(l *season.Ledger) (a Season) {
			read(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0]}), &a)
			return
		},
		Ready: func(l *season.Ledger, policy *season.Policy) (a Ready) {
			read(answers.ReadyOf(l, l.Pilots[0], policy, nil, ""), &a)
			return
		},
		Forecast: func(l *season.Ledger, s *season.Sequence) (a Forecast) {
			read(answers.ForecastOf(l, l.Pilots[0], s, nil), &a)
			return
		},
		Families: func(l *season.Ledger) (a Families) {
			read(answers.FamiliesOf(l, season.Selection{Pilot: l.Pilots[0]}), &a)
			return
		},
		Drills: func(l *season.Ledger) (a Drills) {
			read(answers.DrillsOf(l, season.Selection{Pilot: l.Pilots[0]}), &a)
			return
		},
		Plan: func(l *season.Ledger) (a Plan) {
			read(answers.PlanOf(l, season.Selection{Pilot: l.Pilots[0]}, nil), &a)
			return
		},
	}
}

// read takes an answer through its JSON.
func read(answer, into any) {
	text, err := json.Marshal(answer)
	if err == nil {
		err = json.Unmarshal(text, into)
	}
	if err != nil {
		panic(fmt.Sprintf("%T as JSON: %v", answer, err))
	}
}

// StateOf is the state of a gate, "" where there is no such gate.
func (r Ready) StateOf(name string) string {
	for _, g := range r.Gates {
		if g.Gate == name {
			return g.State
		}
	}
	return ""
}
