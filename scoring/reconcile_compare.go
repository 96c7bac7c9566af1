package scoring

import "math/big"

// compare holds the own total, or both ends of it, against the printed one.
func (r *Reconciliation) compare(score Score, printed Decimal) {
	if r.Undecided {
		r.AgreesLow, r.AgreesHigh = Agrees(score.Low, printed), Agrees(score.High, printed)
		r.Agrees = r.AgreesLow || r.AgreesHigh
		return
	}
	r.Difference = new(big.Rat).Sub(printed.Rat(), score.Points)
	r.Agrees = Agrees(score.Points, printed)
}

// comparePercents holds the own percent against the printed points in percent
// of the printed maximum. The precision is that of the printed points: the own
// share of the printed maximum must round to them.
func (r *Reconciliation) comparePercents(score Score, printed Printed) {
	if score.Maximum == 0 || !printed.Maximum.Positive() {
		return
	}
	maximum := printed.Maximum.Rat()
	scale := new(big.Rat).Quo(maximum, big.NewRat(int64(score.Maximum), 1))
	agrees := func(points *big.Rat) bool { return Agrees(new(big.Rat).Mul(points, scale), printed.Points) }
	if r.Undecided {
		r.AgreesLow, r.AgreesHigh = agrees(score.Low), agrees(score.High)
		r.Agrees = r.AgreesLow || r.AgreesHigh
		return
	}
	r.Agrees = agrees(score.Points)
	percent := new(big.Rat).Quo(printed.Points.Rat(), maximum)
	percent.Mul(percent, big.NewRat(100, 1))
	r.PercentDifference = percent.Sub(percent, score.Percent)
}

// CompareJudges compares the printed totals of the judges alone, where the total of the
// flight is not printed.
func CompareJudges(sheet Sheet, score Score, printed Printed) []JudgeDifference {
	return judgeDifferences(sheet, score.JudgeTotals, printed)
}

// judgeDifferences compares the typed totals with the computed ones; totals
// that are not one for each judge are not compared. own are those that count, nil
// while a line is undecided.
func judgeDifferences(sheet Sheet, own []*big.Rat, printed Printed) []JudgeDifference {
	if len(printed.JudgeTotals) == 0 || sheet.Judges != len(printed.JudgeTotals) {
		return nil
	}
	typed := sheet.typedTotals()
	out := make([]JudgeDifference, len(printed.JudgeTotals))
	for j, total := range printed.JudgeTotals {
		out[j] = JudgeDifference{Judge: printed.judge(j), Printed: total, Typed: typed[j], Agrees: Agrees(typed[j], total)}
		if own != nil {
			out[j].Own = own[j]
			out[j].Agrees = out[j].Agrees || Agrees(own[j], total)
		}
	}
	return out
}

// fromJudge reports whether the printed points are the own ones with the printed total of
// the one judge who differs in the place of the own: of a style whose raw points are the
// mean of the totals, no extremes dropped. Several who differ may do so for one reason: a K,
// a penalty, a mark that others' were filled with.
func (r *Reconciliation) fromJudge(score Score, printed Decimal) bool {
	judges := int64(len(r.Judges))
	if judges == 0 {
		return false
	}
	own, moved, apart := new(big.Rat), new(big.Rat), 0
	for _, j := range r.Judges {
		own.Add(own, j.Own)
		if !j.Agrees {
			apart++
			moved.Add(moved, new(big.Rat).Sub(j.Printed.Rat(), j.Own))
		}
	}
	each := big.NewRat(1, judges)
	if own.Mul(own, each).Cmp(score.Raw) != 0 || apart != 1 {
		return false
	}
	return Agrees(moved.Add(score.Points, moved.Mul(moved, each)), printed)
}

// ofTotals reports whether the printed points are the mean of the judges' printed totals,
// less the penalties.
func ofTotals(score Score, printed Printed) bool {
	mean := meanOfTotals(score, printed)
	return mean != nil && Agrees(lessPenalty(mean, score.Penalty), printed.Points)
}

// meanOfTotals is the mean of the judges' printed totals, of a style whose raw points are
// the mean of the totals, no extremes dropped; else nil.
func meanOfTotals(score Score, printed Printed) *big.Rat {
	judges := int64(len(printed.JudgeTotals))
	if judges == 0 || judges != int64(len(score.JudgeTotals)) || score.Raw == nil {
		return nil
	}
	own, typed := new(big.Rat), new(big.Rat)
	for j, total := range printed.JudgeTotals {
		own.Add(own, score.JudgeTotals[j])
		typed.Add(typed, total.Rat())
	}
	each := big.NewRat(1, judges)
	if own.Mul(own, each).Cmp(score.Raw) != 0 {
		return nil
	}
	return typed.Mul(typed, each)
}

