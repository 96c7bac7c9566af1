package words

import (
	"slices"
	"strconv"
	"strings"

	"boxbook/report/display"
)

// Counted says a number of things: "1 flight", "3 flights", "0 flights".
func Counted(n int, one, many string) string { return display.Counted(n, one, many) }

// PluralWord is a word for one thing or for many.
func PluralWord(n int, one, many string) string { return display.Plural(n, one, many) }

// theLast says the last of several: "the last flight", "the last 3 flights".
func theLast(n int, one, many string) string {
	if n == 1 {
		return "the last " + one
	}
	return "the last " + Counted(n, one, many)
}

// ofSeveral says how many of several: "3 of 4 flights", "0 of 1 flight".
func ofSeveral(k, n int, one, many string) string {
	return strconv.Itoa(k) + " of " + Counted(n, one, many)
}

// NumberWord is a small number as a word, "two"; others in digits.
func NumberWord(n int) string {
	small := []string{"no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"}
	if n < 0 || n >= len(small) {
		return strconv.Itoa(n)
	}
	return small[n]
}

// ListInWords joins a list: "a", "a and b", "a, b and c".
func ListInWords(items []string) string { return listed(items, "and") }

// AnyInWords joins a list of which any one is meant: "a", "a or b", "a, b or c".
func AnyInWords(items []string) string { return listed(items, "or") }

func listed(items []string, last string) string {
	n := len(items) - 1
	if n < 1 {
		return strings.Join(items, "")
	}
	return strings.Join(items[:n], ", ") + " " + last + " " + items[n]
}

// Once adds a name to a list that has none twice.
func Once(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}
