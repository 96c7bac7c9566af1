package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestReconcileEachWayByItself: of marks that any one of would do, each is held against the
// judges' typed totals with the fills that it leads to itself. [derived], by hand: 6.0 in the
// place of one of two hard zeros makes the fill of the other 6.75, and 10 x 6.75 + 84 is
// 151.50 where it was 154.
func TestReconcileEachWayByItself(t *testing.T) {
	sheet := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 10, "HZ 7 7 HZ 7"), row(t, Figure, 12, "7 7 7 7 7")}}
	assert.Equal(t, []string{"mark 1 6.0 for HZ A D"}, briefs(reconcile(t, sheet, "151.50")))
	for judge, totals := range map[string][]string{
		"A": {"144", "154", "154", "151.50", "154"},
		"D": {"151.50", "154", "154", "144", "154"},
	} {
		r := reconcile(t, sheet, "151.50", withTotals(t, totals...))
		assert.Equal(t, "mark 1 6.0 for HZ "+judge, brief(r.Explanations[0]))
		assert.Equal(t, []bool{false, true}, []bool{r.Explanations[0].Contradicts, r.Explanations[1].Contradicts})
		assert.Equal(t, 1, r.Fits)
	}

	// [derived] Rows swapped on one of two such sheets: of A 10 x 6 + 12 x 6.75 is 141, of B
	// 10 x 6.75 + 12 x 6 is 139.50.
	rows := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 10, "HZ HZ 7 7 7"), row(t, Figure, 12, "6 6 7 7 7")}}
	assert.Contains(t, briefs(reconcile(t, rows, "148.50")), "rows 1 2 A B")
	r := reconcile(t, rows, "148.50", withTotals(t, "139.50", "141", "154", "154", "154"))
	assert.Equal(t, "rows 1 2 B", brief(r.Explanations[0]))
	for i, e := range r.Explanations {
		assert.Equal(t, i > 0, e.Contradicts, brief(e))
	}

	// Two marks, each by half a point: of A on figure 1 and of C on figure 2, K 10 and 13.
	two := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 10, "7 7 7"), row(t, Figure, 13, "7 7 7")}}
	assert.Equal(t, []string{"marks 1 +1 A B C and 2 +1 A B C"}, briefs(reconcile(t, two, "164.83")))
	r = reconcile(t, two, "164.83", withTotals(t, "166", "161", "167.5"))
	assert.Equal(t, []string{"marks 1 +1 A and 2 +1 C"}, briefs(r))
	assert.False(t, r.Explanations[0].Contradicts)
	assert.Equal(t, 1, r.Fits)
}
