package words

import "strings"

// AnyInWords joins a list of which any one is meant: "a", "a or b", "a, b or c".
func AnyInWords(items []string) string {
	last := len(items) - 1
	if last < 1 {
		return ListInWords(items)
	}
	return strings.Join(items[:last], ", ") + " or " + items[last]
}
