package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// rowsFlight is 11 x 22/3 + 21 x 25/3 = 767/3, 255.67 [derived].
func rowsFlight(t *testing.T) Sheet {
	return Sheet{Judges: 3, Lines: []Line{row(t, Figure, 11, "7 7 8"), row(t, Figure, 21, "8 9 8")}}
}

// TestReconcileRows: what is said of rows, and what is not said beside them.
func TestReconcileRows(t *testing.T) {
	one := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 11, "7"), row(t, Figure, 21, "8")}}
	assert.Contains(t, briefs(reconcile(t, one, "235")), "rows 1 2 A")
	assert.NotContains(t, briefs(reconcile(t, one, "235")), "rows 1 2 all", "one sheet is all sheets")
	// Half a point up at K 11 and one down at K 21 is -5/3 of 257.5, as two marks too.
	near := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 11, "7.5 7 8"), row(t, Figure, 21, "8 9 8")}}
	assert.Equal(t, []string{"rows 1 2 A"}, briefs(reconcile(t, near, "255.83")))
}

// TestReconcilePenaltyBelow: nobody is given points for a penalty.
func TestReconcilePenaltyBelow(t *testing.T) {
	for _, said := range briefs(reconcile(t, rowsFlight(t), "260.67")) {
		assert.NotContains(t, said, "penalty")
	}
	assert.Contains(t, briefs(reconcile(t, rowsFlight(t), "250.67")), "penalty 5, 0 each")
}

// TestReconcileRowsJudgeTotals: typed totals say on whose sheet the rows may be
// swapped, and rows that give them stand before what does not.
func TestReconcileRowsJudgeTotals(t *testing.T) {
	// Own totals 245, 266 and 256. Swapped on the sheet of A: 88 + 147 = 235, in all 767
	// - 10 = 757/3.
	rows := "rows 1 2 A"
	assert.Contains(t, briefs(reconcile(t, rowsFlight(t), "252.33")), rows)
	r := reconcile(t, rowsFlight(t), "252.33", withTotals(t, "235", "266", "256"))
	assert.Equal(t, rows, briefs(r)[0])
	assert.False(t, r.Explanations[0].Contradicts)
	assert.NotContains(t, briefs(reconcile(t, rowsFlight(t), "252.33", withTotals(t, "245", "256", "256"))), rows, "the sheet of A agrees")
	assert.Empty(t, reconcile(t, rowsFlight(t), "252.33", withTotals(t, "245", "266", "256")).Explanations)
	// On all: 245 - 10, 266 - 20, 256: 737/3.
	all := reconcile(t, rowsFlight(t), "245.67", withTotals(t, "235", "246", "256"))
	assert.Equal(t, "rows 1 2 all", briefs(all)[1], "behind the two K swapped, which come to the same")
	assert.False(t, all.Explanations[1].Contradicts)

	// With an average in the one row, the totals as they count move with both rows. The
	// marks 7 8 AV and 5 6 6 swapped: 10 x 5 + 5 x 7, 10 x 6 + 5 x 8, 10 x 6 + 5 x 7.5.
	average := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 10, "7 8 AV"), row(t, Figure, 5, "5 6 6")}}
	all = reconcile(t, average, "94.17", withTotals(t, "85", "100", "97.5"))
	assert.Equal(t, "rows 1 2 all", briefs(all)[1])
	assert.False(t, all.Explanations[1].Contradicts)
}

// TestReconcileChance: [derived] by counting.
func TestReconcileChance(t *testing.T) {
	// One judge, 10 x 1.0 = 10 of 100. Printed 5 without decimals: 5 to 15 but for
	// 10. A mark gives every fifth total, a penalty 5, another K each of them.
	one := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 10, "1")}}
	assert.Equal(t, []Chance{{KindPenalty, 1, 10}, {KindMark, 2, 10}, {KindK, 10, 10}}, reconcile(t, one, "5").Chances)
	// Printed 40: 0 to 40, for nothing is printed below 0; no K gives 0.
	assert.Equal(t, []Chance{{KindMark, 8, 40}, {KindK, 39, 40}}, reconcile(t, one, "40").Chances)
	assert.Empty(t, reconcile(t, one, "10").Chances, "it agrees")
	// 20 of 200, printed 10: 10 to 30 but for 20, of which the rules give 10.
	weighted := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 10, "1"), row(t, Positioning, 10, "1")}}
	assert.Contains(t, reconcile(t, weighted, "10").Chances, Chance{KindRules, 1, 20})
	half := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 10, "HZ 7"), row(t, Figure, 10, "7 7")}}
	r := reconcile(t, half, "65")
	assert.NotEmpty(t, r.Explanations)
	assert.Empty(t, r.Chances, "the flight has two totals")
}
