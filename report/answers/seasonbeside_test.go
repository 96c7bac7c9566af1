package answers_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/season"
)

// Derived, by hand: 70 and 80 % make a mean of 75, 60 % is the season before; void
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
