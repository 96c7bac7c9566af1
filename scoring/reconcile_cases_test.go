package scoring

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// explainedCase is a printed total and everything that explains it.
type explainedCase struct {
	sheet  Sheet
	briefs []string
	end    string
	kind   ExplanationKind
	fits   int
}

func explainedCases(t *testing.T) []explainedCase {
	single := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 21, "7"), row(t, Figure, 12, "-"), row(t, Figure, 12, "8")}}
	single.Lines[1].Decision = RuledZero
	two := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 11, "7 7"), row(t, Figure, 13, "8 8"), row(t, Figure, 17, "HZ HZ")}}
	three := Sheet{Judges: 3, Lines: []Line{row(t, Figure, 11, "7 7.5 8"), row(t, Figure, 13, "8 6.5 7"), row(t, Figure, 17, "9 8 8.5")}}
	weighted := Sheet{Judges: 1, Lines: []Line{row(t, Figure, 10, "7"), row(t, Positioning, 31, "8")}}
	top := Sheet{Judges: 2, Lines: []Line{row(t, Figure, 11, "9.5 9.5"), row(t, Figure, 17, "10 10")}}
	zero := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 18, "6 HZ 6.5 5.5 6"), row(t, Figure, 10, "8 7.5 7.5 7.5 8")}}
	chz := Sheet{Judges: 5, Lines: []Line{row(t, Figure, 18, "6 CHZ 6.5 5.5 6"), row(t, Figure, 10, "8 7.5 7.5 7.5 8")}}
	six := Sheet{Judges: 6, Style: Style{DropExtremes: true}, Lines: []Line{
		row(t, Figure, 12, "5 6 7 8 8 9"), row(t, Figure, 20, "8 8 8 8 8 8"),
	}}
	return []explainedCase{
		// Half a point from one of three at K 31 is 5.1667, one point 10.3333.
		{checkFlight(t), []string{"mark 4 +1 A B C"}, "726.50", KindMark, 3},
		{checkFlight(t), []string{
			"mark 5 -1 A C",
			"mark 5 AV for 8.0 A",
			"mark 5 7.0 for AV B",
		}, "716.58", KindMark, 3},
		{checkFlight(t), []string{"zero 2 B", "mark 2 HZ for 7.5 A C"}, "598.08", KindZero, 2},
		// One hard zero of five, filled with 6.0 at K 18; figure 2 at 7.7 at K 10.
		{zero, []string{"zero 1 B"}, "77.00", KindZero, 0},
		{zero, []string{"figure 2"}, "108.00", KindFigure, 0},
		{chz, []string{"mark 1 AV for CHZ B", "mark 1 6.0 for CHZ B"}, "185.00", KindMark, 1},
		// One judge: nothing on the sheet and 78 points at the office.
		{single, []string{"mark 2 6.5 for - A"}, "321", KindMark, 1},
		{single, []string{
			"mark 1 -6 A",
			"k 1 12 for 21",
			"k-swapped 1 2, 12 and 21",
		}, "180", KindMark, 1},
		// Dropped extremes: 5 and 9 do not count, so that 7 may be anything below 5.
		{six, []string{
			"mark 1 -4..-14 C",
			"mark 1 -4 D E",
			"mark 1 -6 F",
			"k-swapped 1 2, 20 and 12",
			"rows 1 2 all",
		}, "241.00", KindMark, 4},
		{six, []string{"marks 2 -1 -1 A B C D E F"}, "244.50", KindMarks, 15},
		{three, []string{"judge A"}, "313.25", KindJudge, 0},
		{three, []string{
			"marks 1 +1 A B C and 3 -1 A B C",
		}, "319.17", KindMarks, 9},
		// 30 points fewer than the 181 of the marks are 15 from either judge too.
		{two, []string{"penalty 30, 15 each"}, "151.00", KindPenalty, 0},
		// A weighted line has no PZ or HZ, and a grade of 10.0 cannot be higher.
		{weighted, []string{
			"rules without [positioning]", "mark positioning -16 A",
		}, "70.00", KindRules, 1},
		{top, []string{"marks 1 +1 +1 A B"}, "280.00", KindMarks, 1},
		{two, []string{
			"marks 1 +1 A B and 2 +1 A B",
		}, "187.00", KindMarks, 4},
	}
}

func TestReconcileCases(t *testing.T) {
	for _, c := range explainedCases(t) {
		r := reconcile(t, c.sheet, c.end)
		assert.Equal(t, c.briefs, briefs(r))
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
