package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"boxbook/season"
)

// KindsMeant asks whether kinds of fault were meant whose names or descriptions
// share words with what was typed, up to three of them; "" where none does.
func KindsMeant(typed string, kinds []*season.FaultKind) string {
	type candidate struct {
		*season.FaultKind
		shared, words int
	}
	words := tellingWords(typed)
	var meant []candidate
	for _, k := range kinds {
		said := tellingWords(k.Name + " " + k.Says)
		if shared := sharedWords(words, said); shared > 0 {
			meant = append(meant, candidate{k, shared, len(said)})
		}
	}
	slices.SortStableFunc(meant, func(a, b candidate) int {
		return cmp.Or(cmp.Compare(b.shared, a.shared), cmp.Compare(a.words, b.words))
	})
	names := make([]string, min(len(meant), mostNear))
	for i := range names {
		if names[i] = meant[i].Name; meant[i].Says != "" {
			names[i] += fmt.Sprintf(" (%s)", meant[i].Says)
		}
	}
	switch last := len(names) - 1; {
	case last < 0:
		return ""
	case last > 0:
		names = []string{strings.Join(names[:last], ", "), names[last]}
	}
	return "did you mean " + strings.Join(names, " or ") + "?"
}

// mostWords is how many words of what was typed are looked for.
const mostWords = 12

// tellingWords are the words of a text in small letters, without those that say
// nothing of a fault.
func tellingWords(text string) []string {
	words := strings.FieldsFunc(strings.ToLower(text), func(r rune) bool { return !unicode.IsLetter(r) })
	words = slices.DeleteFunc(words, func(word string) bool {
		return utf8.RuneCountInString(word) < shortestGuess || slices.Contains(fillWords, word)
	})
	return words[:min(len(words), mostWords)]
}

// fillWords say nothing of a fault.
var fillWords = []string{"the", "and", "too", "not", "off", "its", "was", "for", "has", "kind", "fault", "figure", "figures", "wrong", "other", "another", "before", "after", "between"}

// sharedWords says how much words have in common with others: an equal word counts
// more than one of the same stem.
func sharedWords(words, others []string) int {
	shared := 0
	for _, word := range words {
		best := 0
		for _, other := range others {
			switch {
			case word == other:
				best = max(best, 3)
			case stem(word) == stem(other):
				best = max(best, 2)
			case joinedWith(word, other) || joinedWith(other, word):
				best = max(best, 1)
			}
		}
		shared += best
	}
	return shared
}

// joinedWith reports a word with another one at its end: overrotated, rotated.
func joinedWith(word, end string) bool {
	return utf8.RuneCountInString(end) >= 4 && strings.HasSuffix(word, end)
}

// stem is a word without the endings that words of one meaning differ by.
func stem(word string) string {
	for _, ending := range []string{"ations", "ation", "ating", "ated", "ates", "ate", "ings", "ing", "ed", "es", "er", "s", "e"} {
		if short, found := strings.CutSuffix(word, ending); found && utf8.RuneCountInString(short) >= shortestGuess {
			return short
		}
	}
	return word
}

// familyWords are words for figures, in the singular, and the families that they are.
var familyWords = map[string]string{
	"line": "family 1", "angle": "family 1", "turn": "family 2", "stall": "family 5", "tailslide": "family 6",
	"loop": "family 7", "eight": "family 7", "humpty": "family 8", "spin": "family spins",
	"roll":  "9.1 (slow), hesitation, 9.9 or 9.10 (flick)",
	"flick": "9.9 or 9.10 (negative)", "snap": "9.9 or 9.10 (negative)",
}

// familyNamed says which family a word for figures is; "" where it is none.
func familyNamed(word string) string {
	one := strings.TrimSuffix(strings.ToLower(word), "s")
	family := familyWords[one]
	if family == "" {
		return ""
	}
	return fmt.Sprintf("%q is %s", word, family)
}
