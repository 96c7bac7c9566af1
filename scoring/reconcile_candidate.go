package scoring

import (
	"math/big"
	"slices"
	"sort"
)

// candidate is an explanation in the making: lines and judges by index.
type candidate struct {
	kind     ExplanationKind
	size     int // how large a slip it takes; see the sizes in reconcile_order.go
	line     int // the line concerned, the first of two
	second   int // the second line of kinds marks, rows and k-swapped
	step     int // kind mark: the nearest step that fits
	last     int // and the farthest
	cells    []cellChange
	all      bool // kind rows: all cells together, else the two of any one judge
	pairs    int  // kind marks: how many pairs the cells stand for
	judge    int  // kind judge
	k        int  // kinds k and k-swapped
	style    *Style
	setting  Setting // what is changed of the style
	without  []LineKind
	penalty  *big.Rat
	extra    int64      // kind penalty
	total    typedTotal // kind total
	unlikely bool       // kind mark: every cell is far from the other judges
	rulings  []Decision

	againstSum  bool     // kind k: unlikely, for the sum of K is that of the form
	deducted    Deducted // how the penalty came about
	part        int      // which penalty was counted so, 0 for all
	contradicts bool
	onSheets    bool // a penalty that every judge's typed total has deducted
}

type cellChange struct {
	line, judge int
	was, would  Mark
}

// apply gives the sheet that a candidate speaks of, by its first way where it
// stands for several; the penalty stays as it is.
func (c candidate) apply(sheet Sheet) Sheet {
	sheet = withRulings(sheet, c.rulings)
	switch c.kind {
	case KindMark, KindZero:
		setMark(sheet.Lines, c.cells[0])
	case KindFigure:
		sheet.Lines[c.line].Marks = zeroedMarks(sheet.Lines[c.line].Marks)
	case KindMarks:
		setMark(sheet.Lines, c.cells[0])
		setMark(sheet.Lines, c.partner())
	case KindRows:
		cells := c.cells[:2]
		if c.all {
			cells = c.cells
		}
		for _, cell := range cells {
			setMark(sheet.Lines, cell)
		}
	case KindK:
		sheet.Lines[c.line].K = c.k
	case KindSwappedK:
		sheet.Lines[c.line].K, sheet.Lines[c.second].K = sheet.Lines[c.second].K, sheet.Lines[c.line].K
	case KindJudge:
		return withoutJudge(sheet, c.judge)
	case KindRules:
		if c.style != nil {
			sheet.Style = *c.style
		}
		return withoutLines(sheet, c.without)
	}
	return sheet
}

// partner is the cell that goes with the first one of two marks.
func (c candidate) partner() cellChange {
	if c.line == c.second {
		return c.cells[1]
	}
	return c.cells[len(c.cells)-1]
}

// setMark changes one mark in a row of its own; lines is a copy already.
func setMark(lines []Line, cell cellChange) {
	marks := append([]Mark(nil), lines[cell.line].Marks...)
	marks[cell.judge] = cell.would
	lines[cell.line].Marks = marks
}

// withoutJudge gives the sheet of the panel without one judge.
func withoutJudge(sheet Sheet, judge int) Sheet {
	lines := make([]Line, len(sheet.Lines))
	store := make([]Mark, 0, len(sheet.Lines)*sheet.Judges)
	for i, line := range sheet.Lines {
		from := len(store)
		store = append(store, line.Marks[:judge]...)
		store = append(store, line.Marks[judge+1:]...)
		line.Marks = store[from:len(store):len(store)]
		lines[i] = line
	}
	sheet.Lines = lines
	sheet.Judges--
	return sheet
}

// withoutLines gives the sheet without the lines of some kinds.
func withoutLines(sheet Sheet, kinds []LineKind) Sheet {
	if len(kinds) == 0 {
		return sheet
	}
	lines := make([]Line, 0, len(sheet.Lines))
	for _, line := range sheet.Lines {
		if !slices.Contains(kinds, line.Kind) {
			lines = append(lines, line)
		}
	}
	sheet.Lines = lines
	return sheet
}

// settle fills in what depends on the whole sheet: whether the assumed rulings
// are needed and whether the candidate goes against the judges' typed totals.
func (s *search) settle(found []candidate) []candidate {
	for i := range found {
		found[i].rulings = s.neededRulings(found[i])
		found[i].contradicts = s.contradicts(found[i])
		if less := s.deducts(found[i]); found[i].contradicts && less != nil && !totalsDiffer(s.sheet, s.score.JudgeTotals, s.printed, less) {
			found[i].contradicts, found[i].onSheets = false, true
		}
	}
	return found
}

