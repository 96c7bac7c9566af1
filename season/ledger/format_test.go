package ledger

import (
	"fmt"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"unicode"

	"boxbook/data"
	"boxbook/scoring"
	"boxbook/season"

	"github.com/stretchr/testify/require"
)

// tidyLedger is a ledger that tidy is tried on: the text of each of its files.
type tidyLedger struct {
	name string
	main string
	text Memory
}

// sampleLedgers are the samples and what the program ships.
func sampleLedgers(t testing.TB) []tidyLedger {
	t.Helper()
	var all []tidyLedger
	for _, pattern := range []string{"../../testdata/ledgers/*.boxbook", "../../data/*.boxbook", "../../data/demo/*.boxbook", "../../data/builtin/*.boxbook"} {
		paths, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, path := range paths {
			located, err := Disk{}.Locate(path)
			require.NoError(t, err)
			_, sources, err := LoadSources(Options{Files: Disk{}, Main: located, Builtin: data.Builtin()})
			require.NoError(t, err)
			l := tidyLedger{name: filepath.Base(path), main: located, text: Memory{}}
			for _, source := range sources {
				l.text[filepath.ToSlash(source.Path)] = source.Text
			}
			all = append(all, l)
		}
	}
	require.GreaterOrEqual(t, len(all), 9)
	return all
}

// tidyLedgers are the samples and the ledgers of the diagnostics' cases.
func tidyLedgers(t testing.TB) []tidyLedger {
	t.Helper()
	all := sampleLedgers(t)
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			all = append(all, tidyLedger{name: c.name, main: "test.boxbook", text: c.files})
		}
	}
	return all
}

func (l tidyLedger) load(t testing.TB) *Result {
	t.Helper()
	result, err := Load(Options{Files: l.text, Main: l.main, Builtin: data.Builtin(), AsOf: day(t, casesToday)})
	require.NoError(t, err)
	return result
}

// said is what a reading says is wrong, without columns and words: those may
// change with the layout.
func said(list List) []string {
	var all []string
	for _, d := range list {
		all = append(all, fmt.Sprintf("%s:%d: %s", d.File, d.Line, d.Code))
	}
	return all
}

// pointAmounts writes the commas of amounts as points: a model keeps an
// amount's text beside its value.
func pointAmounts(l *season.Ledger) *season.Ledger {
	point := func(a *season.Amount) {
		if a != nil {
			a.Text = strings.ReplaceAll(a.Text, ",", ".")
		}
	}
	for _, fl := range l.Flights {
		for i := range fl.Faults {
			point(&fl.Faults[i].Amount)
		}
	}
	for _, kind := range l.FaultKinds {
		if kind.Per != nil {
			point(&kind.Per.Amount)
		}
		for i := range kind.At {
			point(&kind.At[i].Amount)
		}
		point(kind.Free)
		point(kind.Zero)
	}
	return l
}

// requireSameModel holds that two readings give one model and say the same of
// it.
func requireSameModel(t require.TestingT, before, after *Result) {
	require.Equal(t, said(before.Diagnostics), said(after.Diagnostics))
	require.True(t, reflect.DeepEqual(pointAmounts(before.Ledger), pointAmounts(after.Ledger)), "the model is another one")
}

// requireSameInk holds that only white space, case, commas and printed minuses have
// changed: every other byte is there, in its order.
func requireSameInk(t require.TestingT, before, after string) {
	ink := func(text string) string {
		return strings.Map(func(r rune) rune {
			if r == ' ' || r == '\t' {
				return -1
			}
			return r
		}, text)
	}
	a, b := ink(before), ink(after)
	for i := range len(b) {
		if rest, printed := strings.CutPrefix(a[min(i, len(a)):], printedMinus); printed && b[i] == '-' {
			a = a[:i] + "-" + rest
		}
		require.Less(t, i, len(a))
		if a[i] != b[i] && !(a[i] == ',' && b[i] == '.') && byte(unicode.ToUpper(rune(a[i]))) != b[i] {
			require.Fail(t, "another byte", "%q became %q in %q", a[i], b[i], b[max(0, i-20):i+1])
		}
	}
	require.Equal(t, len(a), len(b))
	require.Equal(t, commentsOf(before), commentsOf(after))
}

