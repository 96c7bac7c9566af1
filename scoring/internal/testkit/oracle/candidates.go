package oracle

import (
	"fmt"
	"math/big"
)

// Classes of what may explain a printed total that is not the own one.
const (
	SlipRules   = "rules"     // another setting, a weighted line left out, a penalty counted otherwise
	SlipPenalty = "penalty"   // a penalty that the sheet does not have
	SlipZero    = "zero"      // a hard zero of some judges confirmed by the jury
	SlipFigure  = "figure"    // a figure that counts nothing
	SlipTotal   = "total"     // two digits of the printed total changed over
	SlipMark    = "mark"      // one mark misread
	SlipJudge   = "judge"     // one sheet left out
	SlipK       = "k"         // one K mistyped
	SlipTwoK    = "k-swapped" // the K of two neighbouring figures, each typed for the other
	SlipRows    = "rows"      // the rows of two neighbouring figures swapped
	SlipMarks   = "marks"     // two marks misread, each by half a point
)

// Candidate is one change of a sheet, the points that come of it and the maximum that
// they are out of; no candidate leaves a line undecided.
type Candidate struct {
	Class, What string
	Points      *big.Rat
	Maximum     *big.Rat
}

// Percent is the candidate with its points as a percent of its maximum.
func (c Candidate) Percent() Candidate {
	c.Points = new(big.Rat).Quo(new(big.Rat).Mul(c.Points, whole(100)), c.Maximum)
	c.Maximum = whole(100)
	return c
}

// Candidates tries every change of a class on a sheet of which every line is
// decided. Penalties that the sheet does not have are tried up to the points
// that it has. A total is mistyped as it would be printed, with so many decimals.
func Candidates(sheet Sheet, class string, places int) []Candidate {
	switch class {
	case SlipRules:
		return rulesCandidates(sheet)
	case SlipPenalty:
		return penaltyCandidates(sheet)
	case SlipZero:
		return zeroCandidates(sheet)
	case SlipFigure:
		return figureCandidates(sheet)
	case SlipTotal:
		return totalCandidates(sheet, places)
	case SlipMark:
		return markCandidates(sheet)
	case SlipJudge:
		return judgeCandidates(sheet)
	case SlipK:
		return kCandidates(sheet)
	case SlipTwoK:
		return swappedKCandidates(sheet)
	case SlipRows:
		return rowsCandidates(sheet)
	default:
		return marksCandidates(sheet)
	}
}

// tried collects candidates of one class; maximum is that of what is not a sheet of its own.
type tried struct {
	class   string
	maximum *big.Rat
	list    []Candidate
}

func tries(class string, sheet Sheet) *tried {
	return &tried{class: class, maximum: Score(sheet).Maximum}
}

func (t *tried) sheet(sheet Sheet, format string, args ...any) {
	if score := Score(sheet); score.Points != nil {
		t.list = append(t.list, Candidate{t.class, fmt.Sprintf(format, args...), score.Points, score.Maximum})
	}
}

func (t *tried) points(points *big.Rat, format string, args ...any) {
	t.list = append(t.list, Candidate{t.class, fmt.Sprintf(format, args...), points, t.maximum})
}

// copied gives a sheet whose rows may be changed.
func copied(sheet Sheet) Sheet {
	lines := make([]Line, len(sheet.Lines))
	for i, line := range sheet.Lines {
		line.Marks = append([]string{}, line.Marks...)
		lines[i] = line
	}
	sheet.Lines = lines
	return sheet
}

// A penalty that is not on the sheet: a whole number of points, a multiple of 5,
// of 5 from every judge among them.
func penaltyCandidates(sheet Sheet) []Candidate {
	t := tries(SlipPenalty, sheet)
	own := Score(sheet).Points
	for penalty := 5; whole(penalty).Cmp(own) <= 0; penalty += 5 {
		t.points(new(big.Rat).Sub(own, whole(penalty)), "penalty %d", penalty)
	}
	return t.list
}

// The rows of two figures that stand next to each other, on one sheet or on
// all. A swap that moves nothing is none, and one on all sheets that moves the
// marks of a single one is that sheet's.
func rowsCandidates(sheet Sheet) []Candidate {
	t := tries(SlipRows, sheet)
	for i := 0; i+1 < len(sheet.Lines); i++ {
		if sheet.Lines[i].Weighted || sheet.Lines[i+1].Weighted {
			continue
		}
		all, moved := copied(sheet), 0
		for judge := range sheet.Judges {
			if sheet.Lines[i].Marks[judge] == sheet.Lines[i+1].Marks[judge] {
				continue
			}
			moved++
			one := copied(sheet)
			swap(one, i, judge)
			swap(all, i, judge)
			t.sheet(one, "rows %d %d of %d", i, i+1, judge)
		}
		if moved > 1 {
			t.sheet(all, "rows %d %d of all", i, i+1)
		}
	}
	return t.list
}

func swap(sheet Sheet, line, judge int) {
	above, below := sheet.Lines[line].Marks, sheet.Lines[line+1].Marks
	above[judge], below[judge] = below[judge], above[judge]
}

