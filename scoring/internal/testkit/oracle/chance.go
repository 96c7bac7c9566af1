package oracle

import "math/big"

// Fits says whether points print as so many units of the last decimal, rounded
// half up or half to even.
func Fits(points *big.Rat, units int64, places int) bool {
	gap := new(big.Rat).Mul(points, tenTo(places))
	gap.Sub(gap, new(big.Rat).SetInt64(units))
	half := big.NewRat(1, 2)
	if gap.Cmp(half) == 0 {
		return units%2 == 0
	}
	return gap.Cmp(half) < 0 && gap.Cmp(new(big.Rat).Neg(half)) >= 0
}

// Chance counts, of the totals that could be printed and are not the own one,
// from 0 to the maximum and no farther from the own one than the printed total
// is, either way, those that some candidate of a class gives. As percents, own and
// candidates are of their maxima.
func Chance(sheet Sheet, class string, units int64, places int, percent bool) (reached, of int64) {
	score := Score(sheet)
	own := Candidate{Points: score.Points, Maximum: score.Maximum}
	if percent {
		own = own.Percent()
	}
	given := map[int64]bool{}
	for _, candidate := range Candidates(sheet, class, places) {
		if percent {
			candidate = candidate.Percent()
		}
		last := below(candidate.Points, places)
		for total := last; total <= last+1; total++ {
			given[total] = given[total] || Fits(candidate.Points, total, places)
		}
	}
	distance := func(total int64) *big.Rat {
		away := new(big.Rat).Quo(new(big.Rat).SetInt64(total), tenTo(places))
		away.Sub(away, own.Points)
		return away.Abs(away)
	}
	limit := distance(units)
	first := below(new(big.Rat).Sub(own.Points, limit), places)
	last := below(new(big.Rat).Add(own.Points, limit), places) + 1
	for total := max(first, 0); total <= min(last, below(own.Maximum, places)); total++ {
		if distance(total).Cmp(limit) > 0 || Fits(own.Points, total, places) {
			continue
		}
		of++
		if given[total] {
			reached++
		}
	}
	return reached, of
}

// below is the last printable total that is not above the points, in units.
func below(points *big.Rat, places int) int64 {
	scaled := new(big.Rat).Mul(points, tenTo(places))
	return new(big.Int).Div(scaled.Num(), scaled.Denom()).Int64()
}

func tenTo(places int) *big.Rat {
	ten := whole(1)
	for range places {
		ten.Mul(ten, whole(10))
	}
	return ten
}
