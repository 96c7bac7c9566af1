package scoring

import "slices"

// confirmedZeros finds the figures with a hard zero from some of the judges that, confirmed
// as one from all, give the printed total.
func (s *search) confirmedZeros() []candidate { return s.zeroed(KindZero) }

// leftOutFigures finds the figures without whose points the printed total comes out. A
// figure has a part in every judge's total: where all typed totals agree, none was left
// out. One with a hard zero is among the confirmed ones.
func (s *search) leftOutFigures() []candidate {
	if !slices.Contains(s.sheets, true) {
		return nil
	}
	return s.zeroed(KindFigure)
}

// zeroed finds the figures that, worth nothing, give the printed total.
func (s *search) zeroed(kind ExplanationKind) []candidate {
	var found []candidate
	s.eachZeroed(kind, func(i int, line Line) {
		if s.fitsWith(i, line) {
			found = append(found, candidate{kind: kind, size: sizeOfFigure, line: i, cells: confirmed(i, s.sheet.Lines[i].Marks)})
		}
	})
	return s.settle(found)
}

// eachZeroed goes through the figures that an explanation of the kind may speak of, each
// worth nothing. What a ruling would make of an undecided one is said as a ruling.
func (s *search) eachZeroed(kind ExplanationKind, try func(i int, line Line)) {
	for i, line := range s.sheet.Lines {
		assumed := s.rulings != nil && s.rulings[i] != NoDecision
		if line.Kind != Figure || assumed || holds(line.Marks, HardZero) != (kind == KindZero) {
			continue
		}
		line.Marks = zeroedMarks(line.Marks)
		try(i, line)
	}
}

// confirmed are the hard zeros of a line of which any one may have been confirmed.
func confirmed(line int, marks []Mark) []cellChange {
	var cells []cellChange
	for j, m := range marks {
		if m.Kind == HardZero {
			cells = append(cells, cellChange{line: line, judge: j, was: m, would: Mark{Kind: ConfirmedHardZero}})
		}
	}
	return cells
}

// zeroedMarks make a figure worth nothing, from every judge.
func zeroedMarks(marks []Mark) []Mark {
	return slices.Repeat([]Mark{{Kind: ConfirmedHardZero}}, len(marks))
}
