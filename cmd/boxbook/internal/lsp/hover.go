package lsp

import (
	"fmt"
	"strings"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"
)

func (s *server) hover(p placeParams) (any, error) {
	v, ok := s.view(p.TextDocument)
	if !ok {
		return nil, nil
	}
	line, ok := v.book.rd.Line(v.name, p.Position.Line)
	if !ok {
		return nil, nil
	}
	column := byteAt(v.book.rd, v.name, p.Position)
	for i, w := range line.Words {
		if w.Start <= column && column <= w.End {
			if said := v.explain(line, i); len(said) > 0 {
				return hover{markup{"markdown", strings.Join(said, "\n\n")}, spanRange(v.book.rd, w.Span)}, nil
			}
		}
	}
	return nil, nil
}

// explain says what is known of a word of a line: of what it names, else of the
// line.
func (v view) explain(line ledger.Line, n int) []string {
	l, w := v.book.rd.Ledger, line.Words[n]
	if w.Quoted {
		return nil
	}
	switch w.Slot {
	case ledger.SlotSequence:
		return sequenceSaid(l.SequenceNamed(w.Text))
	case ledger.SlotFlight:
		for _, f := range l.Matching(w.Text, season.Selection{}) {
			return v.flightSaid(f)
		}
	case ledger.SlotFigure:
		return v.figureSaid(line, w.Text)
	case ledger.SlotGroup:
		return []string{words.Sentence(words.GroupTitle(season.GroupOf(w.Text))) + "."}
	case ledger.SlotContest:
		if c := l.ContestNamed(w.Text); c != nil {
			return []string{fmt.Sprintf("%s, %s.", c.Name, c.First)}
		}
	case ledger.SlotPilot, ledger.SlotCoach, ledger.SlotParty:
		if p, known := l.PartyNamed(w.Text); known && !line.IsHead {
			return []string{p.FullName()}
		}
	}
	return v.explainLine(line)
}

// explainLine says what is known of a line as a whole.
func (v view) explainLine(line ledger.Line) []string {
	in := v.book.blockAt(v.name, line.Head, line.Block)
	switch {
	case line.IsRow():
		return v.figureSaid(line, line.Key)
	case line.Key == "fault":
		return v.faultSaid(line)
	case line.Block == "sequence" && (line.IsHead || line.Key == "total"):
		return sequenceSaid(in.sequence)
	case line.IsHead && line.Block == "flight" || line.Key == "official":
		if in.flight != nil {
			return v.flightSaid(in.flight)
		}
	case line.IsHead && line.Block == "drill":
		return v.drillSaid(line)
	}
	return nil
}

func sequenceSaid(s *season.Sequence) []string {
	if s == nil {
		return nil
	}
	return []string{words.SequenceInWords(answers.SequenceSumOf(s))}
}

// figureSaid says a figure of the sequence that the line's block is about.
func (v view) figureSaid(line ledger.Line, number string) []string {
	in := v.book.blockAt(v.name, line.Head, line.Block)
	n := 0
	if _, err := fmt.Sscan(number, &n); err != nil || in.sequence == nil || n < 1 || n > len(in.sequence.Figures) {
		return nil
	}
	l := v.book.rd.Ledger
	pilots := []*season.Pilot{in.pilot}
	if in.pilot == nil {
		pilots = whoFlew(l, in.sequence)
	}
	var said []string
	for i, pilot := range pilots {
		about := words.FigureSoFar(answers.FigureSoFarOf(l, in.sequence, n, pilot))
		if i > 0 {
			about = about[1:]
		}
		said = append(said, about...)
	}
	return said
}

// whoFlew are the pilots with a flight of a sequence, nobody in particular where
// none has.
func whoFlew(l *season.Ledger, s *season.Sequence) []*season.Pilot {
	flew := map[*season.Pilot]bool{}
	for _, f := range l.Flights {
		flew[f.Pilot] = flew[f.Pilot] || f.Sequence == s && f.HasMarks()
	}
	var pilots []*season.Pilot
	for _, p := range l.Pilots {
		if flew[p] {
			pilots = append(pilots, p)
		}
	}
	if len(pilots) == 0 {
		return []*season.Pilot{nil}
	}
	return pilots
}

// flightSaid is what `boxbook flight` says first of a flight.
func (v view) flightSaid(f *season.Flight) []string {
	if name := f.At.File; !v.book.cleanBlock(name, f.At.Line-1) {
		return nil
	}
	return append([]string{"**" + f.Name + "**"}, words.FlightSentences(words.SayFlight(answers.FlightToday(v.book.rd.Ledger, f)))...)
}

// faultSaid says what a fault's line costs. Its place among the flight's faults is
// known only where every fault line was read.
func (v view) faultSaid(line ledger.Line) []string {
	f := v.book.blockAt(v.name, line.Head, line.Block).flight
	if f == nil {
		return nil
	}
	at, count := -1, 0
	for _, block := range v.faultBlocks(f) {
		for _, body := range v.book.rd.Body(block.File, block.Number) {
			if body.Key != "fault" {
				continue
			}
			if body.File == line.File && body.Number == line.Number {
				at = count
			}
			count++
		}
	}
	if at < 0 || count != len(f.Faults) {
		return nil
	}
	return words.FaultCost(answers.FaultsNoted(f)[at])
}

// faultBlocks are the blocks with the faults of a flight, its own first, then the
// reviews in the order in which they are read.
func (v view) faultBlocks(f *season.Flight) []ledger.Line {
	var blocks []ledger.Line
	if own, ok := v.book.rd.Line(f.At.File, f.At.Line-1); ok {
		blocks = append(blocks, own)
	}
	name := ledger.Name{Kind: ledger.FlightName, Name: f.Name}
	for _, use := range v.book.rd.Uses(name) {
		if line, ok := v.book.rd.Line(use.File, use.Line); ok && line.IsHead && line.Block == "review" {
			blocks = append(blocks, line)
		}
	}
	return blocks
}

// drillSaid is what `boxbook drills` says of a drill.
func (v view) drillSaid(line ledger.Line) []string {
	l, at := v.book.rd.Ledger, season.Place{File: v.name, Line: line.Number + 1}
	for _, d := range l.Drills {
		if d.At != at {
			continue
		}
		// Only what was set from that day to the season's end: each takes its time.
		all := answers.DrillsOf(l, season.Selection{Pilot: d.Pilot, Season: l.SeasonStart.Season(d.Date), Since: d.Date})
		for _, drill := range all.Drills {
			if drill.Date == d.Date.String() && drill.Target == d.Target {
				said := append([]string{words.DrillSentence(drill, all.Limits)}, words.DrillDetails(drill, all.Limits)...)
				return append(said, words.NoCause)
			}
		}
	}
	return nil
}
