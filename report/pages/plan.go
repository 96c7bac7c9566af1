package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/season"
	"boxbook/season/analysis"
)

// PlanData is where the next points are, in JSON. Gains are percent points of
// the next sequence.
type PlanData struct {
	Pilot    string         `json:"pilot"`
	Category string         `json:"category,omitempty"`
	Sequence string         `json:"sequence,omitempty"`
	Items    []PlanItemData `json:"items"`
	// Why says what was lacking where there are no items.
	Why string `json:"why,omitempty"`

	flights int
}

// PlanItemData is one recommendation.
type PlanItemData struct {
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

func planData(p analysis.Plan) PlanData {
	d := PlanData{Pilot: p.Pilot.Handle, Category: p.Category, Items: []PlanItemData{}, Why: p.Why, flights: p.Flights}
	if p.Next != nil {
		d.Sequence = p.Next.Handle
	}
	for _, item := range p.Items {
		d.Items = append(d.Items, planItemData(item))
	}
	return d
}

func planItemData(i analysis.PlanItem) PlanItemData {
	d := PlanItemData{
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

// Plan is the page of what to practise next.
func Plan(p analysis.Plan) report.Document {
	d := planData(p)
	doc := report.Document{Title: "Plan, " + p.Pilot.Name, Data: d, Caution: planCaution}
	if d.Category != "" {
		doc.Subtitle = fmt.Sprintf("%s, %s", d.Category, season.Counted(d.flights, "contest flight", "contest flights"))
	}
	thought := report.Section{Blocks: []report.Block{&report.Paragraph{Text: planSentence(d)}}}
	doc.Sections = append(doc.Sections, thought)
	for i, item := range d.Items {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: fmt.Sprintf("%d. %s", i+1, season.GroupTitle(item.Group)), Blocks: []report.Block{planFacts(item)},
		})
	}
	if len(d.Items) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{planNotes(d)}})
	}
	return doc
}

func planSentence(d PlanData) string {
	if len(d.Items) == 0 {
		return "Cannot tell where the next points are: " + d.Why + "."
	}
	first := d.Items[0]
	text := fmt.Sprintf("The next points are in %s: about %s percent points on %s, if it is flown as its best quarter was.",
		season.GroupTitle(first.Group), first.Gain.Text(1), d.Sequence)
	if len(d.Items) > 1 && !first.Apart {
		text += " The first and the second are not told apart."
	}
	return text
}

func planFacts(i PlanItemData) *report.Facts {
	facts := &report.Facts{Items: []report.Fact{
		{Label: "gain", Value: report.Text(fmt.Sprintf("%s percent points (%s to %s, 90 %% sure)", i.Gain.Text(1), i.Low.Text(1), i.High.Text(1)))},
		{Label: "evidence", Value: report.Text(i.Evidence)},
	}}
	if i.Fault != "" {
		addFact(facts, "fault", report.Text(fmt.Sprintf("%s, %s", i.Fault, season.Counted(i.Seen, "flight", "flights"))))
	}
	if i.Drill != "" {
		addFact(facts, "drill", report.Text(drillWords(i)))
	}
	return facts
}

// drillWords says a drill with its date and text.
func drillWords(i PlanItemData) string {
	text := fmt.Sprintf("%s, since %s", season.GroupTitle(i.Drill), i.Since)
	if i.Text != "" {
		text += ": " + i.Text
	}
	return text
}

func planNotes(d PlanData) *report.Notes {
	notes := &report.Notes{}
	for i := 0; i+1 < len(d.Items); i++ {
		if !d.Items[i].Apart {
			addNote(notes, "%d and %d: not told apart, their intervals overlap by more than half", i+1, i+2)
		}
	}
	addNote(notes, "gain: the family's share of the K of %s times the way from its level to the pilot's own best quarter on it, drawn towards the other families by how much of it is chance", d.Sequence)
	return notes
}
