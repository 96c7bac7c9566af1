package ledger

import (
	"strings"

	"github.com/agext/levenshtein"
)

// shortestGuess is the shortest word for which a near name says anything.
const shortestGuess = 3

// Nearest gives the known name closest to what was typed, "" where none is
// close enough to be what was meant: a third of the letters, at most three, may
// differ, swapped neighbours counting once; else a name that was cut short or
// drawn out.
func Nearest(typed string, known []string) string {
	lower := strings.ToLower(typed)
	best, bestDistance := "", min(3, (len([]rune(typed))+2)/3)+1
	if len([]rune(lower)) < shortestGuess {
		bestDistance = 0
	}
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
	if best != "" {
		return best
	}
	for _, name := range known {
		if begins(lower, strings.ToLower(name)) {
			return name
		}
	}
	return ""
}

// begins reports whether a word was cut short or drawn out.
func begins(typed, known string) bool {
	return len(known) >= shortestGuess && len(typed) >= shortestGuess-1 && (strings.HasPrefix(typed, known) || strings.HasPrefix(known, typed))
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
