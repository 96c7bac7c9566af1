package answers_test

import (
	"encoding/json"
	"strings"
	"testing"

	"boxbook/report/answers"
	"boxbook/season/ledger"

	"github.com/stretchr/testify/require"
)

func checkOf(t *testing.T, text string) answers.Check {
	t.Helper()
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"a": text}, Main: "a"})
	require.NoError(t, err)
	return answers.CheckOf(result)
}

// TestCheckCarriesTheFix: the end of the span, the kind's name, and an edit whose
// text is that of the hint.
func TestCheckCarriesTheFix(t *testing.T) {
	raw, err := json.Marshal(checkOf(t, "pilot ines\ncost 2026-01-10 fuel 95EUR for ines\n"))
	require.NoError(t, err)
	require.JSONEq(t, `{"diagnostics": [{
		"file": "a", "line": 2, "column": 22, "endLine": 2, "endColumn": 27, "severity": "error", "code": "bad-number",
		"message": "\"95EUR\" is not an amount (95.00)", "hint": "write 95 EUR",
		"fixes": [{"line": 2, "column": 22, "endColumn": 27, "text": "95 EUR"}]
	}], "errors": 1, "warnings": 0, "shown": 1}`, string(raw))
}

// TestCheckIsBounded: at most a thousand, the errors first, the rest counted.
func TestCheckIsBounded(t *testing.T) {
	warned := "flight 2026-01-01 ines free\n  place 1\n"
	text := "pilot ines\n" + warned + strings.Repeat("nonsense\n", answers.MostDiagnostics)
	c := checkOf(t, text)
	require.Equal(t, answers.MostDiagnostics, c.Errors)
	require.Equal(t, 1, c.Warnings)
	require.Equal(t, answers.MostDiagnostics, c.Shown)
	require.Len(t, c.Diagnostics, answers.MostDiagnostics)
	for _, d := range c.Diagnostics {
		require.Equal(t, "error", d.Severity)
	}
}