// lessThanTotals is the penalty, of which the sheet knows nothing, that the printed points are
// less than the mean of the judges' printed totals; 0 where it is none, or the points are
// printed too coarsely to tell.
func lessThanTotals(score Score, printed Printed) int64 {
	mean := meanOfTotals(score, printed)
	if mean == nil || printed.Points.Places < 2 {
		return 0
	}
	less := mean.Sub(mean, score.Penalty)
	half := big.NewRat(penaltyStep, 2)
	extra := stepsBelow(half.Add(half, new(big.Rat).Sub(less, printed.Points.Rat())))
	if extra <= 0 || !Agrees(less.Sub(less, big.NewRat(extra, 1)), printed.Points) {
		return 0
	}
	return extra
}

// typedTotals are the sums of the judges' marks as they stand on the sheets: a zero
// and what has no number are nothing, whatever the panel made of the figure.
func (s Sheet) typedTotals() []*big.Rat {
	totals := make([]*big.Rat, s.Judges)
	for j := range totals {
		halfPoints := int64(0)
		again := new(big.Rat)
		for _, line := range s.Lines {
			if len(line.Again) == 0 {
				halfPoints += int64(line.K) * int64(line.Marks[j].Half)
				continue
			}
			sum := int64(line.Marks[j].Half)
			for _, marks := range line.Again {
				sum += int64(marks[j].Half)
			}
			again.Add(again, big.NewRat(int64(line.K)*sum, 2*int64(1+len(line.Again))))
		}
		totals[j] = again.Add(again, big.NewRat(halfPoints, 2))
	}
	return totals
}

// missing works out what the sheets that are not to hand must have come to:
// J x raw - the other sheets. There is nothing to disagree.
func (r *Reconciliation) missing(sheet Sheet, score Score, printed Printed) {
	r.Explanations = []Explanation{{Kind: KindSheet}}
	panel := int64(sheet.Judges + len(printed.Missing))
	switch {
	case r.MaximumDiffers && !r.Percent:
		r.MissingUnknown = UnknownMaximum
	case r.Undecided:
		r.MissingUnknown = UnknownUndecided
	case sheet.Style.DropExtremes && panel >= DropPanel:
		r.MissingUnknown = UnknownExtremes
	case !printed.Points.Positive():
		r.MissingUnknown = UnknownPenalty
	default:
		// The printed total is known to half a unit of its last decimal, the
		// missing one to so much of every sheet of the panel.
		half := targetOf(score, printed).pointsOf(big.NewRat(1, 2*pow10(printed.Points.Places)), score.Maximum)
		r.MissingWithin = new(big.Rat).Mul(half, big.NewRat(panel, 1))
		r.MissingMost = int64(score.Maximum) * int64(len(printed.Missing))
		r.missingTotal(score, printed, panel)
	}
}

func (r *Reconciliation) missingTotal(score Score, printed Printed, panel int64) {
	total := new(big.Rat).Add(targetOf(score, printed).pointsOf(printed.Points.Rat(), score.Maximum), score.Penalty)
	total.Mul(total, big.NewRat(panel, 1))
	for _, t := range score.JudgeTotals {
		total.Sub(total, t)
	}
	r.MissingTotal = total
	for _, line := range score.Lines {
		r.MissingRough = r.MissingRough || line.Ruling != AsMarked
	}
	low, high := new(big.Rat).Sub(total, r.MissingWithin), new(big.Rat).Add(total, r.MissingWithin)
	r.MissingOutside = high.Sign() < 0 || low.Cmp(big.NewRat(r.MissingMost, 1)) > 0
	r.MissingUneven = !r.MissingRough && !holdsHalf(low, high)
}

// holdsHalf reports whether a multiple of one half lies from low to high.
func holdsHalf(low, high *big.Rat) bool {
	two := big.NewRat(2, 1)
	from, to := new(big.Rat).Mul(low, two), new(big.Rat).Mul(high, two)
	last := new(big.Int).Div(to.Num(), to.Denom()) // the largest whole number up to high
	return new(big.Rat).SetInt(last).Cmp(from) >= 0
}
