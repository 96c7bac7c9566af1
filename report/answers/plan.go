package answers

import (
	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Plan is where the next points are, in JSON. Gains are percent points of
// the next sequence, their intervals of the confidence. Why says in words what
// was lacking where there are no items, which lack gives as it is.
type Plan struct {
	Pilot      string        `json:"pilot"`
	Category   string        `json:"category,omitempty"`
	Flights    int           `json:"flights"`
	Sequence   string        `json:"sequence,omitempty"`
	Confidence report.Number `json:"confidence"`
	Items      []PlanItem    `json:"items"`
	Why        string        `json:"why,omitempty"`
	Lack       *Lack         `json:"lack,omitempty"`
	NotFlown
	Open []Open `json:"open"`
}

// PlanItem is one recommendation. Evidence is in words: level and best are the
// family's percent and that of its best quarter, share its part of the next
// sequence's K between 0 and 1, lostPerFlight points.
type PlanItem struct {
	Group         string        `json:"group"`
	Gain          report.Number `json:"gain"`
	Low           report.Number `json:"low"`
	High          report.Number `json:"high"`
	Evidence      string        `json:"evidence"`
	Level         report.Number `json:"level"`
	Best          report.Number `json:"best"`
	Share         report.Number `json:"share"`
	LostPerFlight report.Number `json:"lostPerFlight"`
	Figures       int           `json:"figures"`
	Fault         string        `json:"fault,omitempty"`
	Drill         string        `json:"drill,omitempty"`
	// Seen says in how many flights the fault was noted, since and text what the
	// drill is.
	Seen  int    `json:"seen,omitempty"`
	Since string `json:"since,omitempty"`
	Text  string `json:"text,omitempty"`
	// Ended is the day on which the drill was ended, absent while it is open.
	Ended string `json:"ended,omitempty"`
	Apart bool   `json:"apart"`
}

// PlanItems is how many recommendations a plan has at the most.
const PlanItems = analysis.PlanItems

// PlanOf answers for the contest flights of one category, the one flown last
// where the selection names none. Its sentences are made by words.SayPlan.
func PlanOf(l *season.Ledger, s season.Selection) Plan {
	p := analysis.PlanOf(l, s)
	d := Plan{
		Pilot: p.Pilot.Handle, Category: p.Category, Flights: p.Flights,
		Confidence: report.Float(analysis.PlanConfidence), Items: []PlanItem{},
	}
	if p.Next != nil {
		d.Sequence = p.Next.Handle
	}
	for _, item := range p.Items {
		d.Items = append(d.Items, planItemOf(item))
	}
	d.NotFlown, d.Open = notFlownOf(p.NotFlown), openOf(p.Open)
	if len(d.Items) == 0 {
		d.Lack = lackOf(p.Lack)
	}
	return d
}

func planItemOf(i analysis.PlanItem) PlanItem {
	d := PlanItem{
		Group: i.Group, Gain: report.Float(i.Gain), Low: report.Float(i.Low), High: report.Float(i.High),
		Level: report.Float(i.Level), Best: report.Float(i.Best), Share: report.Float(i.Share),
		LostPerFlight: report.Float(i.LostPerFlight), Figures: i.Figures, Apart: i.Apart,
	}
	if i.Recurring != nil {
		d.Fault, d.Seen = i.Recurring.Kind.Name, i.Recurring.Flights
	}
	if i.Drill != nil {
		d.Drill, d.Since, d.Text = i.Drill.Target, i.Drill.Date.String(), i.Drill.Text
		d.Ended = dayOf(i.Ended)
	}
	return d
}