// commentsOf finds comments by itself: a # at a line's start or after white
// space, outside quotes.
func commentsOf(text string) []string {
	var all []string
	for _, line := range strings.Split(text, "\n") {
		quoted := false
		for i := 0; i < len(line); i++ {
			switch c := line[i]; {
			case quoted && c == '\\':
				i++
			case c == '"':
				quoted = !quoted
			case c == '#' && !quoted && (i == 0 || line[i-1] == ' ' || line[i-1] == '\t' || strings.HasPrefix(line, "\ufeff#")):
				all = append(all, line[i:])
				i = len(line)
			}
		}
	}
	return all
}

// TestTidyKeepsEveryLedger holds on every ledger there is that tidying changes
// the layout alone, and changes nothing the second time. What cannot be tidied
// has errors.
func TestTidyKeepsEveryLedger(t *testing.T) {
	tidied, refused := 0, 0
	for _, l := range tidyLedgers(t) {
		t.Run(l.name, func(t *testing.T) {
			before := l.load(t)
			laid := tidyLedger{main: l.main, text: Memory{}}
			for path, text := range l.text {
				once, err := Tidy(path, text)
				if err != nil {
					var invalid *InvalidError
					require.ErrorAs(t, err, &invalid)
					require.Error(t, before.Diagnostics.Err())
					refused++
					return
				}
				twice, err := Tidy(path, once)
				require.NoError(t, err)
				require.Equal(t, once, twice)
				requireSameInk(t, text, once)
				laid.text[path] = once
			}
			tidied++
			requireSameModel(t, before, laid.load(t))
		})
	}
	require.Greater(t, tidied, 250)
	require.Greater(t, refused, 20)
}

// TestTidyRefusesWithDiagnostics holds the error of a text without structure to
// the form and the places of a reading.
func TestTidyRefusesWithDiagnostics(t *testing.T) {
	tests := []struct{ text, want string }{
		{"pilot ines\n  name \"Ines\n", `x.boxbook:2:8: error: the quoted text is not closed on its line`},
		{"pilto ines\n", `x.boxbook:1:1: error: no block is called "pilto"; did you mean "pilot"?`},
		{"pilot ines\nname \"Ines\"\n", `x.boxbook:2:1: error: "name" at the line's start begins no block here`},
		{"pilot ines\n  nmae \"Ines\"\n", `x.boxbook:2:3: error: a pilot has no line "nmae"; did you mean "name"?`},
		{"cost 2026-01-01 fuel 1 EUR for ines\n  note \"x\"\n", `x.boxbook:2:3: error: "cost" is one line and has no indented lines`},
		{"  name \"Ines\"\n", `x.boxbook:1:3: error: an indented line outside any block`},
		{"include \"/etc/passwd\"\n", `x.boxbook:1:9: error: "/etc/passwd" is outside the ledger's folder`},
	}
	for _, test := range tests {
		_, err := Tidy("x.boxbook", test.text)
		var invalid *InvalidError
		require.ErrorAs(t, err, &invalid, test.text)
		require.Len(t, invalid.List, 1)
		require.Equal(t, test.want, invalid.List[0].Error())
	}
}

// TestTidyIncludesUpwards holds that a file in a subfolder may include one
// beside its folder: where the ledger's tree ends is not known to one file.
func TestTidyIncludesUpwards(t *testing.T) {
	laid, err := Tidy("coach/marek.boxbook", "include   \"../../people.boxbook\"\ninclude \"../a.boxbook\"\ninclude \"../a.boxbook\"\n")
	require.NoError(t, err)
	require.Equal(t, "include \"../../people.boxbook\"\ninclude \"../a.boxbook\"\ninclude \"../a.boxbook\"\n", laid)
}

