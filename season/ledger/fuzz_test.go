package ledger

import (
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/report/display"
	"boxbook/season"
	"boxbook/season/analysis"
)

// seedTexts are the ledgers that fuzzing begins with: the samples, what the
// program ships, and every text that breaks a rule.
func seedTexts(t testing.TB) []string {
	t.Helper()
	var texts []string
	for _, root := range []string{"../../testdata/ledgers", "../../data"} {
		require.NoError(t, filepath.WalkDir(root, func(path string, entry fs.DirEntry, err error) error {
			if err != nil || filepath.Ext(path) != ".boxbook" {
				return err
			}
			raw, err := os.ReadFile(path)
			texts = append(texts, string(raw))
			return err
		}))
	}
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			texts = append(texts, c.files["test.boxbook"])
		}
	}
	return append(texts, small)
}

// fuzzFiles has the text and one file that it may include.
func fuzzFiles(text string) Memory {
	return Memory{"test.boxbook": text, "other.boxbook": "include \"test.boxbook\"\npilot other\ncoach other\n"}
}

// checkAny holds what is true of any text whatever: reading it does not panic,
// says the same of it each time, speaks of places that are in it, and a model
// without errors can be asked everything.
func checkAny(t *testing.T, text string, builtin fs.FS) {
	t.Helper()
	opts := Options{Files: fuzzFiles(text), Main: "test.boxbook", Builtin: builtin, AsOf: day(t, casesToday)}
	result, err := Load(opts)
	require.NoError(t, err)
	again, err := Load(opts)
	require.NoError(t, err)
	require.True(t, slices.EqualFunc(result.Diagnostics, again.Diagnostics, sameDiagnostic), "two readings differ")
	checkPlaces(t, fuzzFiles(text), result.Diagnostics)
	if len(result.Diagnostics) > 0 {
		checkFixes(t, opts)
		checkScreen(t, rendered(t, result.Diagnostics))
	}
	if result.Diagnostics.Err() == nil {
		checkModel(t, result.Ledger)
	}
}

// TestAnySeed holds every text that there is to what FuzzLoad holds of any.
func TestAnySeed(t *testing.T) {
	for _, text := range append(seedTexts(t), fewSeeds(t)...) {
		checkAny(t, text, data.Builtin())
	}
}

// FuzzLoad does the same for texts made by chance.
func FuzzLoad(f *testing.F) {
	for _, text := range fewSeeds(f) {
		f.Add(text)
	}
	builtin := leanBuiltin(f)
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) <= longestFuzzed {
			checkAny(t, text, builtin)
		}
	})
}

// checkFixes holds that the edits of any text whatever touch the lines of
// diagnostics alone.
func checkFixes(t *testing.T, opts Options) {
	t.Helper()
	files, _, err := Fixes(opts)
	require.NoError(t, err)
	for _, f := range files {
		require.Zero(t, strayLine(f.Text, f.Fixed, f.Made), "%q became %q", f.Text, f.Fixed)
		require.NotEqual(t, f.Text, f.Fixed)
	}
}

func sameDiagnostic(a, b Diagnostic) bool {
	return a.Error() == b.Error() && a.Code == b.Code && a.Width == b.Width && a.Hint == b.Hint && slices.Equal(a.Fixes, b.Fixes)
}

// linesOf are a text's lines as an editor counts them.
func linesOf(text string) []string {
	all := strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n")
	for i, l := range all {
		all[i] = strings.TrimSuffix(l, "\r")
	}
	return all
}

// checkPlaces holds that each diagnostic is of a line that is there, at
// characters that it has (or just behind its last), that the list is in order
// and says nothing twice, and that nothing is said of what the program ships.
func checkPlaces(t *testing.T, files Memory, list List) {
	t.Helper()
	for i, d := range list {
		text, ours := files[d.File]
		require.True(t, ours, "said of %s: %s", d.File, d.Message)
		all := linesOf(text)
		require.True(t, d.Line >= 1 && d.Line <= len(all), d.Error())
		if isUTF16(text) { // none of it is read, and no line of it shown
			require.Equal(t, []any{1, 1, ""}, []any{d.Line, d.Column, d.Source}, d.Error())
			continue
		}
		require.Equal(t, all[d.Line-1], d.Source, d.Error())
		characters := utf8.RuneCountInString(d.Source)
		require.True(t, d.Column >= 1 && d.Column <= characters+1, d.Error())
		require.True(t, d.Width >= 1 && d.Column+d.Width <= max(characters, d.Column)+1, "%s: width %d of %d", d.Error(), d.Width, characters)
		require.NotEmpty(t, d.Message)
		if !strings.Contains(text, "%!") {
			require.NotContains(t, d.Message+d.Hint, "%!", "a message that is not filled in")
		}
		if i > 0 && list[i-1].File == d.File {
			before := list[i-1]
			require.True(t, before.Line < d.Line || before.Line == d.Line && before.Column <= d.Column, "out of order: %s, %s", before.Error(), d.Error())
			require.NotEqual(t, before.Error(), d.Error(), "said twice")
		}
	}
}

