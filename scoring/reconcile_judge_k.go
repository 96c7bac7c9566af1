package scoring

// topSlipK is the highest K that a mistyped one is searched up to: a printed K has
// two digits at the most [derived, a house choice].
const topSlipK = 99

// oneSheet finds the judges without whose sheet the printed total comes out.
func (s *search) oneSheet() []candidate {
	if s.sheet.Judges < 2 {
		return nil
	}
	var found []candidate
	for j := range s.sheet.Judges {
		if s.fitsSheet(withoutJudge(s.sheet, j)) {
			found = append(found, candidate{kind: KindJudge, size: sizeOfSheet, judge: j})
		}
	}
	return s.settle(found)
}

// oneK finds every K, 1 to 99, that gives the printed total in the place of
// one line's K. A K has a part in every judge's total: where all typed totals
// agree, none is mistyped.
func (s *search) oneK() []candidate {
	differs := false
	for _, d := range s.sheets {
		differs = differs || d
	}
	if !differs {
		return nil
	}
	var found []candidate
	s.eachK(func(i int, line Line) {
		if s.fitsWith(i, line) {
			found = append(found, candidate{kind: KindK, size: sizeOfK(s.sheet.Lines[i].K, line.K), line: i, k: line.K})
		}
	})
	return s.settle(found)
}

// eachK goes through every line with every other K that it may have had.
func (s *search) eachK(try func(i int, line Line)) {
	for i, line := range s.sheet.Lines {
		was := line.K
		for k := 1; k <= topSlipK; k++ {
			if line.K = k; k != was {
				try(i, line)
			}
		}
	}
}
