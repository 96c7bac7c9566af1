package ledger

import (
	"strings"

	"github.com/agext/levenshtein"
)

// nearest gives the known name closest to what was typed, "" where none is
// close enough to be what was meant: a third of the letters, at most three, may
// differ, swapped neighbours counting once.
func nearest(typed string, known []string) string {
	best, bestDistance := "", min(3, (len([]rune(typed))+2)/3)+1
	lower := strings.ToLower(typed)
	for _, name := range known {
		candidate := strings.ToLower(name)
		distance := levenshtein.Distance(lower, candidate, nil)
		if swapped(lower, candidate) {
			distance = 1
		}
		if distance < bestDistance {
			best, bestDistance = name, distance
		}
	}
	return best
}

// swapped reports whether two words differ by two neighbouring letters only.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	for i := 0; i+1 < len(a); i++ {
		if a[i] != b[i] {
			return a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
		}
	}
	return false
}
