package words_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// A change that is or may be there stands beside how often chance gives it.
func TestPilotFormHasItsChance(t *testing.T) {
	for _, c := range []struct {
		word   answers.TrendWord
		chance report.Number
		want   string
	}{
		{answers.MayImprove, report.Float(.19), "may be improving (one season in 5)"},
		{answers.Declining, report.Float(.0001), "declining (less than one season in 100)"},
		{answers.CannotTell, report.Number{}, "cannot tell"},
		{"", report.Number{}, ""},
	} {
		require.Equal(t, c.want, words.PilotForm(answers.PilotLine{Word: c.word, Chance: c.chance}))
	}
}
