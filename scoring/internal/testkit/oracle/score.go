package oracle

import "math/big"

// Score gives what a sheet is worth. It panics on a sheet that no ledger could
// give (an unknown word, a row too short, a hard zero on a weighted line).
func Score(sheet Sheet) Result {
	sheet.mustBeValid()
	result := Result{Penalty: sum(sheet.Penalties), Maximum: whole(0)}
	var lows, highs []*big.Rat
	decided := true
	for _, line := range sheet.Lines {
		scored := scoreLine(line, sheet.Style)
		result.Lines = append(result.Lines, scored)
		result.Maximum.Add(result.Maximum, times(line.K, whole(10)))
		lows, highs = append(lows, scored.Low), append(highs, scored.High)
		decided = decided && scored.Ruling != Undecided
	}
	result.Low = lessPenalty(sum(lows), result.Penalty)
	result.High = lessPenalty(sum(highs), result.Penalty)
	if decided {
		addTotals(&result, sheet)
	}
	return result
}

// addTotals adds what only a flight with every line decided has.
func addTotals(result *Result, sheet Sheet) {
	result.JudgeTotals = rowOfZeros(sheet.Judges)
	result.Raw = whole(0)
	for i, line := range result.Lines {
		result.Raw.Add(result.Raw, line.Points)
		for judge, mark := range line.Filled {
			total := result.JudgeTotals[judge]
			total.Add(total, times(sheet.Lines[i].K, mark))
		}
	}
	result.Points = lessPenalty(result.Raw, result.Penalty)
	if result.Maximum.Sign() > 0 {
		result.Percent = new(big.Rat).Quo(times(100, result.Points), result.Maximum)
	}
}

// lessPenalty deducts the penalty; points are never below 0.
func lessPenalty(points, penalty *big.Rat) *big.Rat {
	rest := new(big.Rat).Sub(points, penalty)
	if rest.Sign() < 0 {
		return whole(0)
	}
	return rest
}

func sum(numbers []*big.Rat) *big.Rat {
	total := whole(0)
	for _, number := range numbers {
		total.Add(total, number)
	}
	return total
}
