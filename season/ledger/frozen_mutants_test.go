package ledger

import (
	"crypto/sha256"
	"flag"
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data"
)

// freeze writes which changed ledgers the reader at hand takes. It is for a
// checkout of an older revision, into which the two frozen tests are copied.
var freeze = flag.Bool("freeze", false, "write which changed ledgers this reader takes")

// changedLedgers is how many ledgers are made of the frozen ones by chance.
const changedLedgers = 6000

// longestFrozen keeps to ledgers that are read quickly.
const longestFrozen = 13_000

// mutator makes ledgers out of those that were valid: words change places with
// words that stand alike elsewhere, lines come and go, and people are called by
// words that version 1 brought.
type mutator struct {
	*rand.Rand
	texts []string
	alike map[string][]string // words by the line that they stand in and their place in it
	kinds []string            // keys of alike, in order
}

// wordsOf cuts a line into words, quoted texts and the white space between.
var wordsOf = regexp.MustCompile(`\s+|"(?:\\.|[^"\\])*"|[^\s"]+`)

// newWords are handles that mean something in version 1, and did not before.
var newWords = []string{
	"all", "each", "receipt", "by", "to", "for", "person", "closed", "budget", "agreed", "in-hand", "language", "part-of", "year-start",
	"at", "in", "ended", "video", "expires", "drift", "bridging", "open-matters", "steps", "missing", "of", "place", "income", "x",
}

func newMutator(t testing.TB) *mutator {
	c := &mutator{Rand: rand.New(rand.NewPCG(1, 2026)), alike: map[string][]string{}}
	for _, l := range frozenLedgers(t) {
		text := l.files[l.main]
		if l.errors > 0 || len(l.files) > 1 || len(text) > longestFrozen {
			continue
		}
		c.texts = append(c.texts, text)
		for _, line := range strings.Split(text, "\n") {
			c.learn(line)
		}
	}
	for kind := range c.alike {
		c.kinds = append(c.kinds, kind)
	}
	slices.Sort(c.kinds)
	return c
}

// learn keeps the words of a line by where they stand.
func (c *mutator) learn(line string) {
	words := strings.Fields(line)
	for i, word := range words {
		if strings.HasPrefix(word, "#") {
			return
		}
		if kind := placeOf(words, i); !slices.Contains(c.alike[kind], word) {
			c.alike[kind] = append(c.alike[kind], word)
		}
	}
}

// placeOf is where a word stands: in what kind of line, behind which word.
func placeOf(words []string, i int) string {
	key := words[0]
	if isNumber(key) {
		key = "row"
	}
	return fmt.Sprint(key, min(i, 6))
}

// change makes one ledger.
func (c *mutator) change() string {
	lines := strings.Split(c.texts[c.IntN(len(c.texts))], "\n")
	for range 1 + c.IntN(3) {
		at := c.IntN(len(lines))
		switch c.IntN(12) {
		case 0:
			lines = slices.Delete(lines, at, at+1)
		case 1:
			lines = slices.Insert(lines, at, lines[c.IntN(len(lines))])
		case 2, 3:
			lines = strings.Split(c.rename(strings.Join(lines, "\n")), "\n")
		case 4:
			lines[at] = c.shorten(lines[at])
		case 5, 6:
			lines = c.invite(lines)
		default:
			lines[at] = c.replace(lines[at])
		}
		if len(lines) == 0 {
			lines = []string{""}
		}
	}
	return strings.Join(lines, "\n")
}

// replace puts a word in the place of one that stands alike.
func (c *mutator) replace(line string) string {
	words := strings.Fields(line)
	parts := wordsOf.FindAllString(line, -1)
	if len(words) == 0 || strings.HasPrefix(words[0], "#") {
		return line
	}
	i := c.IntN(len(words))
	others := c.alike[placeOf(words, i)]
	if len(others) == 0 {
		return line
	}
	other := others[c.IntN(len(others))]
	for j, part := range parts {
		if part == words[i] {
			parts[j] = other
			break
		}
	}
	return strings.Join(parts, "")
}

// shorten drops the last word of a line.
func (c *mutator) shorten(line string) string {
	parts := wordsOf.FindAllString(line, -1)
	return strings.TrimRight(strings.Join(parts[:max(0, len(parts)-1)], ""), " ")
}

// invite lets a new pilot, called by one of the new words, share or pay a cost.
func (c *mutator) invite(lines []string) []string {
	var costs []int
	for i, line := range lines {
		if strings.Contains(line, " for ") && !strings.Contains(line, "#") {
			costs = append(costs, i)
		}
	}
	if len(costs) == 0 {
		return lines
	}
	word, at := newWords[c.IntN(len(newWords))], costs[c.IntN(len(costs))]
	words := strings.Split(lines[at], " ")
	for i := range words {
		if words[i] == "for" || words[i] == "by" && c.IntN(2) == 0 {
			place := min(i+1+c.IntN(3), len(words))
			words = slices.Insert(words, place, strings.Fields(word+strings.Repeat(" by "+word, c.IntN(2)))...)
			break
		}
	}
	lines[at] = strings.Join(words, " ")
	return append(slices.Clone(lines), "pilot "+word)
}

var heads = regexp.MustCompile(`(?m)^(?:pilot|coach|sequence|contest|fault-kind|ladder|rules) +(\S+)`)

// rename calls one thing that the ledger defines by another word, everywhere.
func (c *mutator) rename(text string) string {
	defined := heads.FindAllStringSubmatch(text, -1)
	if len(defined) == 0 {
		return text
	}
	old := regexp.QuoteMeta(defined[c.IntN(len(defined))][1])
	word := newWords[c.IntN(len(newWords))]
	return regexp.MustCompile(`(?m)([ /])`+old+`(\s|/|$)`).ReplaceAllString(text, "${1}"+word+"${2}")
}

// What the reader of then took among ledgers made by chance it takes now.
func TestFrozenLedgersChangedStayValid(t *testing.T) {
	c, sum := newMutator(t), sha256.New()
	require.NotEmpty(t, c.kinds)
	taken := make([]byte, changedLedgers)
	var texts []string
	for i := range taken {
		text := c.change()
		texts = append(texts, text)
		fmt.Fprint(sum, text)
		taken[i] = '0'
		if frozenErrors(t, text) == 0 {
			taken[i] = '1'
		}
	}
	path, digest := frozenFolder+"changed.txt", fmt.Sprintf("%x", sum.Sum(nil))
	if *freeze {
		require.NoError(t, os.WriteFile(path, []byte(digest+"\n"+string(taken)+"\n"), 0o644))
		return
	}
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	then := strings.Fields(string(raw))
	require.Equal(t, then[0], digest, "the ledgers are others than those that were read then")
	require.GreaterOrEqual(t, strings.Count(then[1], "1"), 2000)
	for i, was := range then[1] {
		if was == '1' && taken[i] != '1' {
			require.Fail(t, "valid then and not now", "%s\n%v", texts[i], frozenDiagnostics(t, texts[i]).Err())
		}
	}
}

func frozenDiagnostics(t testing.TB, text string) List {
	result, err := Load(Options{Files: Memory{"a.boxbook": text}, Main: "a.boxbook", Builtin: data.Builtin(), AsOf: day(t, casesToday)})
	require.NoError(t, err)
	return result.Diagnostics
}

func frozenErrors(t testing.TB, text string) int { return frozenDiagnostics(t, text).Errors() }
