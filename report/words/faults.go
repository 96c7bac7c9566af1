package words

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// FaultsSentence says in words what costs most.
func FaultsSentence(d answers.Faults) string {
	text := ""
	if len(d.Open) > 0 {
		text = Counted(len(d.Open), "matter is open and comes", "matters are open and come") + " before any grade; "
	}
	watched := Counted(d.Reviewed, "flight watched", "flights watched")
	if len(d.Recurring) > 0 {
		verb := "comes up most: "
		if d.Recurring[0].Points.Float64() > 0 {
			verb = "costs most: "
		}
		return text + verb + Words(d.Recurring[0], d.Reviewed)
	}
	if d.Reviewed == 0 {
		return text + "no flight of this selection has a fault line or a `reviewed` line"
	}
	if len(d.Kinds) > 0 {
		return text + watched + ", no fault of flying noted"
	}
	return text + watched + ", no fault noted"
}

// name says a row in words: "radius changed, loops, part loops and eights".
func name(k answers.FaultKind) string {
	name := k.Says
	if name == "" {
		name = k.Kind
	}
	if k.Group != "" {
		name += " (" + season.GroupName(k.Group) + ")"
	}
	return name
}

// Words say a row with what it rests on and what it costs.
func Words(k answers.FaultKind, watched int) string {
	text := fmt.Sprintf("%s, in %d of %s", name(k), k.Flights, Counted(watched, "flight watched", "flights watched"))
	if k.Points.Float64() > 0 {
		text += ", " + atLeast(k, "about") + " " + aboutText(k.PerFlight) + " points a flight"
	}
	return text
}

// atLeast is the word before a number of points: some may not be known.
func atLeast(k answers.FaultKind, word string) string {
	if k.Unknown > 0 {
		return "at least"
	}
	return word
}

// aboutText is a number to be read as about so many: whole, one decimal below
// ten.
func aboutText(n report.Number) string {
	if n.Float64() < 9.5 {
		return n.Text(1)
	}
	return n.Text(0)
}

// OpenMatter says a matter that stays open, where it was noted and what was
// remarked.
func OpenMatter(o answers.Open) string {
	text := o.Says
	if text == "" {
		text = o.Kind
	}
	text += ", " + o.Flight
	if o.Remark != "" {
		text += ": " + o.Remark
	}
	return text
}

// OpenExplained says how an open matter is closed.
const OpenExplained = "No matter of grades. Each stays open until `closed KIND` stands in a later flight, or a later sign-off."

// KindLabel names a row of the table of kinds.
func KindLabel(k answers.FaultKind) string {
	if k.Group == "" {
		return k.Kind
	}
	return k.Kind + ", " + k.Group
}
