package words

import (
	"math"
	"math/big"
	"unicode"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
)

// The decimals that people are shown: points and percent have two, grades and
// means of grades two, grades as marked one.
const (
	PointDecimals   = answers.PointDecimals
	PercentDecimals = 2
	MeanDecimals    = 2
)

// Percent is a share from 0 to 1 in percent, not known where the share is not.
func Percent(share report.Number) report.Number {
	exact := share.Rat()
	if exact == nil {
		return report.Number{}
	}
	return report.Exact(exact.Mul(exact, big.NewRat(100, 1)))
}

// Sentence begins words with a capital.
func Sentence(words string) string {
	if words == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// lowerFirst is a sentence as it goes on behind other words.
func lowerFirst(words string) string {
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToLower(first)) + words[size:]
}

// RootText is the square root of a variance, with one decimal.
func RootText(n report.Number) string { return report.Float(math.Sqrt(n.Float64())).Text(1) }

// AmountSaid is an amount as people read it, its thousands set off, without the
// currency.
func AmountSaid(a answers.Amount) string { return display.Grouped(a.Text()) }

// SumSaid is an amount with its currency: "1,085.00 EUR".
func SumSaid(s answers.Sum) string { return AmountSaid(s.Amount) + " " + s.Currency }
