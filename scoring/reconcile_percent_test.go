package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestReconcilePercent: a printed percent is held against the marks within what its
// rounding hides, and searched so.
func TestReconcilePercent(t *testing.T) {
	// [derived]: 721.3333 of 1000; half a point more from one judge on figure 4 726.5.
	for printed, agrees := range map[string]bool{"72.13": true, "72.1": true, "72": true, "72.65": false} {
		assert.Equal(t, agrees, reconcile(t, checkFlight(t), printed, withMaximum(t, "100")).Agrees, printed)
	}
	r := reconcile(t, checkFlight(t), "72.65", withMaximum(t, "100"))
	assert.True(t, r.Percent)
	assert.Equal(t, []string{"0.5167", "0.0500"}, []string{r.PercentDifference.FloatString(4), r.Within.FloatString(4)})
	assert.Equal(t, "mark 4 +1 A B C", briefs(r)[0])
	require.NotEmpty(t, r.Chances)
	assert.Equal(t, Chance{KindMark, r.Chances[0].Reached, 103}, r.Chances[0], "71.62 to 72.65 without 72.13")
	// A penalty that is not on the sheet: 30 of 1000 are 3 percentage points.
	assert.Equal(t, "penalty 30, 10 each", briefs(reconcile(t, checkFlight(t), "69.13", withMaximum(t, "100")))[0])
	// Another K makes another maximum: 721.3333 - 7 x 3 of 970 is 72.20%.
	assert.Contains(t, briefs(reconcile(t, checkFlight(t), "72.20", withMaximum(t, "100"))), "k 3 10 for 13")
	assert.Nil(t, reconcile(t, checkFlight(t), "72.65", withMaximum(t, "100")).Supposed)

	hundred := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 10, "7")}}
	assert.False(t, reconcile(t, hundred, "65", withMaximum(t, "100")).Percent, "points, out of 100 of them")
}

// TestReconcileKnownK: a K alone is unlikely where the form prints the sum, or the result
// the maximum, that the K as typed come to.
func TestReconcileKnownK(t *testing.T) {
	known := func(sum KnownK) func(*Printed) { return func(p *Printed) { p.KnownK = sum } }
	// [derived]: 721.3333 with K 14 instead of 13 on figure 3 is 728.3333.
	for name, c := range map[string]struct {
		against bool
		with    func(*Printed)
	}{
		"nothing printed": {false, known(NoKnownK)},
		"the figures":     {true, known(FiguresK)},
		"every line":      {true, known(EveryLinesK)},
		"the maximum":     {true, withMaximum(t, "1000")},
	} {
		r := reconcile(t, checkFlight(t), "728.33", c.with)
		require.Contains(t, briefs(r), "k 3 14 for 13", name)
		for _, e := range r.Explanations {
			if e.Kind == KindK && e.Line == Figure {
				assert.Equal(t, []bool{c.against, c.against}, []bool{e.Unlikely, e.AgainstSum}, name)
			}
		}
	}
	// Positioning, 7.8333 at K 10: with K 11 it is 729.1667.
	positioning := func(sum KnownK) bool {
		for _, e := range reconcile(t, checkFlight(t), "729.17", known(sum)).Explanations {
			if e.Kind == KindK && e.Line == Positioning {
				return e.AgainstSum
			}
		}
		t.Fatal("not found")
		return false
	}
	assert.Equal(t, []bool{false, true}, []bool{positioning(FiguresK), positioning(EveryLinesK)}, "the figures' sum says nothing of positioning")
}

// TestReconcileSwappedK: two K typed for each other are one slip, before the rows of all
// sheets, which come to the same.
func TestReconcileSwappedK(t *testing.T) {
	// [derived]: 21 x 22/3 + 11 x 25/3 is 245.67 for 255.67.
	said := briefs(reconcile(t, rowsFlight(t), "245.67"))
	assert.Contains(t, said, "k-swapped 1 2, 21 and 11")
	at := func(text string) int {
		for i, s := range said {
			if s == text {
				return i
			}
		}
		return -1
	}
	assert.Less(t, at("k-swapped 1 2, 21 and 11"), at("rows 1 2 all"))
	agreeing := reconcile(t, rowsFlight(t), "245.67", withTotals(t, "245", "266", "256"))
	assert.NotContains(t, briefs(agreeing), "k-swapped 1 2, 21 and 11", "every judge's total would be another")
}
