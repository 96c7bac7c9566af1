package tables

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// GateFacts lists the gates; evidence wraps, since none of it may be cut off.
func GateFacts(d answers.Ready) *report.Facts {
	facts := &report.Facts{}
	for _, g := range d.Gates {
		cell := report.Text(words.GateLine(g))
		if g.State == code.NotMet {
			cell = cell.Toned(report.Bad)
		}
		AddFact(facts, words.GateTitle(g.Gate), cell)
	}
	return facts
}

// ReadyTable lists the gates in the order in which people read them, a row a gate.
func ReadyTable(d answers.Ready) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnGate},
		{Title: words.ColumnState},
		{Title: words.ColumnInLedger, Wrapped: true, Min: gateWidth},
		{Title: words.WantsTitle(d), Wrapped: true, Min: wantsWidth},
	}}
	for _, g := range words.InOrder(d.Gates) {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.GateTitle(g.Gate)), stateCell(g), report.Text(g.Brief), report.Text(words.GateWants(d, g))})
	}
	return t
}

// ReadyBrief is the same for people: what is needed stands behind what the ledger
// has, so that a gate takes few lines, and what is met and has nothing to say is in
// one row.
func ReadyBrief(d answers.Ready) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{{Title: words.ColumnGate}, {Title: words.ColumnState}, {Title: words.EvidenceTitle(d), Wrapped: true, Min: gateWidth}}}
	rows, folded := words.Folded(d)
	for _, g := range rows {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.GateTitle(g.Gate)), stateCell(g), report.Text(words.GateBrief(d, g))})
	}
	if len(folded) > 0 {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.MoreMet(len(folded))), report.Text(string(code.Met)), report.Text(strings.Join(folded, "; "))})
	}
	return t
}

// The widths below which the texts of a table of gates are not broken.
const (
	gateWidth  = 22
	wantsWidth = 12
)

// stateCell is how a gate stands.
func stateCell(g answers.Gate) report.Cell {
	state := report.Text(string(g.State))
	if g.State == code.NotMet {
		state = state.Toned(report.Bad)
	}
	return state
}

// GateTable lists the gates with each one's state in a column of its own, so that
// a reader can sort by it.
func GateTable(d answers.Ready) *report.Table {
	t := &report.Table{Columns: []report.Column{{Title: words.ColumnGate}, {Title: words.ColumnState}, {Title: words.ColumnEvidence, Flexible: true}}}
	for _, g := range d.Gates {
		t.Rows = append(t.Rows, []report.Cell{report.Text(words.GateTitle(g.Gate)), stateCell(g), report.Text(words.GateEvidence(g))})
	}
	return t
}

// AgainstNotes list what speaks against.
func AgainstNotes(d answers.Ready) *report.Notes { return notesOf(d.Against) }

// SaidNotes list somebody's latest words on the pilot.
func SaidNotes(d answers.Ready) *report.Notes { return notesOf(words.SaidLines(d)) }

// NeedNotes list what would change the gates.
func NeedNotes(d answers.Ready) *report.Notes {
	notes := &report.Notes{}
	for _, g := range d.Gates {
		if g.Needs != "" {
			AddNote(notes, "%s: %s", words.GateTitle(g.Gate), g.Needs)
		}
	}
	return notes
}

// ReadyChoices are the policy, the ladder and the category that were asked, for
// the head of a document; the title says the category, so that the head line does
// not.
func ReadyChoices(d answers.Ready) []report.Choice {
	chosen := []report.Choice{{Key: "policy", Value: d.Policy, Words: words.PolicySaid(d)}}
	if d.Ladder != "" {
		chosen = append(chosen, report.Choice{Key: "ladder", Value: d.Ladder, Words: words.LadderSaid(d)})
	}
	if d.To != "" {
		chosen = append(chosen, report.Choice{Key: "to", Value: d.To})
	}
	return chosen
}
