package pages_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/report/internal/testkit"
	"boxbook/report/pages"
	"boxbook/report/words"
)

// Nothing is wider than 80 columns and nothing is left out for it, however
// large the club and its amounts are.
func TestYearFits(t *testing.T) {
	doc := yearPage(t, testkit.CrowdLedger(), 2026)
	text := yearText(t, doc)
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
	assert.NotContains(t, text, "not shown")
	data, ok := doc.Data.(answers.Year)
	require.True(t, ok)
	require.NotEmpty(t, data.Settle)
	for _, p := range data.Settle {
		assert.Contains(t, text, words.AmountSaid(p.Amount))
	}
	for _, p := range data.Pilots {
		for _, a := range p.Accounts {
			for _, amount := range []answers.Amount{a.Paid, a.Share, a.Closing} {
				assert.Contains(t, text, words.AmountSaid(amount))
			}
		}
	}
	pooled, err := answers.YearSettled(testkit.Book(t, testkit.CrowdLedger()), 2026, answers.Settling{Fewest: true})
	require.NoError(t, err)
	assert.Regexp(t, "fewer\\s+might\\s+do", yearText(t, pages.Year(pooled, true)))
}
