package scoring

import "math/big"

// scoreLine applies the rule style to one line.
func scoreLine(line Line, style Style) LineScore {
	if len(line.Again) > 0 {
		return scoreAgain(line, style)
	}
	switch verdict(line, style) {
	case rowZero:
		return finish(line, zeroRow(line), ruled(line, style, Zeroed))
	case rowFill:
		cells, filled := fillRow(line.Marks, style)
		if style.DropExtremes && len(cells) >= DropPanel {
			dropExtremes(cells)
		}
		ruling := AsMarked
		if filled {
			ruling = Filled
		}
		return finish(line, cells, ruled(line, style, ruling))
	default:
		return openLine(line, style)
	}
}

// outcome is what a row of marks comes to under a rule style.
type outcome uint8

const (
	rowFill outcome = iota // hard zeros of a minority, AV and "-" are filled
	rowZero                // 0 from every judge
	rowOpen                // not decided
)

// verdict decides between a filled row, a zeroed one and an open one.
func verdict(line Line, style Style) outcome {
	own := ownVerdict(line.Marks, style)
	if own != rowOpen {
		return own
	}
	switch {
	case line.Decision == RuledZero:
		return rowZero
	case line.Decision == RuledFill && countNumeric(line.Marks, style) > 0:
		return rowFill
	default:
		return rowOpen
	}
}

// ownVerdict is the rule style's own answer, before any recorded ruling.
func ownVerdict(marks []Mark, style Style) outcome {
	vote := VoteOn(marks)
	switch {
	case vote.Confirmed:
		return rowZero
	case vote.Side == Silent:
		return rowOpen
	case style.HardZero == AsGiven || vote.Side == Minority:
		return rowFill
	case vote.Side == Majority || style.Half == HalfZero:
		return rowZero
	case style.Half == HalfFill:
		return rowFill
	default:
		return rowOpen
	}
}

// ruled replaces the ruling of a line that only a recorded decision settled.
func ruled(line Line, style Style, ruling Ruling) Ruling {
	if line.Decision != NoDecision && ownVerdict(line.Marks, style) == rowOpen {
		return Resolved
	}
	return ruling
}

// counts reports whether a mark is a number of its own under the style: a hard
// zero is one only where it counts as given.
func counts(m Mark, style Style) bool {
	return m.numeric() || (m.Kind == HardZero && style.HardZero == AsGiven)
}

func countNumeric(marks []Mark, style Style) int {
	n := 0
	for _, m := range marks {
		if counts(m, style) {
			n++
		}
	}
	return n
}

// fillValue is the mean of the row's own numbers, rounded as the style says.
// The row has at least one number.
func fillValue(marks []Mark, style Style) *big.Rat {
	sum, n := int64(0), int64(0)
	for _, m := range marks {
		if counts(m, style) {
			sum += int64(m.Half)
			n++
		}
	}
	return style.FillRounding.round(big.NewRat(sum, 2*n))
}

// fillRow gives every mark its number and says whether any was filled.
func fillRow(marks []Mark, style Style) ([]Cell, bool) {
	cells := make([]Cell, len(marks))
	var fill *big.Rat
	for i, m := range marks {
		if counts(m, style) {
			cells[i].Used = halves[m.Half]
			continue
		}
		if fill == nil {
			fill = fillValue(marks, style)
		}
		cells[i] = Cell{Used: fill, Fill: true}
	}
	return cells, fill != nil
}

// zeroRow is a row that counts 0 from every judge.
func zeroRow(line Line) []Cell {
	cells := make([]Cell, len(line.Marks))
	for i, m := range line.Marks {
		cells[i] = Cell{Used: halves[0], Overruled: m.Kind != HardZero && m.Kind != ConfirmedHardZero}
	}
	return cells
}

// dropExtremes leaves one highest and one lowest value out of the mean, the
// first of equals each.
func dropExtremes(cells []Cell) {
	lowest, highest := -1, -1
	for i := range cells {
		if highest < 0 || cells[i].Used.Cmp(cells[highest].Used) > 0 {
			highest = i
		}
	}
	for i := range cells {
		if i != highest && (lowest < 0 || cells[i].Used.Cmp(cells[lowest].Used) < 0) {
			lowest = i
		}
	}
	cells[highest].Dropped, cells[lowest].Dropped = true, true
}

// finish adds mean, points and loss to a decided row. Marks are halves of a
// grade and add up as whole numbers; only filled ones need a fraction.
func finish(line Line, cells []Cell, ruling Ruling) LineScore {
	halfPoints, n := int64(0), int64(0)
	var fills *big.Rat
	for i, c := range cells {
		switch {
		case c.Dropped:
			continue
		case c.Fill && fills == nil:
			fills = new(big.Rat).Set(c.Used)
		case c.Fill:
			fills.Add(fills, c.Used)
		case !c.Overruled:
			halfPoints += int64(line.Marks[i].Half)
		}
		n++
	}
	k := int64(line.K)
	if fills == nil {
		points := fraction(k*halfPoints, 2*n)
		return LineScore{
			Ruling: ruling, Cells: cells, Mean: fraction(halfPoints, 2*n),
			Points: points, Lost: fraction(k*(20*n-halfPoints), 2*n), Low: points, High: points,
		}
	}
	mean := fills.Add(fills, big.NewRat(halfPoints, 2))
	mean.Mul(mean, big.NewRat(1, n))
	points := new(big.Rat).Mul(mean, big.NewRat(k, 1))
	lost := new(big.Rat).Sub(big.NewRat(10*k, 1), points)
	return LineScore{Ruling: ruling, Cells: cells, Mean: mean, Points: points, Lost: lost, Low: points, High: points}
}

// openLine is a line that is not decided: from 0 to what it would be filled,
// or to 10 x K where there is no number to fill with.
func openLine(line Line, style Style) LineScore {
	high := big.NewRat(10*int64(line.K), 1)
	if countNumeric(line.Marks, style) > 0 {
		ruled := line
		ruled.Decision = RuledFill
		high = scoreLine(ruled, style).Points
	}
	return LineScore{Ruling: Undecided, Cells: make([]Cell, len(line.Marks)), Low: new(big.Rat), High: high}
}

// Open reports whether a row's marks leave the rule style undecided, before
// any recorded ruling.
func Open(marks []Mark, style Style) bool { return ownVerdict(marks, style) == rowOpen }

// HasNumber reports whether a row has a mark that counts as a number, to fill
// the others from.
func HasNumber(marks []Mark, style Style) bool { return countNumeric(marks, style) > 0 }