// checkScreen holds that nothing on a screen can drive a terminal.
func checkScreen(t *testing.T, screen string) {
	t.Helper()
	require.True(t, utf8.ValidString(screen))
	for _, r := range screen {
		if r != '\n' && r != '\t' && (unicode.IsControl(r) || turnsText(r)) {
			require.Fail(t, "control character", "%U in %q", r, screen)
		}
	}
}

// turnsText reports the characters that end a line or turn the writing
// direction of what follows.
func turnsText(r rune) bool {
	return r == '\u2028' || r == '\u2029' || '\u202a' <= r && r <= '\u202e' || '\u2066' <= r && r <= '\u2069'
}

// checkModel asks a ledger without errors what a command would ask.
func checkModel(t *testing.T, l *season.Ledger) {
	t.Helper()
	for _, f := range l.Flights {
		require.NotNil(t, f.Pilot)
		require.NotNil(t, f.Style)
		if l.AsOf == 0 || f.Date <= l.AsOf {
			require.Equal(t, []*season.Flight{f}, l.Matching(f.Name, season.Selection{}), f.Name)
		}
		if f.HasMarks() {
			for _, line := range f.Sheet().Lines {
				require.Len(t, line.Marks, len(f.Panel))
				require.Positive(t, line.K)
			}
		}
		score := f.Score()
		require.Equal(t, f.HasMarks(), score.Maximum > 0, f.Name)
		if score.Decided() {
			require.GreaterOrEqual(t, score.Percent.Sign(), 0)
			require.LessOrEqual(t, score.Percent.Cmp(big.NewRat(100, 1)), 0, f.Name)
		}
	}
	for _, p := range l.Flyers(season.Selection{}) {
		analysis.SeasonOf(l, season.Selection{Pilot: p})
	}
	for _, m := range season.Movements(l) {
		sum := int64(0)
		for _, c := range m.Changes {
			sum += c.Minor
		}
		require.Zero(t, sum)
	}
}

// FuzzRender holds what is true of the screen of any diagnostic: nothing in it
// can drive a terminal, and the carets stand under the span and are no wider.
func FuzzRender(f *testing.F) {
	for _, text := range fewSeeds(f) {
		result, err := Load(Options{Files: fuzzFiles(text), Main: "test.boxbook", Builtin: data.Builtin()})
		require.NoError(f, err)
		for _, d := range result.Diagnostics {
			f.Add(d.File, d.Source, d.Message, d.Hint, d.Column, d.Width)
		}
	}
	f.Add("a\x1bb", "\t山田\u0301\x00👩‍✈️ \u202e x", "m\n", "h\t", 5, 3)
	f.Add("a", "0\xf4", "m", "", 2, 1)
	f.Add("", strings.Repeat("山", 300)+"tail", "m", "", 301, 4)
	f.Add("", strings.Repeat("\t", 300)+"tail", "m", "", 301, 400)
	f.Fuzz(func(t *testing.T, file, source, message, hint string, column, width int) {
		characters := utf8.RuneCountInString(source)
		d := Diagnostic{
			File: file, Line: 1, Severity: Error, Message: message, Hint: hint, Source: source,
			Column: 1 + within(column, characters+1), Width: 1 + within(width, characters+1),
		}
		screen := rendered(t, List{d})
		checkScreen(t, screen)
		got := strings.Split(strings.TrimSuffix(screen, "\n"), "\n")
		wantLines := 1
		if characters > 0 {
			wantLines += 2
		}
		if hint != "" {
			wantLines++
			require.True(t, strings.HasPrefix(got[len(got)-1], "    hint: "), screen)
		}
		require.Len(t, got, wantLines, screen)
		if characters > 0 {
			checkCarets(t, d, strings.TrimPrefix(got[1], "    "), strings.TrimPrefix(got[2], "    "))
		}
	})
}

