package display

import "strconv"

// Plural is the word for one thing or for many.
func Plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

// Counted says a number of things: "1 flight", "3 flights", "0 flights".
func Counted(n int, one, many string) string { return strconv.Itoa(n) + " " + Plural(n, one, many) }
