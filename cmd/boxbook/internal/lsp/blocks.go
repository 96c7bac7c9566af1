package lsp

import (
	"slices"

	"boxbook/season"
	"boxbook/season/ledger"
)

// blockIn is what a block is read against, as far as it can be told: of a review
// what its flight is read against.
type blockIn struct {
	flight   *season.Flight // nil where it could not be read
	sequence *season.Sequence
	contest  *season.Contest
	pilot    *season.Pilot
	panel    []string
	practice bool
}

// blockAt is what the block that begins at a line is read against.
func (b *book) blockAt(name string, head int, kind string) blockIn {
	l := b.rd.Ledger
	line, ok := b.rd.Line(name, head)
	if !ok {
		return blockIn{}
	}
	word := func(n int) string {
		if n < len(line.Words) {
			return line.Words[n].Text
		}
		return ""
	}
	switch kind {
	case "review":
		for _, f := range l.Matching(word(1), season.Selection{}) {
			return inFlight(f)
		}
	case "sequence":
		return blockIn{sequence: l.SequenceNamed(word(1))}
	case "contest":
		if c := l.ContestNamed(word(1)); c != nil {
			return blockIn{contest: c, panel: c.Panel}
		}
	case "flight":
		if f := b.flightAt(name, head); f != nil {
			return inFlight(f)
		}
		return b.halfFlight(name, head, word)
	}
	return blockIn{}
}

// flightAt is the flight whose block begins at a line, nil where it could not be
// read.
func (b *book) flightAt(name string, head int) *season.Flight {
	at := season.Place{File: name, Line: head + 1}
	for _, f := range b.rd.Ledger.Flights {
		if f.At == at {
			return f
		}
	}
	return nil
}

func inFlight(f *season.Flight) blockIn {
	return blockIn{f, f.Sequence, f.Contest, f.Pilot, f.Panel, f.Programme == season.Practice}
}

// halfFlight is what is known of a flight whose block is not whole yet.
func (b *book) halfFlight(name string, head int, word func(int) string) blockIn {
	l := b.rd.Ledger
	in := blockIn{pilot: l.PilotNamed(word(2)), practice: word(3) == string(season.Practice)}
	for _, line := range b.rd.Body(name, head) {
		if len(line.Words) < 2 {
			continue
		}
		switch line.Key {
		case "sequence":
			in.sequence = l.SequenceNamed(line.Words[1].Text)
		case "contest":
			in.contest = l.ContestNamed(line.Words[1].Text)
		case "panel":
			in.panel = judgesIn(line)
		}
	}
	if in.contest != nil && in.panel == nil {
		in.panel = in.contest.Panel
	}
	return in
}

// judgesIn are the judges of a panel's line whose sheets are there.
func judgesIn(line ledger.Line) []string {
	var judges []string
	for _, w := range line.Words[1:] {
		if w.Slot != ledger.SlotJudge {
			break
		}
		judges = append(judges, w.Text)
	}
	return judges
}

// clean reports whether the lines from a block's first to its last have no error:
// only then is what they come to known.
func (b *book) clean(name string, head, last int) bool {
	return !slices.ContainsFunc(b.rd.Diagnostics, func(d ledger.Diagnostic) bool {
		return d.File == name && d.Severity == ledger.Error && d.Line-1 >= head && d.Line-1 <= last
	})
}

// cleanBlock is that of a block by its first line.
func (b *book) cleanBlock(name string, head int) bool {
	last := head
	for _, line := range b.rd.Body(name, head) {
		last = line.Number
	}
	return b.clean(name, head, last)
}
