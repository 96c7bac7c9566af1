package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season/analysis"
)

// GateFacts lists the gates; evidence wraps, since none of it may be cut off.
func GateFacts(d answers.Ready) *report.Facts {
	facts := &report.Facts{}
	for _, g := range d.Gates {
		cell := report.Text(g.State + ": " + g.Evidence + "; asked: " + g.Asked)
		if g.State == string(analysis.NotMet) {
			cell = cell.Toned(report.Bad)
		}
		AddFact(facts, g.Title, cell)
	}
	return facts
}

func NeedNotes(d answers.Ready) *report.Notes {
	notes := &report.Notes{}
	for _, g := range d.Gates {
		if g.Needs != "" {
			AddNote(notes, "%s: %s", g.Title, g.Needs)
		}
	}
	return notes
}
