package commands

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// nouns are words for one thing with their words for many, and the other way
// round.
type nouns struct{ many, one map[string]string }

// nounsOf are the words of texts that stand there with one of the endings of
// their plural as well.
func nounsOf(texts []shownText) nouns {
	words := map[string]bool{}
	for _, shown := range texts {
		for _, word := range strings.FieldsFunc(shown.text, func(r rune) bool { return !unicode.IsLetter(r) }) {
			words[word] = true
		}
	}
	n := nouns{map[string]string{}, map[string]string{}}
	for word := range words {
		if len(word) < 3 || strings.ToLower(word) != word || strings.HasSuffix(word, "ss") {
			continue
		}
		plural := word + "s"
		if stem, found := strings.CutSuffix(word, "y"); found && words[stem+"ies"] {
			plural = stem + "ies"
		}
		if words[plural] {
			n.many[word], n.one[plural] = plural, word
		}
	}
	return n
}

// Words that may stand between a number and its noun, what a number is the name
// and not the count of, and the verbs that go with one and with many.
var (
	betweenWords = []string{"contest", "more", "practice", "graded", "distinct", "earlier", "past", "low", "open", "other", "percentage", "reviewed", "further"}
	namedByIt    = []string{"figure", "figures", "place", "part", "K", "row", "line", "family", "season", "version", "column", "page"}
	verbOfOne    = []string{"is", "was", "has", "does"}
	verbOfMany   = []string{"are", "were", "have", "do"}
)

// miscounted are the places of a text where a number meets a noun or a verb that
// is not its own: "1 flights", "2 flight", "1 have".
func (n nouns) miscounted(text string) []string {
	var found []string
	tokens := strings.Fields(strings.ReplaceAll(text, "1 lines and angles", "")) // a family's key and its name
	for i := range tokens {
		count, ok := countIn(tokens[i])
		if !ok || i > 0 && slices.Contains(namedByIt, tokens[i-1]) {
			continue
		}
		if at, wrong := n.wrongAfter(tokens[i+1:], count, i > 0 && tokens[i-1] == "of"); wrong {
			found = append(found, strings.Join(tokens[max(i-2, 0):min(i+at+2, len(tokens))], " "))
		}
	}
	return found
}

// countIn is the number of things that a token says: in digits.
func countIn(token string) (int, bool) {
	token = strings.TrimLeft(token, "([")
	n, err := strconv.Atoi(token)
	return n, err == nil && len(token) <= 3 && !strings.HasPrefix(token, "+") && !strings.HasPrefix(token, "-")
}

// wrongAfter looks at the noun that follows a number and the verb behind it; part
// says that the number is one of which some are counted, whose verb is theirs.
func (n nouns) wrongAfter(tokens []string, count int, part bool) (int, bool) {
	for i, token := range tokens[:min(len(tokens), 4)] {
		word := strings.TrimRight(token, ".,;:)")
		last := word != token || i+1 == len(tokens)
		_, single := n.many[word]
		_, several := n.one[word]
		switch {
		case i == 0 && count == 1 && slices.Contains(verbOfMany, word):
			return i, !part
		case several && !single:
			return i, count == 1 || !last && !part && slices.Contains(verbOfOne, tokens[i+1])
		case single && !last && (n.isNoun(tokens[i+1]) || slices.Contains(betweenWords, word)):
			continue
		case single && !last && isNumber(tokens[i+1]):
			return i, false // a number of a list and the figure of that number
		case single:
			return i, count != 1 || !last && !part && slices.Contains(verbOfMany, tokens[i+1])
		case last || !slices.Contains(betweenWords, word):
			return i, false
		}
	}
	return 0, false
}

// isNoun reports whether a token is a word for one thing or for many.
func (n nouns) isNoun(token string) bool {
	word := strings.TrimRight(token, ".,;:)")
	return n.many[word] != "" || n.one[word] != ""
}

func isNumber(token string) bool {
	_, err := strconv.Atoi(strings.TrimRight(token, ".,;:)"))
	return err == nil
}

// TestMiscountedIsFound holds that the check can fail, and what passes it.
func TestMiscountedIsFound(t *testing.T) {
	t.Parallel()
	n := nounsOf([]shownText{{"", "flight flights contest contests figure figures day days family families judge judges result results"}})
	for _, text := range []string{
		"1 flights", "0 flight", "1 of 1 flights", "2 contest flight", "12 figure.", "within 1 days, practice", "1 families", "3 family",
		"1 have", "1 figures was", "2 figures was zeroed", "1 flight are too few", "(1 more contest flights)", "in 2 of 1 results",
	} {
		require.NotEmpty(t, n.miscounted(text), text)
	}
	for _, text := range []string{
		"1 flight", "0 flights", "1 of 4 flights", "2 contest flights", "12 figures.", "within 1 day", "1 flight is too few", "2 flights are", "1 of 2 flights is open",
		"figure 2, loop", "place 1 of 4", "one contest flight", "1.0 flights", "2026 flight", "in 1 more contest flight",
	} {
		require.Empty(t, n.miscounted(text), text)
	}
}

// TestNumbersMeetTheirNouns reads every page of ledgers that have one of everything,
// none, or as many as begin to be enough. The nouns are those of the program's own
// texts.
func TestNumbersMeetTheirNouns(t *testing.T) {
	t.Parallel()
	var texts []shownText
	for _, room := range []string{"../../../../report", "../../../../season/ledger", "../../../../cmd"} {
		texts = append(texts, literalsOf(t, room)...)
	}
	n := nounsOf(texts)
	require.Subset(t, keysOf(n.many), []string{"flight", "judge", "figure", "pilot", "drill", "fault", "contest", "cost", "member", "day", "entry", "family", "penalty"})
	for name, text := range fewLedgers() {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			for _, shown := range pagesOfFew(t, text) {
				for line := range strings.SplitSeq(shown.text, "\n") {
					assert.Empty(t, n.miscounted(line), "%s: %s", shown.where, line)
				}
			}
		})
	}
}

func keysOf(m map[string]string) []string {
	var keys []string
	for key := range m {
		keys = append(keys, key)
	}
	return keys
}
