package season_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/internal/testkit"
)

// officialHead is a flight with five judges, a hard zero, a figure not seen, a
// mark missing and two penalties. [derived]: raw 590.4917, points 540.4917 of 800.
const officialHead = `
pilot ines
sequence known-26
  category     intermediate
  1            8.5.2.1:10 9.1.4.2:4
  2            5.2.1.1:17 9.1.1.1:6
  3            K 14
  4            K 9
  positioning  K 20
`

const officialFlight = `flight 2026-04-18 ines known
  sequence     known-26
  panel        A B C D E
  1            8.0  7.5  8.0  8.5  7.5
  2            7.0  HZ   6.5  7.0  AV
  3            6.5  6.0  7.0  6.5  6.0
  4            8    8    8.5  8    -
  positioning  8.0  7.5  8.0  8.0  8.5
  penalty      low 20
  penalty      interruption 30
`

func reconcile(t testing.TB, book string) (scoring.Reconciliation, bool) {
	t.Helper()
	return testkit.BookOf(t, book).Flights[0].Reconcile()
}

// The official total agrees if the own one, rounded to the decimals typed,
// gives it: 540.5 agrees with 540.4917, 540.4 does not [derived].
func TestReconcileFlight(t *testing.T) {
	for typed, agrees := range map[string]bool{
		"540.49": true, "540.5": true, "540": true, "540.4917": true, "540.4": false, "540.50": false, "541": false,
	} {
		r, ok := reconcile(t, officialHead+officialFlight+"  official "+typed+"\n")
		require.True(t, ok)
		assert.Equal(t, agrees, r.Agrees, typed)
		if agrees {
			assert.Empty(t, r.Explanations, typed)
		}
	}
	r, ok := reconcile(t, officialHead+officialFlight+"  official 590.49\n")
	require.True(t, ok)
	assert.False(t, r.Agrees)
	require.NotEmpty(t, r.Explanations)
	assert.Equal(t, scoring.KindRules, r.Explanations[0].Kind, "the penalties were not deducted")
	assert.Equal(t, "50.00", testkit.Text(r.Difference))
}

// Nothing to compare: no official total, no marks, or a void flight.
func TestReconcileNothing(t *testing.T) {
	for name, more := range map[string]string{
		"no official total": officialFlight,
		"no marks":          "flight 2026-04-18 ines known\n  sequence known-26\n  official 540.49\n",
		"no sequence":       "flight 2026-04-18 ines known\n  category intermediate\n  official 540.49 of 800\n",
		"void":              officialFlight + "  official 540.49\n  void \"cloud\"\n",
	} {
		_, ok := reconcile(t, officialHead+more)
		assert.False(t, ok, name)
	}
}

// The judges' printed totals are held against their sheets, each.
func TestReconcileJudgeTotals(t *testing.T) {
	r, ok := reconcile(t, officialHead+officialFlight+"  official 540.49\n  judge-totals 596.0 568.17 596.0 603.0 589.29\n")
	require.True(t, ok)
	require.Len(t, r.Judges, 5)
	for _, j := range r.Judges {
		assert.True(t, j.Agrees, j.Judge)
	}
	r, _ = reconcile(t, officialHead+officialFlight+"  official 540.49\n  judge-totals 596.0 568.17 596.0 607.5 589.29\n")
	for i, j := range r.Judges {
		assert.Equal(t, i != 3, j.Agrees, j.Judge)
		assert.Equal(t, []string{"A", "B", "C", "D", "E"}[i], j.Judge)
	}
}

// Figures are named by their numbers in the sequence, though practice flew only
// some of them.
func TestReconcileNamesFigures(t *testing.T) {
	r, ok := reconcile(t, officialHead+"flight 2026-05-02 ines practice\n  sequence known-26\n  panel A\n  3 7\n  official 91\n")
	require.True(t, ok)
	assert.False(t, r.Agrees)
	found := false
	for _, e := range r.Explanations {
		if e.Kind == scoring.KindMark {
			found = true
			assert.Equal(t, 3, e.Figure, e.Kind)
			require.Len(t, e.Cells, 1)
			assert.Equal(t, "6.5", e.Cells[0].Would.String(), "6.5 x 14 = 91")
		}
	}
	assert.True(t, found)
}

// Reconciling changes neither the record nor the tool's own figure.
func TestReconcileChangesNothing(t *testing.T) {
	f := testkit.BookOf(t, officialHead+officialFlight+"  official 545.00\n").Flights[0]
	before := f.Score()
	_, ok := f.Reconcile()
	require.True(t, ok)
	assert.Equal(t, before, f.Score())
	assert.Equal(t, season.Printed, f.Record().Source)
	assert.Equal(t, "545.00", testkit.Text(f.Record().Points))
	assert.Equal(t, "540.49", testkit.Text(f.Score().Points))
}
