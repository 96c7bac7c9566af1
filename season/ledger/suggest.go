package ledger

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/agext/levenshtein"
)

// guesses counts the names that were held against what was typed. nil counts
// nothing.
type guesses struct {
	compared int
	kinds    map[string]string // the block that each word may have meant
}

// keptKinds is how many words' blocks are kept: a slip repeated down a file is
// one word, and a file of other words is as long as it likes.
const keptKinds = 1_000

// kindNear is [Nearest] of the blocks.
func (g *guesses) kindNear(word string) string {
	kind, known := g.kinds[word]
	if !known {
		kind = Nearest(word, blockKinds)
		if g.kinds == nil {
			g.kinds = map[string]string{}
		}
		if len(g.kinds) < keptKinds {
			g.kinds[word] = kind
		}
	}
	return kind
}

// mostCompared is how many a reading compares: with tens of thousands of unknown
// names, of which a thousand are shown, nobody reads what the last may have been.
const mostCompared = 2_000_000

// allow reports whether so many names more may be compared, and counts them.
func (g *guesses) allow(names int) bool {
	if g == nil {
		return true
	}
	if g.compared+names > mostCompared {
		return false
	}
	g.compared += names
	return true
}

// shortestGuess is the shortest word for which a near name says anything.
const shortestGuess = 3

// Nearest gives the known name closest to what was typed, "" where none is
// close enough to be what was meant: a third of the letters, at most three, may
// differ, swapped neighbours counting once; else a name that was cut short or
// drawn out.
func Nearest(typed string, known []string) string {
	if names := near(typed, known); len(names) > 0 {
		return names[0]
	}
	return ""
}

// mostNear is how many names that are equally near are named.
const mostNear = 3

// Near gives the known names closest to what was typed as Nearest has it, all that
// are equally close up to three; none where none is close enough.
func Near(typed string, known []string) []string { return equallyNear(typed, near(typed, known)) }

// equallyNear keeps of near names, the closest first, those that are as close as
// the first: of names that were cut short or drawn out, all are.
func equallyNear(typed string, names []string) []string {
	lower, n := strings.ToLower(typed), 1
	away := func(name string) int { return min(distance(lower, strings.ToLower(name)), letterLimit(lower)+1) }
	for n < min(len(names), mostNear) && away(names[n]) == away(names[0]) {
		n++
	}
	return names[:min(n, len(names))]
}

// DidYouMean asks whether one of near names was meant.
func DidYouMean(names []string) string {
	quoted := make([]string, len(names))
	for i, name := range names {
		quoted[i] = strconv.Quote(name)
	}
	last := len(quoted) - 1
	if last > 0 {
		quoted = []string{strings.Join(quoted[:last], ", "), quoted[last]}
	}
	return "did you mean " + strings.Join(quoted, " or ") + "?"
}

// letterLimit is how many letters of a word may differ from the one that was
// meant.
func letterLimit(lower string) int {
	letters := utf8.RuneCountInString(lower)
	if letters < shortestGuess {
		return 0
	}
	return min(3, (letters+2)/3)
}

// near gives every known name that may be meant, the closest first. Names that
// differ by the case of letters alone are closer than any other: they are all.
func near(typed string, known []string) []string {
	lower := strings.ToLower(typed)
	limit, letters := letterLimit(lower), utf8.RuneCountInString(lower)
	var names, longer []string
	distances := map[string]int{}
	for _, name := range known {
		candidate := strings.ToLower(name)
		away := limit + 1
		if apart := letters - utf8.RuneCountInString(candidate); max(apart, -apart) <= limit { // no fewer letters can differ
			away = distance(lower, candidate)
		}
		switch _, twice := distances[name]; {
		case away <= limit && !twice:
			names, distances[name] = append(names, name), away
		case away > limit && begins(lower, candidate) && !slices.Contains(longer, name):
			longer = append(longer, name)
		}
	}
	slices.SortStableFunc(names, func(a, b string) int { return distances[a] - distances[b] })
	switch {
	case len(names) == 0:
		return longer
	case distances[names[0]] == 0:
		return slices.DeleteFunc(names, func(name string) bool { return distances[name] > 0 })
	default:
		return names
	}
}

// distance counts the letters in which two words differ, swapped neighbours
// once.
func distance(a, b string) int {
	if swapped(a, b) {
		return 1
	}
	return levenshtein.Distance(a, b, nil)
}

// oneApart reports whether the distance of two words is one, in time that does not
// grow with the square of their length.
func oneApart(a, b string) bool {
	if swapped(a, b) {
		return true
	}
	one, other := []rune(a), []rune(b)
	for len(one) > 0 && len(other) > 0 && one[0] == other[0] {
		one, other = one[1:], other[1:]
	}
	for len(one) > 0 && len(other) > 0 && one[len(one)-1] == other[len(other)-1] {
		one, other = one[:len(one)-1], other[:len(other)-1]
	}
	return max(len(one), len(other)) == 1
}

// closer reports whether the first of several near names is closer to what was
// typed than every other.
func closer(typed string, names []string) bool {
	lower := strings.ToLower(typed)
	return distance(lower, strings.ToLower(names[0])) < distance(lower, strings.ToLower(names[1]))
}

// sameNumbers reports whether two names may be one: other digits are another
// day, or another year's sequence, unless two neighbours are swapped.
func sameNumbers(a, b string) bool {
	digits := func(name string) string {
		return strings.Map(func(c rune) rune {
			if c >= '0' && c <= '9' {
				return c
			}
			return -1
		}, name)
	}
	return digits(a) == digits(b) || swapped(a, b) && !strings.Contains(a, "/")
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
