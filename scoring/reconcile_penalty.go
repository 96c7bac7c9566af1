package scoring

import "math/big"

// penaltyStep: penalties are whole numbers of points, multiples of this
// [common practice].
const penaltyStep = 5

// unknownPenalty finds the whole number of points that, deducted as a penalty
// of which the sheet knows nothing, gives the printed total.
func (s *search) unknownPenalty() []candidate {
	gap := new(big.Rat).Sub(s.score.Points, s.printed.Points.Rat())
	var found []candidate
	steps := new(big.Int).Div(gap.Num(), new(big.Int).Mul(gap.Denom(), big.NewInt(penaltyStep))).Int64()
	for _, extra := range []int64{steps * penaltyStep, (steps + 1) * penaltyStep} { // to the nearest, either way
		points := new(big.Rat).Sub(s.score.Points, big.NewRat(extra, 1))
		if extra > 0 && points.Sign() >= 0 && Agrees(points, s.printed.Points) {
			found = append(found, candidate{kind: KindPenalty, size: sizeOfPenalty, extra: extra})
		}
	}
	found = s.settle(found)
	for i := range found {
		if found[i].rulings != nil {
			found[i].size = sizeOfRuledPenalty
		}
	}
	return found
}

// penaltyPerJudge is the penalty that, deducted once for each judge, comes to
// the points; 0 where none does.
func penaltyPerJudge(extra, judges int64) int64 {
	if judges > 1 && extra%(penaltyStep*judges) == 0 {
		return extra / judges
	}
	return 0
}
