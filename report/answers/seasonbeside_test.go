package answers_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/words"
	"boxbook/season"
)

// [derived], by hand: 70 and 80 % make a mean of 75, 60 % is the season before; void
// and practice flights enter neither.
func TestSeasonBesideTheOneBefore(t *testing.T) {
	flight := func(head, grade, more string) string {
		return "flight " + head + "\n  sequence one\n  panel A\n  1 " + grade + "\n" + more
	}
	l := testkit.Book(t, "pilot ines\nsequence one\n  category sportsman\n  1 7.4.1.1:10\nsequence two\n  category intermediate\n  1 7.4.1.1:10\n"+
		flight("2025-05-01 ines known", "6", "")+flight("2026-05-01 ines known", "7", "")+flight("2026-06-01 ines free", "8", "  category intermediate\n")+
		flight("2026-06-02 ines practice", "2", "")+flight("2026-06-03 ines known", "1", "  void \"engine\"\n"))
	s := season.Selection{Pilot: l.Pilots[0], Season: 2026}
	d := answers.SeasonBeside(l, s, 2025)
	assert.Equal(t, 2, d.Entered)
	assert.InDelta(t, 75, d.Mean.Float64(), 1e-12)
	assert.Equal(t, []string{"sportsman", "intermediate"}, d.Categories)
	require.NotNil(t, d.Beside)
	assert.Equal(t, 1, d.Beside.Entered)
	assert.InDelta(t, 60, d.Beside.Mean.Float64(), 1e-12)
	assert.Equal(t, "2025-05-01/ines/known", d.Beside.Best)
	assert.Nil(t, d.Beside.Beside)
	assert.Nil(t, answers.SeasonBeside(l, s, 2024).Beside)
}

// [derived], by hand: of two hard zeros from three judges the figure is 0 and loses
// 10 x K; 0.0 from everybody is a grade; practice is no contest flight.
func TestSeasonNamesZerosAndPenalties(t *testing.T) {
	sheet := func(head, one, two, more string) string {
		return "flight " + head + "\n  sequence one\n  panel A B C\n  1 " + one + "\n  2 " + two + "\n" + more
	}
	const lines = "pilot ines\nsequence one\n  category sportsman\n  1 7.4.1.1:10\n  2 5.1.1.1:17\n"
	season2026 := func(sheets string) string {
		l := testkit.Book(t, lines+sheets)
		return words.ZerosAndPenalties(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}).Flights, true)
	}
	graded := sheet("2026-05-01 ines known", "7 7 7", "0.0 0.0 0.0", "") + sheet("2026-05-09 ines practice", "HZ HZ HZ", "7 7 7", "")
	assert.Equal(t, "points lost: 2026-06-01 170.00 of the maximum by a zero on figure 2 (about 119 points, 44.1 percentage points, at the mean grade of the other figures); 2026-06-07 100.00 of the maximum by a zero on figure 1 (about 70 points, 25.9 percentage points, at the mean grade of the other figures) and 22.50 by penalty",
		season2026(graded+sheet("2026-06-01 ines free", "7 7 7", "HZ HZ 6", "")+sheet("2026-06-07 ines free", "HZ HZ HZ", "7 7 7", "  penalty low 20\n  penalty out 2.5\n")))
	l := testkit.Book(t, lines+sheet("2026-06-01 ines free", "7 7 7", "HZ HZ 6", ""))
	brief := words.ZerosAndPenalties(answers.SeasonOf(l, season.Selection{Pilot: l.Pilots[0], Season: 2026}).Flights, false)
	assert.Equal(t, "lost: 2026-06-01 119 (44.1%) vs rest by a zero on figure 2", brief, "not of the maximum, as on the flight's page")
	assert.Equal(t, "no figure was zeroed in these contest flights, and no penalty is typed", season2026(graded))
	assert.Empty(t, season2026(sheet("2026-05-09 ines practice", "HZ HZ HZ", "7 7 7", "")))
}