// FuzzTidy holds what is true of any text whatever: tidy refuses it with
// diagnostics or changes its layout alone, once.
func FuzzTidy(f *testing.F) {
	for _, text := range fewSeeds(f) {
		f.Add(text)
	}
	for _, pair := range tidyPairs {
		f.Add(pair.typed)
	}
	today, builtin := day(f, casesToday), leanBuiltin(f)
	load := func(t *testing.T, text string) *Result {
		result, err := Load(Options{Files: Memory{"test.boxbook": text}, Main: "test.boxbook", Builtin: builtin, AsOf: today})
		require.NoError(t, err)
		return result
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) > longestFuzzed {
			return
		}
		once, err := Tidy("test.boxbook", text)
		before := load(t, text)
		if err != nil {
			var invalid *InvalidError
			require.ErrorAs(t, err, &invalid)
			require.Error(t, before.Diagnostics.Err())
			return
		}
		requireSameInk(t, text, once)
		twice, err := Tidy("test.boxbook", once)
		require.NoError(t, err)
		require.Equal(t, once, twice)
		after := load(t, once)
		require.Equal(t, before.Diagnostics.Err() == nil, after.Diagnostics.Err() == nil)
		if before.Diagnostics.Err() == nil {
			requireSameModel(t, before, after)
		}
	})
}

// TestSameWords holds the last guard of tidy to its work: it sees every kind of
// damage that an edit could do.
func TestSameWords(t *testing.T) {
	const text = "flight 2026-04-18 ines known  # as flown\n  1  hz 7,5\n  note \"a,b\"\n"
	require.NoError(t, sameWords("x", text, "flight 2026-04-18 ines known # as flown\n  1            HZ  7.5\n  note         \"a,b\"\n"))
	for damage, after := range map[string]string{
		"a line lost":        "flight 2026-04-18 ines known  # as flown\n  1  hz 7,5\n",
		"a line more":        text + "\n",
		"a word lost":        strings.Replace(text, " 7,5", "", 1),
		"two words joined":   strings.Replace(text, "hz 7", "hz7", 1),
		"another grade":      strings.Replace(text, "7,5", "7.0", 1),
		"a comma in text":    strings.Replace(text, "a,b", "a.b", 1),
		"a handle's case":    strings.Replace(text, "ines", "INES", 1),
		"a comment's bytes":  strings.Replace(text, "# as", "#  as", 1),
		"a comment lost":     strings.Replace(text, "# as flown", "", 1),
		"a line's end":       strings.Replace(text, "\n", "\r\n", 1),
		"the last line's":    strings.TrimSuffix(text, "\n"),
		"a byte order mark":  "\ufeff" + text,
		"white space quoted": strings.Replace(text, "a,b", "a, b", 1),
	} {
		var loss *lossError
		require.ErrorAs(t, sameWords("x", text, after), &loss, damage)
	}
}

// TestTidyLeavesWhatWouldNotFit holds that alignment never makes a line longer
// than a line may be, and that one very long line does not push the others.
func TestTidyLeavesWhatWouldNotFit(t *testing.T) {
	long := "  note " + Quote(strings.Repeat("x", maxLine-9))
	text := "pilot ines\n name \"Ines\" # a\n" + long + "\n"
	laid, err := Tidy("test.boxbook", text)
	require.NoError(t, err)
	require.Equal(t, "pilot ines\n  name      \"Ines\"  # a\n"+long+"\n", laid)
	again, err := Tidy("test.boxbook", laid)
	require.NoError(t, err)
	require.Equal(t, laid, again)

	text = "sequence s\n 1 K 7 " + strings.Repeat("6 ", 200) + "\"long\" # x\n 2 K 7 \"short\" # y\n"
	laid, err = Tidy("test.boxbook", text)
	require.NoError(t, err)
	require.Contains(t, laid, "\n  2            K 7                    \"short\"  # y\n")
}

// TestTidyDecimal holds which words are numbers with a comma.
func TestTidyDecimal(t *testing.T) {
	for word, want := range map[string]string{
		"7,5": "7.5", "7.5": "7.5", "-15,00": "-15.00", "2,5:1,5": "2.5:1.5", "10,5deg": "10.5deg", "1,5span": "1.5span",
		"1,5pt": "1.5pt", "7,": "7,", ",5": ",5", "1,000,000": "1,000,000", "1,5x": "1,5x", "a,b": "a,b", "--1,5": "--1,5", "1,5.0": "1,5.0",
	} {
		require.Equal(t, want, tidyDecimal(word))
		if plain, ok := scoring.ParseDecimal(word); ok {
			tidied, _ := scoring.ParseDecimal(want)
			require.Equal(t, plain, tidied)
		}
	}
}
