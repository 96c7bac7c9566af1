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

// Nothing of the first page is cut off at 80 columns: neither the sum in one
// currency nor a long name.
func TestYearFirstPageIsWhole(t *testing.T) {
	people := "pilot ines\n  name \"Ines Wilhelmina Katharina von Halloran and the Hills of the Sun\"\npilot tobias\n  name \"Tobias Wilhelm Leopold von Halloran and the Lakes of the Moon\"\n"
	text := yearText(t, yearFirstPage(t, people+
		"cost 2026-01-10 entry 12345.67 EUR for ines by club\ncost 2026-01-10 entry 22345.67 CHF for tobias by club\ncost 2026-01-10 entry 32345.67 USD for ines by club\n"+
		"cost 2026-01-10 fuel 45.67 EUR for tobias by ines\nrate 2026 CHF 1.04 EUR\nrate 2026 USD 0.92 EUR\n", 2026))
	assert.NotContains(t, text, "…")
	for _, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), 80, line)
	}
}
