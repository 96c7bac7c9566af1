package scoring

import "math/big"

// penaltyStep: penalties are whole numbers of points, multiples of this
// [common practice].
const penaltyStep = 5

// unknownPenalty finds the whole number of points that, deducted as a penalty
// of which the sheet knows nothing, gives the printed total.
func (s *search) unknownPenalty() []candidate {
	from, to := s.target.bounds(s.score.Maximum)
	least, most := new(big.Rat).Sub(s.score.Points, to), new(big.Rat).Sub(s.score.Points, from)
	var found []candidate
	for extra := max(penaltyStep, stepsBelow(least)); big.NewRat(extra, 1).Cmp(most) <= 0; extra += penaltyStep {
		points := new(big.Rat).Sub(s.score.Points, big.NewRat(extra, 1))
		if points.Sign() >= 0 && s.prints(points, new(big.Rat)) {
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

// stepsBelow is the last multiple of a penalty's step that is not above some points.
func stepsBelow(points *big.Rat) int64 {
	return penaltyStep * new(big.Int).Div(points.Num(), new(big.Int).Mul(points.Denom(), big.NewInt(penaltyStep))).Int64()
}

// penaltyPerJudge is the penalty that, deducted once for each judge, comes to
// the points; 0 where none does.
func penaltyPerJudge(extra, judges int64) int64 {
	if judges > 1 && extra%(penaltyStep*judges) == 0 {
		return extra / judges
	}
	return 0
}
