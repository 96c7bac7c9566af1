package words

import (
	"fmt"

	"boxbook/report/answers"
)

// SayPlan fills the sentences of an answer: what the items rest on, or why there
// are none.
func SayPlan(d answers.Plan) answers.Plan {
	items := make([]answers.PlanItem, len(d.Items))
	for i, item := range d.Items {
		item.Evidence = planEvidence(item)
		items[i] = item
	}
	d.Items, d.Why = items, ""
	if d.Lack != nil {
		d.Why = lack(*d.Lack).plan()
	}
	return d
}

// planEvidence says what a gain rests on.
func planEvidence(i answers.PlanItem) string {
	return fmt.Sprintf("now about %s %%, own best quarter about %s %%, %s %% of the next sequence's K, %s points lost a flight, %s",
		i.Level.Text(0), i.Best.Text(0), Percent(i.Share).Text(0), i.LostPerFlight.Text(0), Counted(i.Figures, "figure", "figures"))
}

// PlanSubtitle says what a plan rests on; "" where nothing was flown.
func PlanSubtitle(d answers.Plan) string {
	if d.Category == "" {
		return ""
	}
	return Counted(d.Flights, "contest flight", "contest flights")
}

// PlanHeading stands over one recommendation, numbered from 1.
func PlanHeading(number int, i answers.PlanItem) string {
	return fmt.Sprintf("%d. %s", number, GroupTitle(i.Group))
}

// PlanSentence is the first recommendation, or why there is none.
func PlanSentence(d answers.Plan) string {
	if len(d.Items) == 0 {
		return "Cannot tell where the next points are: " + d.Why + "."
	}
	first := d.Items[0]
	text := fmt.Sprintf("The next points are in %s: about %s percent points on %s, if it is flown as its best quarter was.",
		GroupTitle(first.Group), first.Gain.Text(1), d.Sequence)
	if len(d.Items) > 1 && !first.Apart {
		text += " The first and the second are not told apart."
	}
	return text
}

// GainWords say a gain with its interval.
func GainWords(d answers.Plan, i answers.PlanItem) string {
	return fmt.Sprintf("%s percent points (%s to %s, %s sure)", i.Gain.Text(1), i.Low.Text(1), i.High.Text(1), Confidence(d.Confidence))
}

// FaultWords say a recommendation's fault, and in how many flights it was noted.
func FaultWords(i answers.PlanItem) string {
	return fmt.Sprintf("%s, %s", i.Fault, Counted(i.Seen, "flight", "flights"))
}

// DrillWords says a drill with its date and text.
func DrillWords(i answers.PlanItem) string {
	text := fmt.Sprintf("%s, since %s", GroupTitle(i.Drill), i.Since+drillEnd(i.Ended))
	if i.Text != "" {
		text += ": " + i.Text
	}
	return text
}

// planWithout says which families a plan leaves out.
func planWithout(d answers.Plan) []string {
	var said []string
	for _, text := range notFlownWords(d.NotFlown) {
		said = append(said, "left out: "+text)
	}
	return said
}

// PlanNotes say which recommendations are not told apart, what is left out, and
// what a gain is.
func PlanNotes(d answers.Plan) []string {
	var notes []string
	for i := 0; i+1 < len(d.Items); i++ {
		if !d.Items[i].Apart {
			notes = append(notes, fmt.Sprintf("%d and %d: not told apart, their intervals overlap by more than half", i+1, i+2))
		}
	}
	notes = append(notes, planWithout(d)...)
	if len(d.Items) == 0 {
		return notes
	}
	return append(notes, fmt.Sprintf("gain: the family's share of the K of %s times the way from its level to the pilot's own best quarter on it, drawn towards the other families by how much of it is chance", d.Sequence))
}

// PlanHelp says what the command of that name does.
func PlanHelp() string {
	return `Show where the next points are: at most ` + NumberWord(answers.PlanItems) + ` families, with the gain if each
were flown as its best quarter was, how sure that is, and the fault and the
drill that belong to it.`
}
