package answers

import (
	"fmt"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Plan is where the next points are, in JSON. Gains are percent points of
// the next sequence.
type Plan struct {
	Pilot    string     `json:"pilot"`
	Category string     `json:"category,omitempty"`
	Sequence string     `json:"sequence,omitempty"`
	Items    []PlanItem `json:"items"`
	// Why says what was lacking where there are no items.
	Why string `json:"why,omitempty"`

	Flights int
}

// PlanItem is one recommendation.
type PlanItem struct {
	Group    string        `json:"group"`
	Gain     report.Number `json:"gain"`
	Low      report.Number `json:"low"`
	High     report.Number `json:"high"`
	Evidence string        `json:"evidence"`
	Fault    string        `json:"fault,omitempty"`
	Drill    string        `json:"drill,omitempty"`
	// Seen says in how many flights the fault was noted, since and text what the
	// drill is.
	Seen  int    `json:"seen,omitempty"`
	Since string `json:"since,omitempty"`
	Text  string `json:"text,omitempty"`
	Apart bool   `json:"apart"`
}

func PlanOf(p analysis.Plan) Plan {
	d := Plan{Pilot: p.Pilot.Handle, Category: p.Category, Items: []PlanItem{}, Why: p.Why, Flights: p.Flights}
	if p.Next != nil {
		d.Sequence = p.Next.Handle
	}
	for _, item := range p.Items {
		d.Items = append(d.Items, planItemOf(item))
	}
	return d
}

func planItemOf(i analysis.PlanItem) PlanItem {
	d := PlanItem{
		Group: i.Group, Gain: report.Float(i.Gain), Low: report.Float(i.Low), High: report.Float(i.High), Apart: i.Apart,
		Evidence: fmt.Sprintf("now about %s %%, own best quarter about %s %%, %s %% of the next sequence's K, %s points lost a flight, %s",
			report.Float(i.Level).Text(0), report.Float(i.Best).Text(0), report.Float(100*i.Share).Text(0),
			report.Float(i.LostPerFlight).Text(0), season.Counted(i.Figures, "figure", "figures")),
	}
	if i.Recurring != nil {
		d.Fault, d.Seen = i.Recurring.Kind.Name, i.Recurring.Flights
	}
	if i.Drill != nil {
		d.Drill, d.Since, d.Text = i.Drill.Target, i.Drill.Date.String(), i.Drill.Text
	}
	return d
}