// neededRulings gives the assumed rulings without those on lines that a
// candidate decides or leaves out by itself; nil where none is left.
func (s *search) neededRulings(c candidate) []Decision {
	if s.rulings == nil {
		return nil
	}
	var needed []Decision
	changed, at := c.apply(s.open), 0
	for i, line := range s.open.Lines {
		if slices.Contains(c.without, line.Kind) {
			continue
		}
		if s.rulings[i] != NoDecision && verdict(changed.Lines[at], changed.Style) == rowOpen {
			if needed == nil {
				needed = make([]Decision, len(s.rulings))
			}
			needed[i] = s.rulings[i]
		}
		at++
	}
	return needed
}

// deducts is what a candidate takes off beyond the sheet's penalties; nil where it is nothing.
func (s *search) deducts(c candidate) *big.Rat {
	less := big.NewRat(c.extra, 1)
	if c.penalty != nil {
		less.Sub(c.penalty, s.score.Penalty)
	}
	if less.Sign() <= 0 {
		return nil
	}
	return less
}

// contradicts reports whether judges' totals were typed and a candidate does
// not give them or, where the printed total is their mean, leaves them all as they are.
func (s *search) contradicts(c candidate) bool {
	switch {
	case len(s.printed.JudgeTotals) == 0:
		return false
	case s.ofTotals && s.keepsTotals(c):
		return true
	}
	changed := s.sheet
	if c.kind != KindJudge {
		changed = c.apply(s.sheet)
	}
	return totalsDiffer(changed, s.totalsWith(c), s.printed, new(big.Rat))
}

// totalsDiffer reports whether any judge's total, less what is deducted on every sheet, is
// not the typed one.
func totalsDiffer(sheet Sheet, totals []*big.Rat, printed Printed, less *big.Rat) bool {
	agrees := func(total *big.Rat, typed Decimal) bool {
		return total != nil && Agrees(new(big.Rat).Sub(total, less), typed)
	}
	return slices.ContainsFunc(judgeDifferences(sheet, totals, printed), func(d JudgeDifference) bool {
		return !agrees(d.Own, d.Printed) && !agrees(d.Typed, d.Printed)
	})
}

// keepsTotals reports whether a candidate leaves every judge's total as it is.
func (s *search) keepsTotals(c candidate) bool {
	return slices.EqualFunc(s.totalsWith(c), s.score.JudgeTotals, func(a, b *big.Rat) bool { return a.Cmp(b) == 0 })
}

// totalsWith gives the judges' totals that a candidate leads to. A penalty and
// a sheet left out leave every total as it is.
func (s *search) totalsWith(c candidate) []*big.Rat {
	switch {
	case c.kind == KindJudge || c.kind == KindPenalty || c.kind == KindTotal || c.penalty != nil:
		return s.score.JudgeTotals
	case c.kind == KindRules:
		return c.apply(s.sheet).Score().JudgeTotals
	}
	changed := c.apply(s.sheet)
	totals := s.moveTotals(s.score.JudgeTotals, c.line, changed)
	if (c.kind == KindMarks || c.kind == KindRows || c.kind == KindSwappedK) && c.second != c.line {
		totals = s.moveTotals(totals, c.second, changed)
	}
	return totals
}

// moveTotals gives the judges' totals with one line of a changed sheet.
func (s *search) moveTotals(totals []*big.Rat, at int, changed Sheet) []*big.Rat {
	line := changed.Lines[at]
	was, now := s.score.Lines[at].Cells, scoreLine(line, changed.Style).Cells
	out := make([]*big.Rat, len(totals))
	for j := range out {
		out[j] = new(big.Rat).Mul(now[j].Used, big.NewRat(int64(line.K), 1))
		out[j].Sub(out[j], new(big.Rat).Mul(was[j].Used, big.NewRat(int64(s.sheet.Lines[at].K), 1)))
		out[j].Add(out[j], totals[j])
	}
	return out
}

// arrange puts the most plausible first: what gives the judges' typed totals
// as well, then what is not unlikely, the order of the classes, the smaller slip, the lower figure.
func arrange(found []candidate) {
	sort.SliceStable(found, func(i, j int) bool {
		a, b := found[i], found[j]
		switch {
		case a.contradicts != b.contradicts:
			return b.contradicts
		case a.unlikely != b.unlikely:
			return b.unlikely
		case rankOf(a.kind) != rankOf(b.kind):
			return rankOf(a.kind) < rankOf(b.kind)
		case a.size != b.size:
			return a.size < b.size
		case a.line != b.line:
			return a.line < b.line
		default:
			return a.second < b.second
		}
	})
}

// fits counts the marks, or where there are none the pairs of marks, any one
// of which would do, the judges' typed totals given too.
func fits(found []candidate) int {
	type place struct{ line, judge int }
	cells, pairs := map[place]bool{}, 0
	for _, c := range found {
		if c.contradicts {
			continue
		}
		pairs += c.pairs
		if c.kind != KindMark {
			continue
		}
		for _, cell := range c.cells {
			cells[place{cell.line, cell.judge}] = true
		}
	}
	return len(cells) + pairs
}
