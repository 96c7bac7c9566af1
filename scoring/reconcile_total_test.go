package scoring

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mistyped gives the printed total where the explanation's total, which the marks
// come to, differs from it by what the explanation says.
func mistyped(t *testing.T, sheet Sheet, e Explanation, printed Printed) *big.Rat {
	t.Helper()
	points := sheet.Score().Points
	if points == nil {
		return nil
	}
	require.True(t, Agrees(points, e.Total), "%s", e.Total)
	own, typed := strings.Replace(e.Total.String(), ".", "", 1), strings.Replace(printed.Points.String(), ".", "", 1)
	require.Len(t, typed, len(own))
	var apart []int
	for i := range own {
		if own[i] != typed[i] {
			apart = append(apart, i)
		}
	}
	if e.Mistyped == MistypedDigit {
		require.True(t, e.InField)
		require.Len(t, apart, 1)
	} else {
		require.Len(t, apart, 2)
		require.Equal(t, apart[0]+1, apart[1])
		require.Equal(t, own[apart[0]:apart[0]+1]+own[apart[1]:apart[1]+1], typed[apart[1]:apart[1]+1]+typed[apart[0]:apart[0]+1])
	}
	return printed.Points.Rat()
}

func withField(t *testing.T, texts ...string) func(*Printed) {
	return func(p *Printed) {
		for _, text := range texts {
			p.Field = append(p.Field, decimalOf(t, text))
		}
	}
}

// TestReconcileMistypedTotal: of 721.33 as the marks come to. [derived].
func TestReconcileMistypedTotal(t *testing.T) {
	field := []string{"801.00", "721.33", "688.20"}
	for _, c := range []struct {
		typed string
		field []string
		want  string // "" where the total is not taken for mistyped
	}{
		{"712.33", nil, "total 721.33 swapped, in field false"},
		{"271.33", nil, "total 721.33 swapped, in field false"},
		{"723.13", nil, "total 721.33 swapped, in field false"}, // across the point
		{"712.33", field, "total 721.33 swapped, in field true"},
		{"127.33", field, ""}, // not next to each other
		{"721.23", field, "total 721.33 digit, in field true"},
		{"921.33", []string{"721.3"}, "total 721.33 digit, in field true"},
		{"921.33", []string{"721.4"}, ""},
		{"921.33", nil, ""},
		{"712.34", field, ""},
		{"72.13", field, ""},
		{"73.1", field, ""},
	} {
		r := reconcile(t, checkFlight(t), c.typed, withField(t, c.field...))
		found := ""
		for _, e := range r.Explanations {
			if e.Kind == KindTotal {
				found += brief(e)
			}
		}
		assert.Equal(t, c.want, found, "%s %v", c.typed, c.field)
	}
}

// TestReconcileMistypedTotalStandsAside: a penalty and a rule that fit come before a
// mistyped total, marks and K after it, and it is measured what chance alone would
// explain so.
func TestReconcileMistypedTotalStandsAside(t *testing.T) {
	r := reconcile(t, checkFlight(t), "712.33")
	require.NotEmpty(t, r.Explanations)
	assert.Equal(t, KindTotal, r.Explanations[0].Kind)
	// 721.33 to 712.33: of the four swaps only this one is 9 points away at the most,
	// with 723.13, among 1,800 totals from 712.33 to 730.33 that are not the own.
	assert.Equal(t, Chance{KindTotal, 2, 1800}, r.Chances[0])

	sheet := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 20, "8"), row(t, Figure, 30, "7")}} // 370
	both := reconcile(t, sheet, "307")
	assert.NotContains(t, briefs(both), "penalty 63, 0 each")
	sheet.Lines = append(sheet.Lines, row(t, Figure, 23, "5")) // 485
	assert.Equal(t, []ExplanationKind{KindTotal}, kindsBefore(reconcile(t, sheet, "458"), KindMark))
	sheet.Lines[2] = row(t, Figure, 30, "5") // 520
	assert.Equal(t, []ExplanationKind{KindPenalty, KindTotal}, kindsBefore(reconcile(t, sheet, "250"), KindMark))
}

// kindsBefore are the kinds of the explanations before the first of one kind.
func kindsBefore(r Reconciliation, kind ExplanationKind) []ExplanationKind {
	var kinds []ExplanationKind
	for _, e := range r.Explanations {
		if e.Kind == kind {
			break
		}
		kinds = append(kinds, e.Kind)
	}
	return kinds
}

// TestReconcileUnlikelyMark: a grade two grades or more beyond every other
// judge's is unlikely and stands behind all else; one within is not, nor a mark
// that is no grade. [derived].
func TestReconcileUnlikelyMark(t *testing.T) {
	sheet := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 10, "7.5 7.0 - 7.0 7.5"), row(t, Figure, 20, "8 8 8 8 8")}}
	// 72.50 + 160; with 2.5 in the place of the gap 63.00 + 160.
	r := reconcile(t, sheet, "223.00")
	unlikely := map[string]bool{}
	for i, e := range r.Explanations {
		unlikely[brief(e)] = e.Unlikely
		if i > 0 {
			assert.False(t, r.Explanations[i-1].Unlikely && !e.Unlikely, "the unlikely stands behind")
		}
	}
	assert.True(t, unlikely["mark 1 2.5 for - C"], "%v", unlikely)
	r = reconcile(t, sheet, "228.00") // 5.0, two grades below the lowest
	assert.Contains(t, briefs(r), "mark 1 5.0 for - C")
	for _, e := range r.Explanations {
		assert.Equal(t, e.Figure == 1 && e.Kind == KindMark, e.Unlikely, brief(e))
	}
	r = reconcile(t, sheet, "229.00") // 5.5, one and a half
	assert.Contains(t, briefs(r), "mark 1 5.5 for - C")
	for _, e := range r.Explanations {
		assert.Equal(t, false, e.Unlikely && e.Figure == 1, brief(e))
	}
	pair := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 10, "7.5 -"), row(t, Figure, 20, "8 8")}}
	for _, e := range reconcile(t, pair, "210.00").Explanations { // one other judge says nothing of what is usual
		assert.False(t, e.Unlikely, brief(e))
	}
}
