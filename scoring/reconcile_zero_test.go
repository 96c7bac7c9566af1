package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReconcileFigureJudgeTotals: what the judges' printed totals all have was not left
// out by anybody; a zero that the jury confirmed may have come after them.
func TestReconcileFigureJudgeTotals(t *testing.T) {
	sheet := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 18, "6 HZ 6.5 5.5 6"), row(t, Figure, 10, "8 7.5 7.5 7.5 8")}}
	agreed := []string{"188", "75", "192", "174", "188"}
	assert.Empty(t, reconcile(t, sheet, "108.00", withTotals(t, agreed...)).Explanations)
	r := reconcile(t, sheet, "77.00", withTotals(t, agreed...))
	assert.Equal(t, []string{"zero 1 B"}, briefs(r))
	assert.False(t, r.Explanations[0].Contradicts)
	without := []string{"108", "0", "117", "99", "108"}
	r = reconcile(t, sheet, "108.00", withTotals(t, without...))
	assert.Equal(t, []string{"figure 2"}, briefs(r))
	assert.False(t, r.Explanations[0].Contradicts)
}

// TestReconcileZeroOfUndecided: a figure that is undecided is ruled on, not confirmed.
func TestReconcileZeroOfUndecided(t *testing.T) {
	sheet := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 13, "6 HZ"), row(t, Figure, 17, "7 HZ"), row(t, Figure, 11, "8 8")}}
	// 13 x 6 + 88 = 166: figure 1 filled and figure 2 at 0.
	r := Reconcile(sheet, sheet.Score(), Printed{Points: decimalOf(t, "166.00"), Judges: panelNames[:2]})
	assert.NotEmpty(t, r.Explanations)
	for _, e := range r.Explanations {
		assert.NotEqual(t, KindZero, e.Kind)
	}
}
