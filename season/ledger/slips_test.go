package ledger

import (
	"flag"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slipTable prints what each kind of slip gives, and the worst of them.
var (
	slipTable  = flag.Bool("slips", false, "print the table of single slips and those that give more than three errors")
	slipsTried = flag.Int("slips-tried", 500, "how many single slips are made")
	slipSeed   = flag.Uint64("slips-seed", 11, "seed of the single slips")
)

// The bounds of what one slip may give.
const (
	errorsOfASlip = 3    // of nearly all slips
	mostOfASlip   = 6    // of any
	nearlyAll     = 0.99 // of the slips that are errors
)

// slip is one change of one word or one line, such as a tired hand makes.
type slip struct {
	file, kind    string
	line          int
	before, after string
}

// slipLedgers are the ledgers that slips are made in: the demo with its files, and
// the tours of the language.
func slipLedgers(t testing.TB) []tidyLedger {
	all := slices.DeleteFunc(sampleLedgers(t), func(l tidyLedger) bool {
		return !slices.Contains([]string{"longmere.boxbook", "language-tour.boxbook", "version-1.boxbook"}, l.name)
	})
	require.Len(t, all, 3)
	return all
}

// wordSlips change one word of a line; lineSlips one line among the others.
var (
	wordSlips = []string{"drop", "letter-lost", "letter-twice", "letters-swapped", "letter-wrong", "case", "other", "extra", "swap", "split", "join", "digit", "quote-lost", "comma"}
	lineSlips = []string{"line-lost", "line-twice", "line-moved", "lines-swapped", "indent", "cut", "joined", "stray"}
)

// slipper makes single slips by chance.
type slipper struct {
	*rand.Rand
	words []string // of all ledgers
	lines []string
}

// make changes one word or line of a file; what comes out as it was is tried
// again.
func (s *slipper) make(t testing.TB, in tidyLedger, kind string) (slip, tidyLedger) {
	files := in.text
	names := slices.Sorted(maps.Keys(files))
	name := names[s.IntN(len(names))]
	lines := strings.Split(strings.TrimSuffix(files[name], "\n"), "\n")
	for range 1000 {
		at := s.IntN(len(lines))
		text := strings.TrimSpace(lines[at])
		if text == "" || strings.HasPrefix(text, "#") {
			continue
		}
		changed := s.change(lines, at, kind)
		if slices.Equal(changed, lines) {
			continue
		}
		out := maps.Clone(files)
		out[name] = strings.Join(changed, "\n") + "\n"
		after := ""
		if at < len(changed) {
			after = changed[at]
		}
		return slip{name, kind, at + 1, lines[at], after}, tidyLedger{in.name, in.main, out}
	}
	t.Fatalf("no slip of the kind %s is possible in %s", kind, name)
	return slip{}, in
}

// change gives the lines with one slip in line at.
func (s *slipper) change(lines []string, at int, kind string) []string {
	out := slices.Clone(lines)
	switch kind {
	case "line-lost":
		return slices.Delete(out, at, at+1)
	case "line-twice":
		return slices.Insert(out, at, out[at])
	case "line-moved":
		line := out[at]
		out = slices.Delete(out, at, at+1)
		return slices.Insert(out, s.IntN(len(out)+1), line)
	case "lines-swapped":
		if at+1 < len(out) {
			out[at], out[at+1] = out[at+1], out[at]
		}
	case "indent":
		if trimmed := strings.TrimLeft(out[at], " \t"); trimmed != out[at] {
			out[at] = trimmed
		} else {
			out[at] = "  " + out[at]
		}
	case "cut":
		out[at] = out[at][:s.IntN(len(out[at]))]
	case "joined":
		if at+1 < len(out) {
			out[at] += " " + strings.TrimSpace(out[at+1])
			return slices.Delete(out, at+1, at+2)
		}
	case "stray":
		return slices.Insert(out, at, s.lines[s.IntN(len(s.lines))])
	default:
		out[at] = s.inLine(out[at], kind)
	}
	return out
}

// inLine changes one word of a line.
func (s *slipper) inLine(line, kind string) string {
	parts := wordsOf.FindAllString(line, -1)
	var at []int
	for i, part := range parts {
		if strings.HasPrefix(part, "#") {
			break
		}
		if strings.TrimSpace(part) != "" {
			at = append(at, i)
		}
	}
	if len(at) == 0 {
		return line
	}
	k := s.IntN(len(at))
	i := at[k]
	switch kind {
	case "drop":
		parts[i] = ""
	case "extra":
		parts[i] += " " + s.words[s.IntN(len(s.words))]
	case "other":
		parts[i] = s.words[s.IntN(len(s.words))]
	case "swap":
		if k+1 < len(at) {
			parts[i], parts[at[k+1]] = parts[at[k+1]], parts[i]
		}
	case "join":
		if k+1 < len(at) {
			parts[i+1] = ""
		}
	default:
		parts[i] = s.inWord(parts[i], kind)
	}
	return strings.Join(parts, "")
}

// inWord changes a letter or a sign of a word.
func (s *slipper) inWord(word, kind string) string {
	letters := []rune(word)
	i := s.IntN(len(letters))
	switch kind {
	case "letter-lost":
		return string(slices.Delete(letters, i, i+1))
	case "letter-twice":
		return string(slices.Insert(letters, i, letters[i]))
	case "letters-swapped":
		if i+1 < len(letters) {
			letters[i], letters[i+1] = letters[i+1], letters[i]
		}
		return string(letters)
	case "letter-wrong":
		letters[i] = rune("abcdefghijklmnopqrstuvwxyz0123456789-"[s.IntN(37)])
		return string(letters)
	case "digit":
		if letters[i] >= '0' && letters[i] <= '9' {
			letters[i] = '0' + rune(s.IntN(10))
		}
		return string(letters)
	case "case":
		if upper := strings.ToUpper(word[:1]) + word[1:]; upper != word {
			return upper
		}
		return strings.ToLower(word)
	case "split":
		if len(letters) > 1 {
			i = 1 + s.IntN(len(letters)-1)
			return string(letters[:i]) + " " + string(letters[i:])
		}
		return word
	case "quote-lost":
		return strings.Replace(word, `"`, "", 1)
	default:
		return strings.ReplaceAll(word, ".", ",")
	}
}

// One slip is one thing wrong: nearly all give at most three errors, none more
// than six.
func TestOneSlipIsFewErrors(t *testing.T) {
	ledgers := slipLedgers(t)
	s := &slipper{Rand: rand.New(rand.NewPCG(*slipSeed, 2026))}
	for _, l := range ledgers {
		require.Zero(t, l.load(t).Diagnostics.Errors(), "%s is in order before a slip", l.name)
		s.learn(l)
	}
	kinds := slices.Concat(wordSlips, lineSlips)
	many := map[string]*[mostOfASlip + 2]int{}
	wrong, beyond, most := 0, 0, 0
	for i := range *slipsTried {
		made, changed := s.make(t, ledgers[s.IntN(len(ledgers))], kinds[i%len(kinds)])
		list := changed.load(t).Diagnostics
		n := list.Errors()
		if many[made.kind] == nil {
			many[made.kind] = new([mostOfASlip + 2]int)
		}
		many[made.kind][min(n, mostOfASlip+1)]++
		if n > 0 {
			wrong++
		}
		if most = max(most, n); n > errorsOfASlip {
			beyond++
			made.show(list)
		}
	}
	if *slipTable {
		for _, kind := range kinds {
			fmt.Printf("%-16s %v\n", kind, *many[kind])
		}
		fmt.Printf("errors %d, more than three %d, most %d\n", wrong, beyond, most)
	}
	require.Greater(t, wrong, *slipsTried/3)
	assert.LessOrEqual(t, float64(beyond), (1-nearlyAll)*float64(wrong))
	assert.LessOrEqual(t, most, mostOfASlip)
}

// learn keeps the words and lines of a ledger, to stray elsewhere.
func (s *slipper) learn(l tidyLedger) {
	for _, name := range slices.Sorted(maps.Keys(l.text)) {
		for _, line := range strings.Split(l.text[name], "\n") {
			if text := strings.TrimSpace(line); text != "" && !strings.HasPrefix(text, "#") {
				s.lines = append(s.lines, line)
				s.words = append(s.words, strings.Fields(line)...)
			}
		}
	}
}

// show prints a slip with its first errors, where the table is asked for.
func (s slip) show(list List) {
	if !*slipTable {
		return
	}
	fmt.Printf("%d errors: %s, %s:%d\n  - %s\n  + %s\n", list.Errors(), s.kind, s.file, s.line, s.before, s.after)
	shown := 0
	for _, d := range list {
		if d.Severity == Error && shown < 5 {
			fmt.Println("    ", d.Error())
			shown++
		}
	}
}
