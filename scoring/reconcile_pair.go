package scoring

import (
	"math/big"
	"slices"
	"sort"
)

// halfStep is what half a point more or less in one of some marks of a line
// does to its points: the same for all of these judges.
type halfStep struct {
	line, step int
	change     int64 // in units
	judges     []int
	points     *big.Rat // the line's exact points with the step, once worked out
}

// twoMarks finds the pairs of grades that, each misread by half a point, give
// the printed total. Two lines add up, so for each half step the partner is
// looked up among the sorted changes; two marks of one line are worked out
// together, since dropped extremes and rounded fills do not add up.
func (s *search) twoMarks() []candidate {
	steps := s.halfSteps()
	sort.SliceStable(steps, func(a, b int) bool { return steps[a].change < steps[b].change })
	var found []candidate
	for a := range steps {
		first := &steps[a]
		low, high := s.low-s.total-first.change, s.high-s.total-first.change
		from := sort.Search(len(steps), func(b int) bool { return steps[b].change >= low })
		for b := from; b < len(steps) && steps[b].change <= high; b++ {
			if second := &steps[b]; first.line < second.line && s.pairFits(first, second) {
				found = append(found, s.pairs(first, second)...)
			}
		}
	}
	for i := range s.sheet.Lines {
		found = append(found, s.pairsOfLine(i)...)
	}
	return s.settle(found)
}

// halfSteps lists every half step up and down, judges that come to the same
// together.
func (s *search) halfSteps() []halfStep {
	var steps []halfStep
	scratch := make([]Mark, s.sheet.Judges)
	for i, line := range s.sheet.Lines {
		was, from := line.Marks, len(steps)
		line.Marks = scratch
		copy(scratch, was)
		for j, m := range was {
			for _, step := range s.stepsOf(j, m) {
				scratch[j] = GradeOf(int(m.Half) + step)
				units, _ := lineUnits(line, s.sheet.Style)
				steps = addStep(steps, from, i, step, units-s.units[i], j)
			}
			scratch[j] = m
		}
	}
	return steps
}

// addStep adds a judge to the steps of a line, which start at from.
func addStep(steps []halfStep, from, line, step int, change int64, judge int) []halfStep {
	for k := from; k < len(steps); k++ {
		if steps[k].step == step && steps[k].change == change {
			steps[k].judges = append(steps[k].judges, judge)
			return steps
		}
	}
	return append(steps, halfStep{line: line, step: step, change: change, judges: []int{judge}})
}

// stepsOf gives the half steps that a judge's mark can take: none where it is
// not a grade or the sheet is not searched.
func (s *search) stepsOf(judge int, m Mark) []int {
	switch {
	case m.Kind != Grade || !s.sheets[judge]:
		return nil
	case m.Half == 0:
		return []int{1}
	case m.Half == TopGrade:
		return []int{-1}
	default:
		return []int{1, -1}
	}
}

// pairFits works two half steps out exactly where need be.
func (s *search) pairFits(first, second *halfStep) bool {
	if s.mustFit(s.total + first.change + second.change) {
		return true
	}
	return s.prints(s.rawOfPair(first, second), s.score.Penalty)
}

// rawOfPair gives the exact raw points with two half steps in two lines.
func (s *search) rawOfPair(first, second *halfStep) *big.Rat {
	raw := new(big.Rat).Set(s.score.Raw)
	for _, h := range []*halfStep{first, second} {
		if h.points == nil {
			h.points = s.stepped(h.line, []int{h.judges[0]}, []int{h.step}).Points
		}
		raw.Add(raw, h.points)
		raw.Sub(raw, s.score.Lines[h.line].Points)
	}
	return raw
}

// stepped scores a line with some judges' grades moved by half points.
func (s *search) stepped(line int, judges, steps []int) LineScore {
	return scoreLine(steppedLine(s.sheet.Lines[line], judges, steps), s.sheet.Style)
}

func steppedLine(line Line, judges, steps []int) Line {
	line.Marks = append([]Mark(nil), line.Marks...)
	for k, j := range judges {
		line.Marks[j] = GradeOf(int(line.Marks[j].Half) + steps[k])
	}
	return line
}

