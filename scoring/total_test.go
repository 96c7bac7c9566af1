package scoring

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A total is the score's, whatever the marks and the rules; where whole numbers do
// not say it, it says so.
func TestTotalIsTheScore(t *testing.T) {
	said, silent := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		style := Style{
			HardZero:     HardZeroRule(rapid.IntRange(0, 1).Draw(rt, "hard zero")),
			Half:         HalfRule(rapid.IntRange(0, 2).Draw(rt, "half")),
			FillRounding: FillRounding(rapid.IntRange(0, 2).Draw(rt, "rounding")),
			DropExtremes: rapid.Bool().Draw(rt, "drop"),
		}
		sheet := Sheet{Judges: rapid.IntRange(1, 13).Draw(rt, "judges"), Style: style}
		odd := rapid.IntRange(0, 6).Draw(rt, "one mark in so many is no grade")
		for range rapid.IntRange(1, 6).Draw(rt, "lines") {
			line := Line{K: rapid.IntRange(1, 60).Draw(rt, "k"), Decision: Decision(rapid.IntRange(0, 2).Draw(rt, "decision"))}
			for range sheet.Judges {
				mark := GradeOf(rapid.IntRange(0, TopGrade).Draw(rt, "half points"))
				if odd > 0 && rapid.IntRange(1, odd).Draw(rt, "chance") == 1 {
					mark = Mark{Kind: MarkKind(rapid.IntRange(1, int(Absent)).Draw(rt, "kind"))}
				}
				line.Marks = append(line.Marks, mark)
			}
			sheet.Lines = append(sheet.Lines, line)
		}
		tally := TallyOf(style)
		for _, line := range sheet.Lines {
			tally.Add(line)
		}
		for range rapid.IntRange(0, 2).Draw(rt, "penalties") {
			penalty := Decimal{Units: rapid.Int64Range(0, 300).Draw(rt, "points"), Places: rapid.IntRange(0, 1).Draw(rt, "places")}
			sheet.Penalties = append(sheet.Penalties, penalty)
			tally.Less(penalty)
		}
		total, ok := tally.Total()
		if !ok {
			silent++
			return
		}
		said++
		score := sheet.Score()
		require.Equal(rt, score.Decided(), total.Decided())
		require.Equal(rt, score.Maximum, total.Maximum())
		if score.Decided() {
			require.Zero(rt, score.Points.Cmp(total.Points()), "%s, %s", score.Points, total.Points())
			require.Equal(rt, score.Percent == nil, total.Percent() == nil)
			require.True(rt, score.Percent == nil || score.Percent.Cmp(total.Percent()) == 0, "%s, %s", score.Percent, total.Percent())
		} else {
			require.Nil(rt, total.Points())
			require.Nil(rt, total.Percent())
		}
	})
	require.NotZero(t, said)
	require.NotZero(t, silent)
}

// A figure that was flown several times, or a large panel, is the score's to say.
func TestTotalOfWhatIsNotWhole(t *testing.T) {
	for _, line := range []Line{
		{K: 10, Marks: []Mark{GradeOf(14)}, Again: [][]Mark{{GradeOf(15)}}},
		{K: 10, Marks: make([]Mark, mostTallied+1)},
	} {
		tally := TallyOf(Style{})
		tally.Add(line)
		_, ok := tally.Total()
		require.False(t, ok)
	}
	exact := Sheet{Judges: 1, Lines: []Line{{K: 7, Marks: []Mark{GradeOf(15)}}}}.Score()
	require.Equal(t, exact.Points, exact.Total().Points())
}
