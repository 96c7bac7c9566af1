package words

import (
	"fmt"
	"slices"

	"boxbook/report/answers"
	"boxbook/season/analysis/code"
)

// SayPlan fills the sentences of an answer: what the items rest on, or why there
// are none, and why a weak family is none of them.
func SayPlan(d answers.Plan) answers.Plan {
	items := make([]answers.PlanItem, len(d.Items))
	for i, item := range d.Items {
		item.Evidence = planEvidence(d, item)
		items[i] = item
	}
	aside := make([]answers.PlanAside, len(d.Aside))
	for i, a := range d.Aside {
		a.Why = asideWhy(d, a)
		aside[i] = a
	}
	d.Items, d.Aside, d.Why = items, aside, ""
	if d.Lack != nil {
		d.Why = lack(*d.Lack).plan(daysTo(d.Days, d.To))
	}
	return d
}

// PlanFault says in short a recommendation's fault, with how often it comes back.
func PlanFault(i answers.PlanItem) string {
	if i.Untold != nil {
		return i.Untold.Kind + ", " + seenSinceShort(*i.Untold)
	}
	if i.Fault == "" {
		return ""
	}
	text := fmt.Sprintf("%s, %d of %s", i.Fault, i.SeenInFamily, Counted(i.ExposedInFamily, "flight", "flights"))
	if i.BeforeDrill {
		text += beforeDrill
	}
	return text
}

// asideWhy says why a weak family is not among the items.
func asideWhy(d answers.Plan, a answers.PlanAside) string {
	switch a.Reason {
	case code.NotInSequence:
		return d.Sequence + " has none of it"
	case code.LittleK:
		return fmt.Sprintf("only %s%% of the K of %s", Percent(a.Share).Text(0), d.Sequence)
	default:
		return fmt.Sprintf("%s%% of the K of %s, where others offer more", Percent(a.Share).Text(0), d.Sequence)
	}
}

// PlanSubtitle says why the sequence is the one, and what a plan rests on; "" where nothing was flown.
func PlanSubtitle(d answers.Plan) string {
	if d.Category == "" {
		return ""
	}
	text := fmt.Sprintf("from %s of %s", Counted(d.Flights, "contest flight", "contest flights"), daysTo(d.Days, d.To))
	if d.LeftOut > 0 {
		text += ", " + CatalogueAlone(d.Catalogue, d.LeftOut)
	}
	if d.LatestKnown {
		text = fmt.Sprintf("the latest known sequence of %s; %s", d.Category, text)
	}
	return Sentence(text)
}

// PlanHeading stands over one recommendation, numbered from 1.
func PlanHeading(number int, i answers.PlanItem) string {
	return fmt.Sprintf("%d. %s", number, GroupTitle(i.Group))
}

// The headings of a plan.
const (
	PlanZerosHeading   = "Zeros"
	PlanAsideHeading   = "Weak, but not among these"
	PlanDrilledHeading = "Comes back with its drill open"
	PlanWithoutHeading = "Comes back without an open drill"
)

// AsideWords say a weak family that is none of the items, with the reason.
func AsideWords(a answers.PlanAside) string {
	return fmt.Sprintf("%s: about %s%%; %s", GroupTitle(a.Group), a.Level.Text(0), a.Why)
}

// WithoutWords say a fault that comes back and has no drill, with what it may cost.
func WithoutWords(k answers.FaultKind) string {
	text := fmt.Sprintf("%s: %d of %s that could show it%s", name(k), k.Flights, Counted(k.Exposed, "flight", "flights"), beforeIts(k))
	if k.Points.Known() && k.Points.Float64() > 0 {
		text += fmt.Sprintf(", %s points at stake", k.Points.Text(0))
	}
	return text
}

// GainWords say a gain with its interval.
func GainWords(d answers.Plan, i answers.PlanItem) string {
	r := GainRange(d, i)
	return fmt.Sprintf("%s percentage points (%s)", i.Gain.Text(1), r.EndsAt())
}

// GainRange is the range of a gain.
func GainRange(d answers.Plan, i answers.PlanItem) Range {
	return Range{i.Low, i.Gain, i.High, d.Confidence}
}

// FaultWords say a recommendation's fault, and in how many flights it was noted.
func FaultWords(i answers.PlanItem) string {
	if i.Untold != nil {
		return i.Untold.Kind + ", " + seenSince(*i.Untold) + ", with the family; too few to tell whether it comes back"
	}
	text := fmt.Sprintf("%s, in %d of %s with the family", i.Fault, i.SeenInFamily, Counted(i.ExposedInFamily, "flight", "flights"))
	if i.BeforeDrill {
		text += beforeDrill + " (" + unshownSince + ")"
	}
	return text
}

