package season

import "strconv"

// Counted says a number of things: "1 flight", "3 flights", "0 flights".
func Counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
