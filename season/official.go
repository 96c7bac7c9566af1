package season

import (
	"math/big"

	"boxbook/scoring"
)

// Reconcile holds the flight's printed total against its marks. It reports
// false where there is nothing to compare: no official total, no marks, or a
// void flight.
func (f *Flight) Reconcile() (scoring.Reconciliation, bool) {
	if !f.comparable() {
		return scoring.Reconciliation{}, false
	}
	return scoring.Reconcile(f.Sheet(), f.Score(), f.printed()), true
}

// Compare is Reconcile without a search for what would explain a difference; no score
// is kept for it.
func (f *Flight) Compare() (scoring.Reconciliation, bool) {
	if !f.comparable() {
		return scoring.Reconciliation{}, false
	}
	sheet := f.Sheet()
	if score := f.score.Load(); score != nil {
		return scoring.Compare(sheet, *score, f.printed()), true
	}
	return scoring.Compare(sheet, sheet.Score(), f.printed()), true
}

// comparable reports whether there is a printed total to hold against marks.
func (f *Flight) comparable() bool { return f.Official != nil && f.HasMarks() && f.Void == nil }

// CompareJudges compares the printed totals of the judges of a flight without an official
// total; nil where none were typed.
func (f *Flight) CompareJudges() []scoring.JudgeDifference {
	if f.Official != nil || !f.HasMarks() || f.Void != nil {
		return nil
	}
	return scoring.CompareJudges(f.Sheet(), f.Score(), scoring.Printed{JudgeTotals: f.JudgeTotals, Judges: f.Panel})
}

// printed is what the printed result says of a flight that has an official total.
func (f *Flight) printed() scoring.Printed {
	printed := scoring.Printed{Points: f.Official.Points, JudgeTotals: f.JudgeTotals, Missing: f.Missing, Judges: f.Panel, Field: f.Field}
	if f.Official.Typed {
		printed.Maximum = f.Official.Maximum
	}
	if f.Sequence != nil {
		printed.KnownK = f.Sequence.KnownK()
	}
	for _, i := range f.Flown() {
		printed.Numbers = append(printed.Numbers, i+1)
	}
	return printed
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

// OtherMaximum is the maximum of the sequence where the printed total is out of
// another that was typed, 0 where it is not, or where the printed one is a percent.
func (f *Flight) OtherMaximum() int {
	o, own := f.Official, f.Maximum()
	if o == nil || !o.Typed || own == 0 || scoring.IsPercent(*o.Maximum) || o.Maximum.Rat().Cmp(big.NewRat(int64(own), 1)) == 0 {
		return 0
	}
	return own
}