// pairs makes the candidates of two half steps in two lines: one of all the judges, or, where
// some pairs give the judges' typed totals, one of each of these.
func (s *search) pairs(first, second *halfStep) []candidate {
	all := s.pair(first, second)
	if len(s.printed.JudgeTotals) == 0 || all.pairs == 1 {
		return []candidate{all}
	}
	var giving []candidate
	for _, a := range first.judges {
		for _, b := range second.judges {
			one, other := *first, *second
			one.judges, other.judges = []int{a}, []int{b}
			if c := s.pair(&one, &other); !s.contradicts(c) {
				giving = append(giving, c)
			}
		}
	}
	if len(giving) == 0 {
		return []candidate{all}
	}
	return giving
}

// pair makes the candidate of two half steps in two lines.
func (s *search) pair(first, second *halfStep) candidate {
	c := candidate{
		kind: KindMarks, size: sizeOfPair, line: first.line, second: second.line, step: first.step, last: first.step,
		pairs: len(first.judges) * len(second.judges),
	}
	for _, h := range []*halfStep{first, second} {
		for _, j := range h.judges {
			c.cells = append(c.cells, s.moved(h.line, j, h.step))
		}
	}
	return c
}

// moved is one grade of the sheet moved by half points.
func (s *search) moved(line, judge, step int) cellChange {
	was := s.sheet.Lines[line].Marks[judge]
	return cellChange{line: line, judge: judge, was: was, would: GradeOf(int(was.Half) + step)}
}

// pairsOfLine finds the pairs within one line. Where any two of some judges
// fit with one step they are one candidate, else each pair is; those that go against the
// judges' typed totals stand apart.
func (s *search) pairsOfLine(i int) []candidate {
	var found, against []candidate
	s.eachPairOf(i, func(judges, steps []int) {
		if !s.fitsWith(i, steppedLine(s.sheet.Lines[i], judges, steps)) {
			return
		}
		c := candidate{
			kind: KindMarks, size: sizeOfPair, line: i, second: i, step: steps[0], last: steps[0], pairs: 1,
			cells: []cellChange{s.moved(i, judges[0], steps[0]), s.moved(i, judges[1], steps[1])},
		}
		if s.contradicts(c) {
			against = append(against, c)
		} else {
			found = append(found, c)
		}
	})
	return slices.Concat(joinPairs(found), joinPairs(against))
}

// eachPairOf goes through the pairs of judges of one line and the half steps
// that their grades can take.
func (s *search) eachPairOf(i int, try func(judges, steps []int)) {
	marks := s.sheet.Lines[i].Marks
	for j, m := range marks {
		for k := j + 1; k < len(marks); k++ {
			for _, a := range s.stepsOf(j, m) {
				for _, b := range s.stepsOf(k, marks[k]) {
					try([]int{j, k}, []int{a, b})
				}
			}
		}
	}
}

// joinPairs makes one candidate of the pairs of one line with one step for
// both marks, if any two of their judges are among them.
func joinPairs(pairs []candidate) []candidate {
	var out []candidate
	for _, step := range []int{1, -1} {
		var same []candidate
		same, pairs = splitByStep(pairs, step)
		if len(same) == 0 {
			continue
		}
		joined := same[0]
		joined.cells, joined.pairs = nil, len(same)
		for _, c := range same {
			for _, cell := range c.cells {
				joined.cells = addCell(joined.cells, cell)
			}
		}
		if n := len(joined.cells); n*(n-1)/2 == len(same) {
			same = []candidate{joined}
		}
		out = append(out, same...)
	}
	return append(out, pairs...)
}

// splitByStep parts the pairs in which both marks move by one step from the
// others.
func splitByStep(pairs []candidate, step int) (same, others []candidate) {
	for _, c := range pairs {
		if stepOf(c.cells[0]) == step && stepOf(c.cells[1]) == step {
			same = append(same, c)
		} else {
			others = append(others, c)
		}
	}
	return same, others
}

func stepOf(c cellChange) int { return int(c.would.Half) - int(c.was.Half) }

// addCell keeps the cells in the panel's order, each once.
func addCell(cells []cellChange, cell cellChange) []cellChange {
	at := 0
	for at < len(cells) && cells[at].judge < cell.judge {
		at++
	}
	if at < len(cells) && cells[at].judge == cell.judge {
		return cells
	}
	cells = append(cells, cellChange{})
	copy(cells[at+1:], cells[at:])
	cells[at] = cell
	return cells
}
