package words

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"boxbook/report"
)

// The decimals that people are shown: points and percent have two, grades and
// means of grades two, grades as marked one.
const (
	PointDecimals   = 2
	PercentDecimals = 2
	MeanDecimals    = 2
)

// numberNames are the whole numbers that sentences spell out.
var numberNames = []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}

// NumberName spells a small whole number out: "five"; 13 and more in digits.
func NumberName(n int) string {
	if n >= 0 && n < len(numberNames) {
		return numberNames[n]
	}
	return strconv.Itoa(n)
}

// Counted says a number of things: "1 flight", "3 flights", "0 flights".
func Counted(n int, one, many string) string { return strconv.Itoa(n) + " " + PluralWord(n, one, many) }

// ListInWords joins a list: "a", "a and b", "a, b and c".
func ListInWords(items []string) string {
	last := len(items) - 1
	if last < 1 {
		return strings.Join(items, "")
	}
	return strings.Join(items[:last], ", ") + " and " + items[last]
}

// PluralWord is a word for one thing or for many.
func PluralWord(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Sentence begins words with a capital.
func Sentence(words string) string {
	if words == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(words)
	return string(unicode.ToUpper(first)) + words[size:]
}

// RootText is the square root of a variance, with one decimal.
func RootText(n report.Number) string { return report.Float(math.Sqrt(n.Float64())).Text(1) }