// within brings any number into 0 to n-1.
func within(number, n int) int { return (number%n + n) % n }

// checkCarets walks the shown line and the blanks beneath it together: a tab
// under a tab, a blank for each column; the carets begin under the span's first
// character and are as wide as what they underline at most.
func checkCarets(t *testing.T, d Diagnostic, source, carets string) {
	t.Helper()
	if regrouped(d.Source) {
		return
	}
	blanks := strings.TrimRight(carets, "^")
	count := len(carets) - len(blanks)
	require.Positive(t, count, carets)
	letters := display.Clusters(source)
	for len(blanks) > 0 && len(letters) > 0 {
		under := blankUnder(letters[0])
		require.True(t, strings.HasPrefix(blanks, under), "%q under %q", carets, source)
		blanks, letters = blanks[len(under):], letters[1:]
	}
	require.Empty(t, strings.Trim(blanks, " \t"), "%q under %q", carets, source)
	rest := []rune(strings.Join(letters, ""))
	all := []rune(d.Source)
	from := []rune(display.Escape(string(all[beginOf(all, d.Column-1):])))
	if blanks == "" {
		require.True(t, strings.HasPrefix(seen(from), seen(rest)), "the carets stand under %q, the span begins with %q", string(rest), string(from))
	}
	span := []rune(display.Escape(string(all[beginOf(all, d.Column-1):endOf(all, d.Column-1+d.Width)])))
	require.LessOrEqual(t, count, max(1, widthOf(span)), "%q under %q", carets, source)
	if plain(d.Source) {
		require.LessOrEqual(t, widthOf(rest)+len(carets)-count, widestSource+2, "the shown part of a long line")
	}
}

// regrouped reports a line whose letters join otherwise once what is harmful in them
// is replaced: what was apart, because a control character stood there, may be one
// letter with the sign that is shown for it. Where the next letter begins is then
// for each terminal to say.
func regrouped(line string) bool {
	apart := 0
	var whole strings.Builder
	for _, s := range symbols(line) {
		apart += len(display.Clusters(s.text))
		whole.WriteString(s.text)
	}
	return len(display.Clusters(whole.String())) != apart
}

// beginOf is where the character begins, as a reader sees it, that a rune is part
// of: carets stand under a letter with its accents.
func beginOf(all []rune, at int) int {
	begin := 0
	for _, cluster := range display.Clusters(string(all)) {
		end := begin + utf8.RuneCountInString(cluster)
		if end > at {
			return begin
		}
		begin = end
	}
	return at
}

// endOf is where the character ends that the rune before a place is part of.
func endOf(all []rune, place int) int {
	end := 0
	for _, cluster := range display.Clusters(string(all)) {
		if end >= place {
			break
		}
		end += len([]rune(cluster))
	}
	return end
}

// blankUnder is what stands in the line of carets under a character.
func blankUnder(letter string) string {
	if letter == "\t" {
		return "\t"
	}
	return strings.Repeat(" ", western.StringWidth(letter))
}

// seen is a text as shown, less what takes no column.
func seen(text []rune) string {
	var b strings.Builder
	for _, r := range text {
		switch {
		case r == '\t':
			b.WriteRune(r)
		case unicode.IsControl(r) || turnsText(r) || unicode.In(r, unicode.Co, unicode.Noncharacter_Code_Point):
			b.WriteRune('\ufffd')
		case display.Rune(r) < 0: // invisible, and dropped
		case western.RuneWidth(r) > 0:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// widthOf is how many columns a text takes at most, a tab none: each letter as the
// sum of its runes or as the one picture that a terminal may make of them.
func widthOf(text []rune) int {
	n := 0
	for _, letter := range display.Clusters(string(text)) {
		sum := 0
		for _, r := range seen([]rune(letter)) {
			sum += len(strings.Trim(blankUnder(string(r)), "\t"))
		}
		n += max(sum, western.StringWidth(letter))
	}
	return n
}

// plain reports a text of characters that each take a column or two.
func plain(text string) bool {
	for _, r := range text {
		if western.RuneWidth(r) == 0 {
			return false
		}
	}
	return true
}
