package season

import "boxbook/scoring"

// Reconcile holds the flight's printed total against its marks. It reports
// false where there is nothing to compare: no official total, no marks, or a
// void flight.
func (f *Flight) Reconcile() (scoring.Reconciliation, bool) {
	if f.Official == nil || !f.HasMarks() || f.Void != nil {
		return scoring.Reconciliation{}, false
	}
	printed := scoring.Printed{Points: f.Official.Points, JudgeTotals: f.JudgeTotals, Missing: f.Missing, Judges: f.Panel}
	if f.Official.Typed {
		printed.Maximum = f.Official.Maximum
	}
	for _, i := range f.Flown() {
		printed.Numbers = append(printed.Numbers, i+1)
	}
	return scoring.Reconcile(f.Sheet(), f.Score(), printed), true
}
