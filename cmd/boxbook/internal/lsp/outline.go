package lsp

import (
	"slices"
	"strconv"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/ledger"
)

// symbolKinds are how an editor marks blocks: an event for what happened, a class
// for what things are measured by, an object for people, a number for money.
var symbolKinds = map[string]int{
	"pilot": 19, "coach": 19, "person": 19, "sequence": 18, "contest": 24, "flight": 24, "review": 24, "drill": 24, "signoff": 24,
	"closed": 24, "ladder": 5, "rules": 5, "policy": 5, "fault-kind": 5,
}

const symbolNumber = 16

// symbols are the blocks of a text.
func (s *server) symbols(p documentParams) (any, error) {
	all := []documentSymbol{}
	v, ok := s.view(p.TextDocument)
	if !ok {
		return all, nil
	}
	rd := v.book.rd
	for _, b := range rd.Blocks(v.name) {
		kind := symbolKinds[b.Block]
		if kind == 0 {
			kind = symbolNumber
		}
		name := b.Name()
		if name == "" {
			name = b.Block
		}
		whole := rng{place(rd, v.name, b.Number, 0), place(rd, v.name, b.Last, len(rd.LineText(v.name, b.Last)))}
		head := rng{whole.Start, place(rd, v.name, b.Number, b.End)}
		all = append(all, documentSymbol{name, b.Block, kind, whole, head})
	}
	return all, nil
}

// folding folds each block of several lines beneath its first.
func (s *server) folding(p documentParams) (any, error) {
	all := []foldingRange{}
	v, ok := s.view(p.TextDocument)
	if !ok {
		return all, nil
	}
	for _, b := range v.book.rd.Blocks(v.name) {
		if b.Last > b.Number {
			all = append(all, foldingRange{b.Number, b.Last})
		}
	}
	return all, nil
}

// inlayHints are what rows, sheets and sequences come to, at the ends of their
// lines.
func (s *server) inlayHints(p rangeParams) (any, error) {
	hints := []inlayHint{}
	v, ok := s.view(p.TextDocument)
	if !ok {
		return hints, nil
	}
	rd := v.book.rd
	for _, b := range rd.Blocks(v.name) {
		if b.Last < p.Range.Start.Line || b.Number > p.Range.End.Line || !v.book.clean(v.name, b.Number, b.Last) {
			continue
		}
		for line, text := range v.hintsOf(b) {
			if text != "" && line >= p.Range.Start.Line && line <= p.Range.End.Line {
				hints = append(hints, inlayHint{v.lineEnd(line), text, true})
			}
		}
	}
	sortHints(hints)
	return hints, nil
}

// lineEnd is the place behind a line's last word.
func (v view) lineEnd(n int) position {
	line, _ := v.book.rd.Line(v.name, n)
	at := 0
	if len(line.Words) > 0 {
		at = line.Words[len(line.Words)-1].End
	}
	return place(v.book.rd, v.name, n, at)
}

// hintsOf are the hints of a block by line.
func (v view) hintsOf(b ledger.Block) map[int]string {
	switch b.Block {
	case "flight":
		return v.flightHints(b)
	case "sequence":
		return v.sequenceHints(b)
	default:
		return nil
	}
}

// sequenceHints is what the K of a sequence add up to: beside its printed total,
// else beside its name.
func (v view) sequenceHints(b ledger.Block) map[int]string {
	s := v.book.blockAt(v.name, b.Number, b.Block).sequence
	if s == nil {
		return nil
	}
	at := b.Number
	for _, line := range v.book.rd.Body(v.name, b.Number) {
		if line.Key == "total" {
			at = line.Number
		}
	}
	return map[int]string{at: words.SequenceSumSaid(answers.SequenceSumOf(s))}
}

// flightHints are the means of a flight's rows, or the totals of its sheets.
func (v view) flightHints(b ledger.Block) map[int]string {
	f := v.book.flightAt(v.name, b.Number)
	if f == nil {
		return nil
	}
	means, hints, times := answers.RowMeansOf(f), map[int]string{}, map[int]int{}
	for _, line := range v.book.rd.Body(v.name, b.Number) {
		switch {
		case line.IsRow():
			n, _ := strconv.Atoi(line.Key)
			if rows := means.Figures[n]; times[n] < len(rows) {
				hints[line.Number] = words.MeanHint(rows[times[n]])
			}
			times[n]++
		case line.Key == "positioning":
			hints[line.Number] = words.MeanHint(means.Positioning)
		case line.Key == "harmony":
			hints[line.Number] = words.MeanHint(means.Harmony)
		case line.Key == "sheet" && len(line.Words) > 1:
			hints[line.Number] = words.TotalHint(means.Judges[line.Words[1].Text])
		}
	}
	return hints
}

// sortHints puts hints in the order of the lines.
func sortHints(hints []inlayHint) {
	slices.SortFunc(hints, func(a, b inlayHint) int { return a.Position.Line - b.Position.Line })
}
