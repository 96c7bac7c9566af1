package scoring

import "math/big"

// Ruling says what the rule style made of a line.
type Ruling string

const (
	// AsMarked: every mark counts as it stands.
	AsMarked Ruling = ""
	// Filled: at least one mark was filled with the mean of the others.
	Filled Ruling = "filled"
	// Zeroed: the figure is 0 from every judge.
	Zeroed Ruling = "zeroed"
	// Undecided: the rule style cannot tell, the line is a range.
	Undecided Ruling = "undecided"
	// Resolved: the rule style could not tell and a recorded ruling did.
	Resolved Ruling = "resolved"
)

// Cell is what one mark came to. Used is in grades, nil while the line is
// undecided; Fill marks a filled value, Overruled a mark that a zero from the
// whole panel replaced, Dropped a value outside the mean (Used then holds what
// the judge's own total counts).
type Cell struct {
	Used      *big.Rat
	Fill      bool
	Overruled bool
	Dropped   bool
}

// LineScore is one line's worth: Mean in grades, Points = K x mean, Lost =
// K x (10 - mean), all nil while undecided. Low and High are the points at
// both ends, equal to Points once decided.
type LineScore struct {
	Ruling Ruling
	Cells  []Cell
	// Rows are the scores of each row of a figure that was flown several times;
	// the line's own numbers are then their means.
	Rows      []LineScore
	Mean      *big.Rat
	Points    *big.Rat
	Lost      *big.Rat
	Low, High *big.Rat
}

// Score is a flight's worth. Lines follow the sheet's. JudgeTotals count every
// filled mark, dropped ones too. Raw, Points, Percent and JudgeTotals are nil
// while any line is undecided; Low and High are the points at both ends, the
// penalty deducted, never below 0. Maximum is 10 x the sum of K.
type Score struct {
	Lines       []LineScore
	JudgeTotals []*big.Rat
	Raw         *big.Rat
	Penalty     *big.Rat
	Points      *big.Rat
	Percent     *big.Rat
	Maximum     int
	Low, High   *big.Rat
}

// Decided reports whether every line has a value.
func (s Score) Decided() bool { return s.Points != nil }

// Score is one line's worth by itself, where the sheet's is not asked for.
func (l Line) Score(style Style) LineScore { return scoreLine(l, style) }

// Score works the sheet out. A sheet has at least one line and one judge.
//
// Points = raw - penalties, never below 0; percent = 100 x points / maximum
// [common practice]. The parts: grade x K and K of a figure = base K + K of its
// elements [published: adastral, grade x K; adastral, K of a figure], the sum of
// K x mean mark [published: sagach-gold, scoring].
func (s Sheet) Score() Score {
	out := Score{Lines: make([]LineScore, len(s.Lines)), Penalty: s.penalty(), Maximum: s.Maximum()}
	decided := true
	for i, line := range s.Lines {
		out.Lines[i] = scoreLine(line, s.Style)
		decided = decided && out.Lines[i].Points != nil
	}
	low := sum(out.Lines, func(l LineScore) *big.Rat { return l.Low })
	out.Low = lessPenalty(low, out.Penalty)
	if out.High = out.Low; !decided {
		out.High = lessPenalty(sum(out.Lines, func(l LineScore) *big.Rat { return l.High }), out.Penalty)
	}
	if decided {
		out.Raw, out.Points = low, out.Low
		out.Percent = percentOf(out.Points, out.Maximum)
		out.JudgeTotals = s.judgeTotals(out.Lines)
	}
	return out
}

// sum adds one number of every line.
func sum(lines []LineScore, of func(LineScore) *big.Rat) *big.Rat {
	var t total
	for _, line := range lines {
		t.add(of(line))
	}
	return t.sum()
}

// percentOf gives 100 x points / maximum, nil where there is no maximum.
func percentOf(points *big.Rat, maximum int) *big.Rat {
	if maximum == 0 {
		return nil
	}
	return new(big.Rat).Mul(points, big.NewRat(100, int64(maximum)))
}

func lessPenalty(raw, penalty *big.Rat) *big.Rat {
	points := new(big.Rat).Sub(raw, penalty)
	if points.Sign() < 0 {
		points.SetInt64(0)
	}
	return points
}

func (s Sheet) judgeTotals(lines []LineScore) []*big.Rat {
	totals := make([]*big.Rat, s.Judges)
	for j := range totals {
		halfPoints := int64(0)
		var filled *big.Rat
		for i, line := range s.Lines {
			cell := lines[i].Cells[j]
			if !cell.Fill && !cell.Overruled && len(line.Again) == 0 {
				halfPoints += int64(line.K) * int64(line.Marks[j].Half)
				continue
			}
			if filled == nil {
				filled = new(big.Rat)
			}
			part := new(big.Rat).SetInt64(int64(line.K))
			filled.Add(filled, part.Mul(part, cell.Used))
		}
		totals[j] = fraction(halfPoints, 2)
		if filled != nil {
			totals[j] = filled.Add(filled, totals[j])
		}
	}
	return totals
}
