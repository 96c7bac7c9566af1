package scoring_test

import (
	"math/big"
	"testing"

	"boxbook/scoring"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A figure that was flown several times is worth the mean of its rows, each by
// itself [derived]: K 10, rows 7 8 and 9 AV, the AV filled with 9: means 7.5 and 9,
// 8.25; the judges count 8 and 8.5. With a second figure, K 20 at 6 6: raw 202.5.
func TestFlownAgain(t *testing.T) {
	grade := func(half int) scoring.Mark { return scoring.GradeOf(half) }
	sheet := scoring.Sheet{Judges: 2, Lines: []scoring.Line{
		{K: 10, Marks: []scoring.Mark{grade(14), grade(16)}, Again: [][]scoring.Mark{{grade(18), {Kind: scoring.NotSeen}}}},
		{K: 20, Marks: []scoring.Mark{grade(12), grade(12)}},
	}}
	score := sheet.Score()
	require.True(t, score.Decided())
	assert.Equal(t, 300, score.Maximum, "the K of a figure counts once")
	assert.Equal(t, "8.25", score.Lines[0].Mean.FloatString(2))
	assert.Equal(t, "17.50", score.Lines[0].Lost.FloatString(2))
	assert.Equal(t, "202.50", score.Points.FloatString(2))
	assert.Equal(t, []string{"200.00", "205.00"}, []string{score.JudgeTotals[0].FloatString(2), score.JudgeTotals[1].FloatString(2)})
	require.Len(t, score.Lines[0].Rows, 2)
	assert.Equal(t, scoring.Filled, score.Lines[0].Rows[1].Ruling)
}

// One row that is not decided leaves the figure undecided, between the means of
// both ends: 0 or 80 with 70, K 10 [derived].
func TestFlownAgainUndecided(t *testing.T) {
	hard := scoring.Mark{Kind: scoring.HardZero}
	sheet := scoring.Sheet{Judges: 2, Lines: []scoring.Line{{
		K: 10, Marks: []scoring.Mark{scoring.GradeOf(14), scoring.GradeOf(14)}, Again: [][]scoring.Mark{{hard, scoring.GradeOf(16)}},
	}}}
	score := sheet.Score()
	assert.False(t, score.Decided())
	assert.Equal(t, []*big.Rat{big.NewRat(35, 1), big.NewRat(75, 1)}, []*big.Rat{score.Low, score.High})
	assert.Equal(t, scoring.Undecided, score.Lines[0].Ruling)
	assert.Nil(t, score.Lines[0].Mean)
}
