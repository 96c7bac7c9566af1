package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wordCase is a printed total and every line that explains it, without the end
// that they share.
type wordCase struct {
	sheet Sheet
	texts []string
	end   string
	kind  ExplanationKind
	fits  int
}

func wordCases(t *testing.T) []wordCase {
	single := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 21, "7"), row(t, Figure, 12, "-"), row(t, Figure, 12, "8")}}
	single.Lines[1].Decision = RuledZero
	two := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 11, "7 7"), row(t, Figure, 13, "8 8"), row(t, Figure, 17, "HZ HZ")}}
	three := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 11, "7 7.5 8"), row(t, Figure, 13, "8 6.5 7"), row(t, Figure, 17, "9 8 8.5")}}
	weighted := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 10, "7"), row(t, Positioning, 31, "8")}}
	top := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 11, "9.5 9.5"), row(t, Figure, 17, "10 10")}}
	six := Sheet{Judges: 6, Style: Style{DropExtremes: true}, Lines: []Line{
		row(t, Figure, 12, "5 6 7 8 8 9"), row(t, Figure, 20, "8 8 8 8 8 8"),
	}}
	return []wordCase{
		// Half a point from one of three at K 31 is 5.1667, one point 10.3333.
		{checkFlight(t), []string{"figure 4, half a point higher from A, B or C, gives"}, "726.50", KindMark, 3},
		{checkFlight(t), []string{
			"figure 5, half a point lower from A or C, gives",
			"figure 5, AV instead of 8.0 from A, gives",
			"figure 5, 7.0 instead of AV from B, gives",
		}, "716.58", KindMark, 3},
		{checkFlight(t), []string{"figure 2, HZ instead of the grade from A or C, gives"}, "598.08", KindMark, 2},
		// One judge: nothing on the sheet and 78 points at the office.
		{single, []string{"figure 2, 6.5 instead of - from A, gives"}, "321", KindMark, 1},
		{single, []string{
			"figure 1 counted with K 12 instead of 21 gives",
			"figure 1, 3 points lower from A (4.0 instead of 7.0), gives",
		}, "180", KindK, 1},
		// Dropped extremes: 5 and 9 do not count, so that 7 may be anything below 5.
		{six, []string{
			"figure 1, at least 2 points lower from C (5.0 or lower instead of 7.0), gives",
			"figure 1, 2 points lower from D or E, gives",
			"figure 1, 3 points lower from F (6.0 instead of 9.0), gives",
		}, "241.00", KindMark, 4},
		{six, []string{"figure 2, half a point lower from any two of A, B, C, D, E and F, gives"}, "244.50", KindMarks, 15},
		{three, []string{"the sheet of A left out of the mean gives"}, "313.25", KindJudge, 0},
		{three, []string{
			"figure 1, half a point higher from A, B or C, and figure 3, half a point lower from A, B or C, together give",
		}, "319.17", KindMarks, 9},
		// A weighted line has no PZ or HZ, and a grade of 10.0 cannot be higher.
		{weighted, []string{
			"positioning left out gives", "positioning, 8 points lower from A (0.0 instead of 8.0), gives",
		}, "70.00", KindRules, 1},
		{top, []string{"figure 1, half a point higher from both A and B, gives"}, "280.00", KindMarks, 1},
		{two, []string{
			"figure 1, half a point higher from A or B, and figure 2, half a point higher from A or B, together give",
		}, "187.00", KindMarks, 4},
	}
}

func TestReconcileWords(t *testing.T) {
	for _, c := range wordCases(t) {
		r := reconcile(t, c.sheet, c.end)
		for i := range c.texts {
			c.texts[i] += " " + c.end + " as printed"
		}
		assert.Equal(t, c.texts, texts(r))
		require.NotEmpty(t, r.Explanations, c.end)
		assert.Equal(t, c.kind, r.Explanations[0].Kind, c.end)
		assert.Equal(t, c.fits, r.Fits, c.end)
	}
	top := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 11, "9.5 9.5"), row(t, Figure, 17, "10 10")}}
	four := Sheet{Judges: 4, Lines: []Line{row(t, Figure, 11, "7 7 7 7"), row(t, Figure, 12, "8 8 8 8")}} // 23/8 a pair: 175.875
	assert.Empty(t, reconcile(t, four, "175.87").Explanations)
	assert.Len(t, reconcile(t, four, "175.88").Explanations, 1)
	assert.Empty(t, reconcile(t, top, "281.50").Explanations, "both figures half a point higher: figure 2 cannot be")
}

// TestJoinPairs: pairs of one line become one line of text only if any two of
// its judges fit.
func TestJoinPairs(t *testing.T) {
	pair := func(a, b, step int) candidate {
		cell := func(j int) cellChange { return cellChange{judge: j, was: GradeOf(10), would: GradeOf(10 + step)} }
		return candidate{kind: KindMarks, step: step, pairs: 1, cells: []cellChange{cell(a), cell(b)}}
	}
	all := joinPairs([]candidate{pair(0, 1, 1), pair(0, 2, 1), pair(1, 2, 1), pair(0, 1, -1)})
	require.Len(t, all, 2)
	assert.Len(t, all[0].cells, 3)
	assert.Equal(t, 3, all[0].pairs)
	assert.Len(t, joinPairs([]candidate{pair(0, 1, 1), pair(0, 2, 1)}), 2, "not B and C")
}
