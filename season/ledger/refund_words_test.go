package ledger

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestRefundsKeepTheirSign holds that nothing that is said of a refund speaks of the
// amount without its minus: who followed it would make a cost of it.
func TestRefundsKeepTheirSign(t *testing.T) {
	for typed, want := range map[string]string{
		"-1.234 EUR":           "-1.234 has more decimals than EUR amounts have (2); which is meant: -1234, or -1.23?",
		"-1,234 JPY":           "-1.234 has more decimals than JPY amounts have (0); which is meant: -1234, or -1?",
		"-1,234 KWD":           "-1,234 KWD is read as -1.234: the comma is taken as the decimal point; which is meant: -1234, or -1.234?",
		"-1.234,50 EUR":        `"-1.234,50" is not an amount (95.00); write no thousands separator: -1234.50`,
		"-99999999999999 EUR":  "-99999999999999 is outside -10000000000.00 to 10000000000.00; ",
		"99999999999999 EUR":   "99999999999999 is outside -10000000000.00 to 10000000000.00; ",
		"-9999999999999.5 EUR": "-9999999999999.5 is outside -10000000000.00 to 10000000000.00; ",
		"-95EUR":               `"-95EUR" is not an amount (95.00); write -95 EUR`,
		"-O.50 EUR":            `"-O.50" is not an amount (95.00); a letter for a digit? -0.50`,
		"-95. EUR":             `"-95." is not an amount (95.00); write -95`,
		"-1e3 EUR":             `"-1e3" is not an amount (95.00); numbers have no exponent`,
		"--95 EUR":             `"--95" is not an amount (95.00); `,
		"EUR -95":              `"EUR" is not an amount (95.00); the amount comes first: -95 EUR`,
	} {
		t.Run(typed, func(t *testing.T) {
			text := "pilot ines\ncost 2026-01-05 fuel " + typed + " for ines by club\n"
			result, err := Load(Options{Files: Memory{"x": text}, Main: "x", AsOf: day(t, casesToday)})
			require.NoError(t, err)
			require.NotEmpty(t, result.Diagnostics)
			require.Equal(t, want, result.Diagnostics[0].Message+"; "+result.Diagnostics[0].Hint)
		})
	}
}

// TestRefundsFixed holds that an edit of a refund leaves a refund.
func TestRefundsFixed(t *testing.T) {
	for typed, want := range map[string]string{"-95EUR": "-95 EUR", "-O.50 EUR": "-0.50 EUR", "EUR -95": "-95 EUR"} {
		files, _, err := Fixes(Options{Files: Memory{"x": "pilot ines\ncost 2026-01-05 fuel " + typed + " for ines by club\n"}, Main: "x", AsOf: day(t, casesToday)})
		require.NoError(t, err)
		require.Len(t, files, 1, typed)
		require.Contains(t, files[0].Fixed, "fuel "+want+" for", typed)
	}
}
