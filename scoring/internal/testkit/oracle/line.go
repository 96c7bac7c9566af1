package oracle

import "math/big"

// scoreLine gives a line's ruling and what the line is worth under the style.
func scoreLine(line Line, style Style) LineResult {
	ruling, filled := decide(line, style)
	if ruling == Undecided {
		return undecidedLine(line, style)
	}
	used := usedMarks(filled, style)
	mean := meanOf(used)
	points := times(line.K, mean)
	lost := new(big.Rat).Sub(times(line.K, whole(10)), points)
	return LineResult{
		Ruling: ruling, Filled: filled, Used: used,
		Mean: mean, Points: points, Lost: lost, Low: points, High: points,
	}
}

// undecidedLine gives the range of a line that nobody has decided: the figure
// at 0 and with its hard zeros filled; without any numeric mark, at 0 and at 10.
func undecidedLine(line Line, style Style) LineResult {
	high := times(line.K, whole(10))
	if marksGiven(line.Marks) > 0 {
		filled := filledRow(line.Marks, style)
		high = times(line.K, meanOf(usedMarks(filled, style)))
	}
	return LineResult{
		Ruling: Undecided, Used: make([]*big.Rat, len(line.Marks)),
		Low: whole(0), High: high,
	}
}

// decide gives the ruling on a row and the row of numbers that stands then, one
// per judge; no row where the ruling is "undecided".
func decide(line Line, style Style) (ruling string, row []*big.Rat) {
	zeros := rowOfZeros(len(line.Marks))

	// One confirmed hard zero is 0 from every judge, whatever the style and
	// whatever else is in the row.
	if count(line.Marks, ConfirmedHardZero) > 0 {
		return Zeroed, zeros
	}

	// No judge gave a mark: nothing to fill from, so only "zero" decides.
	if marksGiven(line.Marks) == 0 {
		if line.Resolve == Zero {
			return Resolved, zeros
		}
		return Undecided, nil
	}

	hardZeros := count(line.Marks, HardZero)
	others := marksGiven(line.Marks) - hardZeros

	// Each hard zero counts as given, or there is none.
	if style.HardZero == AsGiven || hardZeros == 0 {
		return rulingOfFilling(line.Marks, style), filledRow(line.Marks, style)
	}
	// From more than half of the judges who gave a mark: 0 from all.
	if hardZeros > others {
		return Zeroed, zeros
	}
	// From fewer: those marks are filled.
	if hardZeros < others {
		return Filled, filledRow(line.Marks, style)
	}
	// From exactly half.
	return decideHalf(line, style)
}

// decideHalf decides a row with hard zeros from exactly half of the judges who
// gave a mark: first the style, then, where the style cannot, the chief judge.
func decideHalf(line Line, style Style) (ruling string, row []*big.Rat) {
	zeros, filled := rowOfZeros(len(line.Marks)), filledRow(line.Marks, style)
	if style.Half == Zero {
		return Zeroed, zeros
	}
	if style.Half == Fill {
		return Filled, filled
	}
	if line.Resolve == Zero {
		return Resolved, zeros
	}
	if line.Resolve == Fill {
		return Resolved, filled
	}
	return Undecided, nil
}

// marksGiven counts the judges who gave a mark: AV and - are none.
func marksGiven(marks []string) int {
	return len(marks) - count(marks, Average) - count(marks, NoMark)
}

func count(marks []string, kind string) int {
	n := 0
	for _, mark := range marks {
		if mark == kind {
			n++
		}
	}
	return n
}

// toBeFilled says whether a mark is to be filled: AV and - always, a hard zero
// unless each counts as given.
func toBeFilled(mark string, style Style) bool {
	if mark == HardZero {
		return style.HardZero == Majority
	}
	return mark == Average || mark == NoMark
}

func rulingOfFilling(marks []string, style Style) string {
	for _, mark := range marks {
		if toBeFilled(mark, style) {
			return Filled
		}
	}
	return ""
}

// filledRow gives the number for each mark; a mark to be filled gets the mean
// of the row's other marks, rounded as the style says.
func filledRow(marks []string, style Style) []*big.Rat {
	var numeric []*big.Rat
	for _, mark := range marks {
		if !toBeFilled(mark, style) {
			numeric = append(numeric, numberOf(mark))
		}
	}
	row := make([]*big.Rat, len(marks))
	for i, mark := range marks {
		if toBeFilled(mark, style) {
			row[i] = roundFilled(meanOf(numeric), style.FillRounding)
		} else {
			row[i] = numberOf(mark)
		}
	}
	return row
}

// numberOf gives a mark's number: a grade its own, PZ and HZ 0.
func numberOf(mark string) *big.Rat {
	if mark == PerceptionZero || mark == HardZero {
		return whole(0)
	}
	number, ok := new(big.Rat).SetString(mark)
	must(ok, "mark %q has no number", mark)
	return number
}

// roundFilled rounds a filled mark half up to the step "0.1" or "0.5"; "none"
// leaves it as it is.
func roundFilled(mark *big.Rat, rounding string) *big.Rat {
	if rounding == "none" {
		return mark
	}
	step, ok := new(big.Rat).SetString(rounding)
	must(ok, "fill-rounding %q", rounding)
	// The whole part of (mark in steps + one half), in steps.
	steps := new(big.Rat).Quo(mark, step)
	steps.Add(steps, big.NewRat(1, 2))
	wholeSteps := new(big.Int).Div(steps.Num(), steps.Denom())
	return new(big.Rat).Mul(new(big.Rat).SetInt(wholeSteps), step)
}

// usedMarks gives the marks that enter the mean. Where extremes are dropped and
// the panel has 5 or more, one highest and one lowest are nil: of equals the
// first from the left; the first two where all are equal.
func usedMarks(row []*big.Rat, style Style) []*big.Rat {
	used := append([]*big.Rat(nil), row...)
	if !style.DropExtremes || len(row) < 5 {
		return used
	}
	highest, lowest := 0, 0
	for i := range row {
		if row[i].Cmp(row[highest]) > 0 {
			highest = i
		}
		if row[i].Cmp(row[lowest]) < 0 {
			lowest = i
		}
	}
	if highest == lowest {
		lowest = 1
	}
	used[highest], used[lowest] = nil, nil
	return used
}

// meanOf gives the mean of the numbers that are not nil; there must be one.
func meanOf(numbers []*big.Rat) *big.Rat {
	sum, n := whole(0), 0
	for _, number := range numbers {
		if number != nil {
			sum.Add(sum, number)
			n++
		}
	}
	must(n > 0, "a mean of no numbers")
	return sum.Quo(sum, whole(n))
}

func rowOfZeros(judges int) []*big.Rat {
	row := make([]*big.Rat, judges)
	for i := range row {
		row[i] = whole(0)
	}
	return row
}

func whole(n int) *big.Rat { return big.NewRat(int64(n), 1) }

func times(k int, number *big.Rat) *big.Rat {
	return new(big.Rat).Mul(whole(k), number)
}