func markCandidates(sheet Sheet) []Candidate {
	t := tries(SlipMark, sheet)
	for i, line := range sheet.Lines {
		for judge, was := range line.Marks {
			for _, would := range readings(line) {
				if would == was {
					continue
				}
				other := copied(sheet)
				other.Lines[i].Marks[judge] = would
				t.sheet(other, "mark %d %d %s", i, judge, would)
			}
		}
	}
	return t.list
}

// readings are what a mark may have been: any grade, AV and, of a figure, HZ or PZ.
func readings(line Line) []string {
	marks := []string{Average}
	if !line.Weighted {
		marks = append(marks, HardZero, PerceptionZero)
	}
	for half := 0; half <= 20; half++ {
		marks = append(marks, gradeText(half))
	}
	return marks
}

func judgeCandidates(sheet Sheet) []Candidate {
	t := tries(SlipJudge, sheet)
	for judge := range sheet.Judges {
		if sheet.Judges == 1 {
			break
		}
		other := copied(sheet)
		other.Judges--
		for i, line := range other.Lines {
			other.Lines[i].Marks = append(line.Marks[:judge:judge], line.Marks[judge+1:]...)
		}
		t.sheet(other, "judge %d", judge)
	}
	return t.list
}

// A figure with a hard zero, not confirmed yet: the jury confirms the first.
func zeroCandidates(sheet Sheet) []Candidate {
	t := tries(SlipZero, sheet)
	for i, line := range sheet.Lines {
		for judge, mark := range line.Marks {
			if mark == HardZero && !line.Weighted {
				other := copied(sheet)
				other.Lines[i].Marks[judge] = ConfirmedHardZero
				t.sheet(other, "zero %d", i)
				break
			}
		}
	}
	return t.list
}

// A figure without a hard zero whose points are not in the sum; its K stays in the
// maximum.
func figureCandidates(sheet Sheet) []Candidate {
	t := tries(SlipFigure, sheet)
	for i, line := range sheet.Lines {
		if line.Weighted || count(line.Marks, HardZero) > 0 {
			continue
		}
		without := sheet
		without.Lines = append(append([]Line{}, sheet.Lines[:i]...), sheet.Lines[i+1:]...)
		if points := Score(without).Points; points != nil {
			t.points(points, "figure %d", i)
		}
	}
	return t.list
}

func kCandidates(sheet Sheet) []Candidate {
	t := tries(SlipK, sheet)
	for i, line := range sheet.Lines {
		for k := 1; k <= 99; k++ {
			if k != line.K {
				other := copied(sheet)
				other.Lines[i].K = k
				t.sheet(other, "k %d %d", i, k)
			}
		}
	}
	return t.list
}

// The K of two figures that stand next to each other, each with the other's.
func swappedKCandidates(sheet Sheet) []Candidate {
	t := tries(SlipTwoK, sheet)
	for i := 0; i+1 < len(sheet.Lines); i++ {
		if sheet.Lines[i].Weighted || sheet.Lines[i+1].Weighted || sheet.Lines[i].K == sheet.Lines[i+1].K {
			continue
		}
		other := copied(sheet)
		other.Lines[i].K, other.Lines[i+1].K = sheet.Lines[i+1].K, sheet.Lines[i].K
		t.sheet(other, "two k %d %d", i, i+1)
	}
	return t.list
}

func marksCandidates(sheet Sheet) []Candidate {
	t := tries(SlipMarks, sheet)
	cells := len(sheet.Lines) * sheet.Judges
	for first := range cells {
		for second := first + 1; second < cells; second++ {
			for _, steps := range [][2]int{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}} {
				other := copied(sheet)
				if step(other, first, steps[0]) && step(other, second, steps[1]) {
					t.sheet(other, "marks %d %+d and %d %+d", first, steps[0], second, steps[1])
				}
			}
		}
	}
	return t.list
}

// step moves the grade of one cell by half points; false where it cannot.
func step(sheet Sheet, cell, by int) bool {
	mark := &sheet.Lines[cell/sheet.Judges].Marks[cell%sheet.Judges]
	for half := 0; half <= 20; half++ {
		if *mark == gradeText(half) && half+by >= 0 && half+by <= 20 {
			*mark = gradeText(half + by)
			return true
		}
	}
	return false
}

// The own total as it would be printed, with two digits that stand next to each
// other changed over; a whole number keeps its first digit from being 0.
func totalCandidates(sheet Sheet, places int) []Candidate {
	t := tries(SlipTotal, sheet)
	own := Score(sheet).Points
	last, ones := below(own, places), tenTo(places).Num().Int64() // one whole point
	for units := last; units <= last+1; units++ {
		if !Fits(own, units, places) {
			continue
		}
		for place := int64(1); place*10 <= max(units, ones); place *= 10 {
			right, left := units/place%10, units/place/10%10
			first := place*10 > units/10 && place*10 >= ones
			if right != left && (right != 0 || !first || place*10 == ones) {
				t.points(new(big.Rat).Quo(whole(int(units+(right-left)*place*9)), tenTo(places)), "total")
			}
		}
	}
	return t.list
}
