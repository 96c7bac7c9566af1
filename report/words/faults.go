package words

import (
	"cmp"
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
)

// FaultsSentence says in words what costs most.
func FaultsSentence(d answers.Faults) string {
	text := ""
	if len(d.Open) > 0 {
		text = Counted(len(d.Open), "matter is open and comes", "matters are open and come") + " before any grade; "
	}
	watched := flightsWatched(d.Reviewed)
	if len(d.Recurring) > 0 {
		verb := "comes up most: "
		if d.Recurring[0].Points.Float64() > 0 {
			verb = "costs most: "
		}
		return text + verb + faultWords(d.Recurring[0], d.Reviewed)
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
	name := cmp.Or(k.Says, k.Kind)
	if k.Group != "" {
		name += " (" + GroupName(k.Group) + ")"
	}
	return name
}

// The words of the pages of faults that stand for themselves.
const (
	NoDrill              = "none" // of a kind on which no drill is set
	OpenExplained        = "No matter of grades. Each stays open until `closed KIND` stands in a later flight, or `closed DATE PILOT KIND`."
	CalibrationExplained = "expected: 10 less the seen faults; given: the panel's mean. Above 0 the panels took more than the faults noted account for, below 0 less"
)

// KindColumns explain the columns of the kinds.
var KindColumns = []string{
	"flights: those it was noted in, of those with a fault line or a `reviewed` line; practice counts",
	"points: at stake, deduction x K as noted, not what the panels took",
	"felt: a cause, for which no judge takes points; the same fault noted by two counts once, the larger",
}

// UnknownPoints says of how many faults the points are not known.
func UnknownPoints(n int) string {
	return fmt.Sprintf("not known, or at the least: for %s the K or the amount is not in the ledger", Counted(n, "fault", "faults"))
}

// FewWatched says that the flights watched are too few.
func FewWatched(d answers.Faults) string {
	return "only " + flightsWatched(d.Reviewed) + ": too few to tell a fault that comes back from one that came once"
}

// CalibrationZeroed says how many figures no sum of faults explains.
func CalibrationZeroed(n int) string {
	return Counted(n, "of the figures was", "of the figures were") + " made 0 as a matter of fact, which no sum of faults explains"
}

// OpenMatter says an open matter, where it was noted and with what remark.
func OpenMatter(o answers.Open) string {
	text := cmp.Or(o.Says, o.Kind) + ", " + o.Flight
	if o.Remark != "" {
		text += ": " + o.Remark
	}
	return text
}

// RecurringKind says a fault that comes back, and its drill.
func RecurringKind(k answers.FaultKind, watched int) string {
	text := faultWords(k, watched) + "; "
	switch set := "drill set " + k.Drill + drillEnd(k.DrillEnded); {
	case k.Drill == "":
		return text + "no drill set"
	case k.DrillText == "":
		return text + set
	default:
		return text + set + ": " + k.DrillText
	}
}

func flightsWatched(n int) string { return Counted(n, "flight watched", "flights watched") }

// faultWords say a row with what it rests on and what it costs.
func faultWords(k answers.FaultKind, watched int) string {
	text := fmt.Sprintf("%s, in %d of %s", name(k), k.Flights, Counted(k.Exposed, "flight", "flights"))
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

// KindLabel names a row of the table of kinds.
func KindLabel(k answers.FaultKind) string {
	if k.Group == "" {
		return k.Kind
	}
	return k.Kind + ", " + k.Group
}
