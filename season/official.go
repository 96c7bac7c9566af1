package season

import (
	"math/big"

	"boxbook/scoring"
)

// Reconcile holds the flight's printed total against its marks. It reports
// false where there is nothing to compare: no official total, no marks, or a
// void flight.
func (f *Flight) Reconcile() (scoring.Reconciliation, bool) {
	if f.Official == nil || !f.HasMarks() || f.Void != nil {
		return scoring.Reconciliation{}, false
	}
	printed := scoring.Printed{Points: f.Official.Points, JudgeTotals: f.JudgeTotals, Missing: f.Missing, Judges: f.Panel, Field: f.Field}
	if f.Official.Typed {
		printed.Maximum = f.Official.Maximum
	}
	for _, i := range f.Flown() {
		printed.Numbers = append(printed.Numbers, i+1)
	}
	return scoring.Reconcile(f.Sheet(), f.Score(), printed), true
}

// Disputed is the printed total less the own one where every sheet is to hand,
// the maxima are the same, and the two disagree; nil otherwise.
func (f *Flight) Disputed() *big.Rat {
	o, score := f.Official, f.Score()
	if o == nil || f.Void != nil || len(f.Missing) > 0 || !score.Decided() {
		return nil
	}
	if o.Maximum != nil && o.Maximum.Rat().Cmp(big.NewRat(int64(score.Maximum), 1)) != 0 {
		return nil
	}
	if scoring.Agrees(score.Points, o.Points) {
		return nil
	}
	return new(big.Rat).Sub(o.Points.Rat(), score.Points)
}
