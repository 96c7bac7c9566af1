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
		cell := report.Text(g.State + ": " + gateEvidence(g))
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

// GateTable lists the gates with each one's state in a column of its own, so that
// a reader can sort by it.
func GateTable(d answers.Ready) *report.Table {
	t := &report.Table{Columns: []report.Column{{Title: "gate"}, {Title: "state"}, {Title: "evidence", Flexible: true}}}
	for _, g := range d.Gates {
		state := report.Text(g.State)
		if g.State == string(analysis.NotMet) {
			state = state.Toned(report.Bad)
		}
		t.Rows = append(t.Rows, []report.Cell{report.Text(g.Title), state, report.Text(gateEvidence(g))})
	}
	return t
}

// gateEvidence is what a gate rests on, and what was asked.
func gateEvidence(g answers.Gate) string { return g.Evidence + "; asked: " + g.Asked }

// AgainstNotes list what speaks against moving up.
func AgainstNotes(d answers.Ready) *report.Notes {
	notes := &report.Notes{}
	for _, text := range d.Against {
		AddNote(notes, "%s", text)
	}
	return notes
}
