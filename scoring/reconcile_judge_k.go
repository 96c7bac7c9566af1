package scoring

import (
	"math/big"
	"slices"
)

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
	if !slices.Contains(s.sheets, true) {
		return nil
	}
	var found []candidate
	s.eachK(func(i int, line Line) {
		if s.fitsWith(i, line) {
			against := s.sumIsKnown(line)
			found = append(found, candidate{kind: KindK, size: sizeOfK(s.sheet.Lines[i].K, line.K), line: i, k: line.K, againstSum: against})
		}
	})
	found = s.settle(found)
	for i, c := range found {
		found[i].unlikely = c.againstSum && (c.contradicts || len(s.printed.JudgeTotals) < 2)
	}
	return found
}

// explainMaximum finds the K of a line that gives the printed total and the printed maximum,
// and the judges' typed totals, and reports whether there is one.
func (r *Reconciliation) explainMaximum(sheet Sheet, score Score, printed Printed) bool {
	if sheet.flownAgain() {
		return false
	}
	maximum := printed.Maximum.Rat()
	printed.Maximum = nil
	var found []candidate
	for _, s := range newSearches(sheet, score, printed) {
		for _, c := range s.oneK() {
			with := sheet.Lines[c.line]
			with.K = c.k
			if !c.contradicts && maximum.Cmp(big.NewRat(int64(s.maximumWith(c.line, with)), 1)) == 0 {
				c.unlikely = false
				found = append(found, c)
			}
		}
	}
	arrange(found)
	r.Explanations, r.Fits = finished(found, sheet, printed)
	return len(found) > 0
}

// sumIsKnown reports whether the form prints a sum of K, or a maximum, that one other K
// of a line alone would not give.
func (s *search) sumIsKnown(line Line) bool {
	printed := s.printed.Maximum != nil && !s.target.percent
	return printed || s.printed.KnownK == EveryLinesK || s.printed.KnownK == FiguresK && line.Kind == Figure
}

// swappedK finds the neighbouring figures that, each with the other's K, give the
// printed total: a slip that leaves the sum of K as it is.
func (s *search) swappedK() []candidate {
	if !slices.Contains(s.sheets, true) {
		return nil
	}
	var found []candidate
	s.eachSwappedK(func(i int, lines []Line) {
		if s.fitsWith(i, lines...) {
			found = append(found, candidate{kind: KindSwappedK, size: sizeOfSwappedK, line: i, second: i + 1, k: lines[0].K})
		}
	})
	return s.settle(found)
}

// eachSwappedK goes through the neighbouring figures of different K, each with the other's.
func (s *search) eachSwappedK(try func(i int, lines []Line)) {
	for _, i := range neighbours(s.sheet) {
		above, below := s.sheet.Lines[i], s.sheet.Lines[i+1]
		if above.K != below.K {
			above.K, below.K = below.K, above.K
			try(i, []Line{above, below})
		}
	}
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
