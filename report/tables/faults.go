package tables

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// RecurringNotes name what comes back, each with its drill.
func RecurringNotes(d answers.Faults) *report.Notes {
	notes := &report.Notes{}
	for _, k := range d.Recurring {
		drill := "no drill set"
		if k.Drill != "" {
			drill = "drill set " + k.Drill
			if k.DrillText != "" {
				drill += ": " + k.DrillText
			}
		}
		notes.Items = append(notes.Items, report.Note{Mark: fmt.Sprint(len(notes.Items) + 1), Text: words.Words(k, d.Reviewed) + "; " + drill})
	}
	if d.Reviewed < d.Limits.Flights {
		AddNote(notes, "only %s: too few to tell a fault that comes back from one that came once", words.Counted(d.Reviewed, "flight watched", "flights watched"))
	}
	return notes
}

// KindPoints is the key of the points at stake in the table of kinds.
const KindPoints = "points"

// KindTable has a row a kind and group.
func KindTable(d answers.Faults) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: "kind", Flexible: true, Min: 10},
		{Title: "family"},
		{Title: "flights", Align: report.Right},
		{Title: "seen", Align: report.Right},
		{Title: "felt", Align: report.Right},
		{Key: KindPoints, Title: "points", Align: report.Right, Bars: true},
		{Title: "since", Drop: 1},
		{Title: "drill"},
	}}
	for _, k := range d.Kinds {
		points := num(k.Points)
		if !k.Points.Known() {
			points = report.Text(words.UnknownSign)
		} else if k.Unknown > 0 {
			points = points.Marked(words.UnknownSign)
		}
		drill := report.Text(k.Drill)
		if k.Drill == "" {
			drill = report.Text("none").Toned(report.Faint)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(k.Kind), report.Text(k.Group), report.Text(fmt.Sprintf("%d of %d", k.Flights, d.Reviewed)),
			CountCell(k.Seen), CountCell(k.Felt), points, report.Text(k.Since), drill,
		})
	}
	return t
}

// KindNotes explain the columns.
func KindNotes(d answers.Faults) *report.Notes {
	notes := &report.Notes{}
	unknown := 0
	for _, k := range d.Kinds {
		unknown += k.Unknown
	}
	if unknown > 0 {
		notes.Items = append(notes.Items, report.Note{Mark: words.UnknownSign, Text: fmt.Sprintf(
			"not known, or at the least: for %s the K or the amount is not in the ledger", words.Counted(unknown, "fault", "faults"))})
	}
	AddNote(notes, "flights: those it was noted in, of those with a fault line or a `reviewed` line; practice counts")
	AddNote(notes, "points: at stake, deduction x K as noted, not what the panels took")
	AddNote(notes, "felt: a cause, for which no judge takes points; the same fault noted by two counts once, the larger")
	return notes
}

// OpenNotes list what must be put right before anything else.
func OpenNotes(d answers.Faults) *report.Notes {
	notes := &report.Notes{}
	for _, o := range d.Open {
		AddNote(notes, "%s", words.OpenMatter(o))
	}
	return notes
}

// CalibrationFacts show how far the noted faults explain the grades given.
func CalibrationFacts(c answers.Calibration) *report.Facts {
	facts := &report.Facts{Items: []report.Fact{
		{Label: "expected less given, mean", Value: report.Signed(c.Bias, words.MeanDecimals)},
	}}
	if c.Spread.Known() {
		AddFact(facts, "spread (standard deviation)", report.Num(c.Spread, words.MeanDecimals))
	}
	AddFact(facts, "figures", CountCell(c.N))
	return facts
}

// CalibrationNotes say what the comparison is.
func CalibrationNotes(c answers.Calibration) *report.Notes {
	notes := &report.Notes{Items: []report.Note{
		{Text: "expected: 10 less the seen faults; given: the panel's mean. Above 0 the panels took more than the faults noted account for, below 0 less"},
	}}
	if c.Zeroed > 0 {
		AddNote(notes, "%s made 0 as a matter of fact, which no sum of faults explains", words.Counted(c.Zeroed, "of the figures was", "of the figures were"))
	}
	return notes
}