// DrillWords says a drill with its date and text.
func DrillWords(i answers.PlanItem) string {
	text := fmt.Sprintf("%s, since %s", GroupTitle(i.Drill), i.Since+drillEnd(i.Ended))
	if i.Text != "" {
		text += ": " + i.Text
	}
	return text
}

// PlanDrill says in short since when a recommendation's drill is set; what it is
// on goes without saying where that is the fault or the family of its row.
func PlanDrill(i answers.PlanItem) string {
	text := "since " + i.Since + drillEnd(i.Ended)
	if i.Drill == i.Fault || i.Drill == i.Group || i.Untold != nil && i.Drill == i.Untold.Kind {
		return text
	}
	return GroupTitle(i.Drill) + ", " + text
}

// PlanBrief says what is weak and none of the recommendations, and what a plan
// leaves out.
func PlanBrief(d answers.Plan) []string {
	var notes []string
	for _, a := range d.Aside {
		notes = append(notes, "weak, but not among these: "+AsideWords(a))
	}
	if out := firstOut(d.Items); out < 0 || d.Items[out].Weak { // else the sentence on top names the families
		notes = append(notes, sameFigure(d)...)
	}
	notes = append(notes, alikeItems(d)...)
	if len(d.Items) > 0 {
		notes = append(notes, "weaker: over "+daysTo(d.Days, d.To)+"; `families` shows one season; gain: in percentage points"+mayBeNote(d))
	}
	if slices.ContainsFunc(d.Items, func(i answers.PlanItem) bool { return i.Fault != "" || i.Untold != nil }) {
		note := "comes back: the family's commonest fault, of its flights since its last drill"
		if slices.ContainsFunc(d.Items, func(i answers.PlanItem) bool { return i.BeforeDrill }) {
			note += ";" + beforeDrill + ": " + unshownSince
		}
		notes = append(notes, note)
	}
	return append(notes, planWithout(d)...)
}

// mayBeNote explains the chance behind "may be", "" where none stands there.
func mayBeNote(d answers.Plan) string {
	if fewToTell(d) {
		return ""
	}
	return "; a percentage after \"may be\" is the chance that it is so"
}

// FurtherFromPlan names the pages that a plan rests on.
func FurtherFromPlan(d answers.Plan) string {
	said := fmt.Sprintf("What it rests on: boxbook faults %[1]s; boxbook drills %[1]s; boxbook families %[1]s", d.Pilot)
	if d.Sequence != "" {
		said += fmt.Sprintf("; boxbook forecast %s %s", d.Pilot, d.Sequence)
	}
	if d.Elsewhere != "" {
		said = "Where practice pays " + AtCategory(d.Elsewhere) + ", where there are enough: " + planCommand(d.Pilot, d.Elsewhere) + "\n" + said
	}
	if len(d.Items) == 0 {
		return said
	}
	return said + "\n" + MoreNumbers("plan", d.Pilot, d.Sequence)
}

// PlanNotes say which recommendations are not told apart, what is left out, and
// what a gain is.
func PlanNotes(d answers.Plan) []string {
	var notes []string
	for i := 0; i+1 < len(d.Items); i++ {
		if !d.Items[i].Apart {
			notes = append(notes, fmt.Sprintf("%d and %d: too close to call, their intervals overlap by more than half", i+1, i+2))
		}
	}
	notes = append(notes, sameFigure(d)...)
	notes = append(notes, alikeItems(d)...)
	notes = append(notes, planWithout(d)...)
	if len(d.Items) == 0 {
		return notes
	}
	notes = append(notes, "levels are from these flights, whatever their season; `families` has those of one season")
	return append(notes, fmt.Sprintf("gain: the family's share of the K of %s times how far it is expected to be below the pilot's other families; zeroed figures left out", d.Sequence))
}

// PlanHelp says what the command of that name does.
func PlanHelp() string {
	return `Show where practice pays on SEQUENCE, else on the latest known of the present
category: at most ` + NumberWord(answers.PlanItems) + ` families, with the gain if each came up to the pilot's
other families, the confidence in it, and the fault and the drill that belong to
it; then zeros, what else is weak, and what comes back without a drill. --all
adds the evidence and the intervals. The plan is made from the contest flights
of ` + lastDays(answers.PlanDays) + `.`
}

// PlanSpan says what a plan goes by instead of flags that choose flights.
func PlanSpan() string {
	return "it is made from the contest flights of " + lastDays(answers.PlanDays) + "; --asof, --until and --season choose the last day"
}
