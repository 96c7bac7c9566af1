package ledger

import (
	"fmt"
	"testing"

	"boxbook/season"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestLossAndOverdraft holds that a year's agreed result and what was in hand may be below
// zero, with a hyphen or with the minus that pages print, and that tidy writes the hyphen.
func TestLossAndOverdraft(t *testing.T) {
	for typed, minor := range map[string]int64{
		"-681.60 EUR": -68160, "−681.60 EUR": -68160, "-681,60 EUR": -68160, "−681,6 EUR": -68160, "-0 EUR": 0, "−5 JPY": -5,
	} {
		for _, line := range []string{"agreed 2025 ", "in-hand 2025-12-31 bank "} {
			text := line + typed + ` "− as printed" # − as typed` + "\n"
			l := readWithout(t, text)
			var money season.Money
			if len(l.Agreed) > 0 {
				money = l.Agreed[0].Money
			} else {
				money = l.InHand[0].Money
			}
			require.Equal(t, minor, money.Minor, text)
			tidied, err := Tidy("x", text)
			require.NoError(t, err, text)
			require.Equal(t, l, readWithout(t, tidied), text)
			require.Contains(t, tidied, " -", text)
			require.NotContains(t, digitsBefore(tidied), printedMinus, text)
			require.Contains(t, tidied, `"− as printed"  # − as typed`, text)
			again, err := Tidy("x", tidied)
			require.NoError(t, err, text)
			require.Equal(t, tidied, again)
		}
	}
}

var someDay, _ = season.ParseDate("2026-11-20")

// digitsBefore is a line up to its remark.
func digitsBefore(line string) string {
	for i, c := range line {
		if c == '"' {
			return line[:i]
		}
	}
	return line
}

func readWithout(t require.TestingT, text string) *season.Ledger {
	result, err := Load(Options{Files: Memory{"x": text}, Main: "x", AsOf: someDay})
	require.NoError(t, err)
	require.Empty(t, result.Diagnostics, text)
	return result.Ledger
}

// TestOtherMinusesAreRefused holds what is said of a minus that is not taken.
func TestOtherMinusesAreRefused(t *testing.T) {
	const only = "is below zero; only a refund (cost), an overdraft (in-hand) or a loss (agreed) may be; "
	for line, want := range map[string]string{
		"agreed 2025 –5.00 EUR":                           `"–5.00" is not an amount (95.00); type a plain minus: -5.00`,
		"in-hand 2025-12-31 bank - 5.00 EUR":              `"-" is not an amount (95.00); no space behind the minus: -5.00`,
		"agreed 2025 − 5.00 EUR":                          `"−" is not an amount (95.00); no space behind the minus: -5.00`,
		"agreed 2025 −5.00EUR":                            `"−5.00EUR" is not an amount (95.00); write -5.00 EUR`,
		"agreed 2025 EUR −5.00":                           `"EUR" is not an amount (95.00); the amount comes first: -5.00 EUR`,
		"agreed 2025 −1.234,50 EUR":                       `"−1.234,50" is not an amount (95.00); write no thousands separator: -1234.50`,
		"agreed 2025 −5.001 EUR":                          `-5.001 has more decimals than EUR amounts have (2); which is meant: -5001, or -5.00?`,
		"agreed 2025 -99999999999999 EUR":                 `-99999999999999 is outside -10000000000.00 to 10000000000.00; `,
		"budget 2025 hall-hire -5.00 EUR":                 `"-5.00" ` + only + "what is to come in has income behind it: budget YEAR KIND 5.00 CUR income",
		"budget 2025 hall-hire −5.00 EUR":                 `"−5.00" ` + only + "what is to come in has income behind it: budget YEAR KIND 5.00 CUR income",
		"income 2025-03-01 gift −5.00 EUR":                `"−5.00" ` + only + "what the club pays back is a cost: cost DATE KIND 5.00 CUR for club by club",
		"owed 2025-03-01 ines club -5.00 EUR":             `"-5.00" ` + only + "swap the two names",
		"settle 2025-03-01 ines club –5.00 EUR":           `"–5.00" ` + only + "swap the two names",
		"settle 2025-03-01 ines club 5.00 EUR for -5 CHF": `"-5" ` + only + "swap the two names",
		"cost 2025-03-01 gift −5.00 EUR for club by club": `"−5.00" is not an amount (95.00); type a plain minus: -5.00`,
		"cost 2025-03-01 gift –5.00 EUR for club by club": `"–5.00" is not an amount (95.00); type a plain minus: -5.00`,
	} {
		result, err := Load(Options{Files: Memory{"x": "pilot ines\n" + line + "\n"}, Main: "x", AsOf: someDay})
		require.NoError(t, err)
		require.NotEmpty(t, result.Diagnostics, line)
		require.Equal(t, want, result.Diagnostics[0].Message+"; "+result.Diagnostics[0].Hint, line)
		require.Len(t, result.Diagnostics, 1, line)
	}
}

// TestBelowZeroFixed holds that an edit of an amount below zero leaves it there.
func TestBelowZeroFixed(t *testing.T) {
	for line, want := range map[string]string{
		"agreed 2025 –5.00 EUR":              "agreed 2025 -5.00 EUR",
		"agreed 2025 − 5.00 EUR":             "agreed 2025 -5.00 EUR",
		"in-hand 2025-12-31 bank −5.00EUR":   "in-hand 2025-12-31 bank -5.00 EUR",
		"in-hand 2025-12-31 bank EUR −5.00":  "in-hand 2025-12-31 bank -5.00 EUR",
		"in-hand 2025-12-31 bank - 5,00 EUR": "in-hand 2025-12-31 bank -5,00 EUR",
	} {
		files, _, err := Fixes(Options{Files: Memory{"x": line + "\n"}, Main: "x", AsOf: someDay})
		require.NoError(t, err)
		require.Len(t, files, 1, line)
		require.Equal(t, want+"\n", files[0].Fixed, line)
	}
}

// TestDoubtfulCommaBelowZero holds that tidy leaves a comma that may set off thousands
// behind a minus too.
func TestDoubtfulCommaBelowZero(t *testing.T) {
	for line, want := range map[string]string{
		"in-hand 2025-12-31 bank −1,234 KWD":               "in-hand 2025-12-31 bank -1,234 KWD",
		"agreed 2025 -1,234 KWD":                           "agreed 2025 -1,234 KWD",
		"cost 2025-12-31 fuel -1,234 KWD for club by club": "cost 2025-12-31 fuel -1,234 KWD for club by club",
		"cost 2025-12-31 fuel -11,5 KWD for club by club":  "cost 2025-12-31 fuel -11.5 KWD for club by club",
		"income 2025-12-31 fuel −11,5 KWD":                 "income 2025-12-31 fuel −11,5 KWD",
	} {
		tidied, err := Tidy("x", line+"\n")
		require.NoError(t, err)
		require.Equal(t, want+"\n", tidied)
	}
}

// TestBelowZeroAsTyped holds that an amount below zero, written out, is read as itself.
func TestBelowZeroAsTyped(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		currency := rapid.SampledFrom([]season.Currency{{Code: "EUR", Decimals: 2}, {Code: "JPY"}, {Code: "BHD", Decimals: 3}}).Draw(t, "currency")
		money := season.Money{Minor: rapid.Int64Range(-maxMinor, maxMinor).Draw(t, "minor"), Currency: currency}
		text := fmt.Sprintf("agreed 2025 %s %s\nin-hand 2025-12-31 bank %[1]s %[2]s\n", money.Text(), currency.Code)
		l := readWithout(t, text)
		require.Equal(t, money, l.Agreed[0].Money)
		require.Equal(t, money, l.InHand[0].Money)
		tidied, err := Tidy("x", text)
		require.NoError(t, err)
		read := readWithout(t, tidied)
		require.Equal(t, money.Text(), read.Agreed[0].Money.Text())
		require.Equal(t, money.Text(), read.InHand[0].Money.Text())
	})
}
