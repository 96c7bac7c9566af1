package ledger

import (
	"fmt"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// readFiles reads test.boxbook of the files as of the day of the cases, with
// what the program ships.
func readFiles(t testing.TB, files Files) *Result {
	t.Helper()
	today, ok := season.ParseDate(casesToday)
	require.True(t, ok)
	result, err := Load(Options{Files: files, Main: "test.boxbook", Builtin: data.Builtin(), AsOf: today})
	require.NoError(t, err)
	return result
}

// read reads one text.
func read(t testing.TB, text string) *Result {
	t.Helper()
	return readFiles(t, Memory{"test.boxbook": text})
}

// readClean reads a text that must have nothing wrong with it.
func readClean(t testing.TB, text string) *season.Ledger {
	t.Helper()
	result := read(t, text)
	require.Empty(t, rendered(t, result.Diagnostics))
	return result.Ledger
}

// small is a ledger of one flight that has nothing wrong with it.
const small = `season-start 03-15

pilot ines
  name  "Ines Halloran"

sequence known-26
  category     intermediate
  programme    known
  1            K 10
  2            8.5.2.1:10 9.1.4.2:4   "half Cuban"
  positioning  K 5

flight 2026-04-18 ines known   # the first of the year
  sequence     known-26
  panel        A B C
  1            8.0  7.5  HZ
  2            7    AV   10    "B looked away"
  positioning  8.5  -    0.5
  penalty      low 20.5
  official     199.25 of 290
`

// model is what a ledger says, places apart: a text may be laid out anew and
// must say the same.
// rowsOf are a flight's rows, however they are kept.
func rowsOf(f *season.Flight) iter.Seq[season.Row] {
	return func(yield func(season.Row) bool) {
		for _, row := range f.Rows.All() {
			if !yield(row) {
				return
			}
		}
	}
}

func model(t testing.TB, text string) (said string) {
	t.Helper()
	l := readClean(t, text)
	for _, p := range l.Pilots {
		said += fmt.Sprintln("pilot", p.Handle, p.Name)
	}
	for _, s := range l.Sequences {
		said += fmt.Sprintln("sequence", s.Handle, s.Category, s.Programme, s.Figures, s.Positioning)
	}
	for _, f := range l.Flights {
		said += fmt.Sprintln("flight", f.Name, f.Panel, slices.Collect(rowsOf(f)), *f.Positioning, f.Penalties, f.Official.Points, f.Official.Maximum)
	}
	return said + fmt.Sprintln(l.SeasonStart)
}

// The lay-out of a text means nothing.
func TestLayout(t *testing.T) {
	want := model(t, small)
	require.Contains(t, want, "flight 2026-04-18/ines/known [A B C]")
	spaces := regexp.MustCompile(` {2,}`)
	for name, text := range map[string]string{
		"a byte order mark":              "\ufeff" + small,
		"lines end with CR LF":           strings.ReplaceAll(small, "\n", "\r\n"),
		"CR LF and a byte order mark":    "\ufeff" + strings.ReplaceAll(small, "\n", "\r\n"),
		"no end of the last line":        strings.TrimSuffix(small, "\n"),
		"one CR at the end":              strings.TrimSuffix(small, "\n") + "\r",
		"tabs for the spaces":            spaces.ReplaceAllString(small, "\t"),
		"one space for many":             spaces.ReplaceAllString(small, " "),
		"spaces at the end of each line": strings.ReplaceAll(small, "\n", "   \t\n"),
		"a comment on each line":         strings.ReplaceAll(small, "\n", "  # so\n"),
		"a blank line after each":        strings.ReplaceAll(small, "\n", "\n\n"),
		"a comment at column 0 between":  strings.ReplaceAll(small, "\n", "\n# so\n"),
		"an indented comment between":    strings.ReplaceAll(small, "\n", "\n     # so\n"),
		"commas for points":              strings.NewReplacer("8.0", "8,0", "7.5", "7,5", "8.5 ", "8,5 ", "0.5\n", "0,5\n", "20.5", "20,5", "199.25", "199,25").Replace(small),
		"marks in small letters":         strings.NewReplacer("HZ", "hz", "AV", "av").Replace(small),
		"marks in mixed letters":         strings.NewReplacer("HZ", "Hz", "AV", "aV").Replace(small),
		"A for AV":                       strings.Replace(small, "AV", "A", 1),
		"a for AV":                       strings.Replace(small, "AV", "a", 1),
		"a grade with a nought":          strings.Replace(small, "7    AV   10  ", "7.0 AV 10.0", 1),
		"a grade with two noughts":       strings.Replace(small, "8.5  -", "8.50  -", 1),
	} {
		t.Run(name, func(t *testing.T) {
			require.NotEqual(t, small, text, "the lay-out is another")
			assert.Equal(t, want, model(t, text))
		})
	}
}

// Blocks may stand in any order.
func TestOrderOfBlocksIsFree(t *testing.T) {
	want := model(t, small)
	blocks := strings.SplitAfter(strings.ReplaceAll(small, "\n\n", "\n\x00"), "\x00")
	require.Len(t, blocks, 4)
	for i := range blocks {
		turned := strings.ReplaceAll(strings.Join(append(append([]string{}, blocks[i:]...), blocks[:i]...), "\n"), "\x00", "")
		assert.Equal(t, want, model(t, turned), turned)
	}
	slices.Reverse(blocks)
	assert.Equal(t, want, model(t, strings.ReplaceAll(strings.Join(blocks, "\n"), "\x00", "")))
}

// The whole tour turned round, block by block, says the same: money and flights
// of one day apart, which stand in the order of the file.
func TestOrderOfTheTourIsFree(t *testing.T) {
	raw, err := os.ReadFile(ledgersFolder + "language-tour.boxbook")
	require.NoError(t, err)
	coach, err := os.ReadFile(ledgersFolder + "coach/marek.boxbook")
	require.NoError(t, err)
	blocks := regexp.MustCompile(`(?m)^[a-z].*\n(?:[ \t]+.*\n|\n)*`).FindAllString(string(raw), -1)
	slices.Reverse(blocks)
	turned := readFiles(t, Memory{"test.boxbook": strings.Join(blocks, "\n"), "coach/marek.boxbook": string(coach)})
	require.Empty(t, rendered(t, turned.Diagnostics))
	straight := tour(t)
	require.Len(t, turned.Ledger.Flights, len(straight.Flights))
	for _, want := range straight.Flights {
		got := flightOf(t, turned.Ledger, want.Name)
		assert.Equal(t, want.Rows, got.Rows, want.Name)
		assert.Equal(t, want.Category, got.Category, want.Name)
		assert.Equal(t, want.Style, got.Style, want.Name)
		assert.Equal(t, want.Ladder, got.Ladder, want.Name)
		assert.Equal(t, named(want.Faults, faultText), named(got.Faults, faultText), want.Name)
		assert.Equal(t, want.Score(), got.Score(), want.Name)
	}
	assert.Len(t, turned.Ledger.Costs, len(straight.Costs))
	assert.Equal(t, straight.Rates[0].Rate, turned.Ledger.Rates[0].Rate)
}

// faultText is a fault in words.
func faultText(f season.Fault) string {
	by := "nobody"
	if f.By != nil {
		by = f.By.Handle
	}
	return fmt.Sprintln(f.Figure, f.Kind.Name, f.Amount, f.On, f.Felt, by, f.Remark, f.Safety)
}

// Flights are ordered by date, flights of one day as they stand.
func TestFlightsOfOneDayAsTheyStand(t *testing.T) {
	l := readClean(t, `
flight 2026-05-02 yuki practice 3
  category advanced
  note "first of that day"
flight 2026-05-01 yuki unknown
  category advanced
  place 1
flight 2026-05-02 yuki final
  category advanced
  place 1
flight 2026-05-02 ines known
  category advanced
  place 2
flight 2026-05-02 yuki practice
  category advanced
  note "last of that day"
flight 2025-05-02 ines known
  category advanced
  place 2
pilot ines
pilot yuki
`)
	assert.Equal(t, []string{
		"2025-05-02/ines/known", "2026-05-01/yuki/unknown",
		"2026-05-02/yuki/practice/3", "2026-05-02/yuki/final", "2026-05-02/ines/known", "2026-05-02/yuki/practice",
	}, named(l.Flights, func(f *season.Flight) string { return f.Name }))
}

// A file is read once, whoever includes it and by whatever path, and counts
// where it is first met.
func TestIncludeReadsOnce(t *testing.T) {
	result := readFiles(t, Memory{
		"test.boxbook":             "include \"club/people.boxbook\"\ninclude \"club/../club/people.boxbook\"\ninclude \"club/year.boxbook\"\npilot yuki\n",
		"club/people.boxbook":      "pilot ines\n",
		"club/year.boxbook":        "include \"people.boxbook\"\ninclude \"deeper/more.boxbook\"\ncoach marek\n",
		"club/deeper/more.boxbook": "include \"../people.boxbook\"\npilot mara\n",
	})
	require.Empty(t, rendered(t, result.Diagnostics))
	assert.Equal(t, []string{"test.boxbook", "club/people.boxbook", "club/year.boxbook", "club/deeper/more.boxbook"}, result.Paths)
	pilots := named(result.Ledger.Pilots, func(p *season.Pilot) string { return p.Handle + " " + p.At.File })
	assert.ElementsMatch(t, []string{"ines club/people.boxbook", "mara club/deeper/more.boxbook", "yuki test.boxbook"}, pilots)
}

// What was found: of a ledger that a link in another folder leads to, places in its other
// files were said beside the link, where there is nothing, and no command could write there.
func TestIncludesOfALinkedLedgerAreWhereTheyAre(t *testing.T) {
	folder := t.TempDir()
	for name, text := range map[string]string{"club/main.boxbook": "include \"parts/a.boxbook\"\n", "club/parts/a.boxbook": "include \"b.boxbook\"\npilot ines\n", "club/parts/b.boxbook": "pilot yuki\n"} {
		require.NoError(t, os.MkdirAll(filepath.Dir(filepath.Join(folder, name)), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o600))
	}
	if err := os.Symlink(filepath.Join("club", "main.boxbook"), filepath.Join(folder, "link.boxbook")); err != nil {
		t.Skip("this file system has no links:", err)
	}
	require.NoError(t, os.Symlink("club", filepath.Join(folder, "folder")))
	t.Chdir(folder)
	names := func(path string) []string {
		result, err := Load(Options{Files: Disk{}, Main: path})
		require.NoError(t, err)
		require.Empty(t, result.Diagnostics)
		for _, name := range result.Paths {
			require.FileExists(t, name)
		}
		return result.Paths
	}
	assert.Equal(t, []string{"link.boxbook", "club/parts/a.boxbook", "club/parts/b.boxbook"}, names("link.boxbook"))
	assert.Equal(t, []string{"folder/main.boxbook", "folder/parts/a.boxbook", "folder/parts/b.boxbook"}, names("folder/main.boxbook"))
	assert.Equal(t, []string{"club/main.boxbook", "club/parts/a.boxbook", "club/parts/b.boxbook"}, names("club/main.boxbook"))
}

// On disk a link to a file is that file: it is read once.
func TestIncludeReadsALinkOnce(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644))
	}
	write("main.boxbook", "include \"people.boxbook\"\ninclude \"link.boxbook\"\n")
	write("people.boxbook", "pilot ines\n")
	if err := os.Symlink(filepath.Join(folder, "people.boxbook"), filepath.Join(folder, "link.boxbook")); err != nil {
		t.Skip("this file system has no links:", err)
	}
	result, err := Load(Options{Files: Disk{}, Main: filepath.Join(folder, "main.boxbook"), Shown: "main.boxbook"})
	require.NoError(t, err)
	require.Empty(t, rendered(t, result.Diagnostics))
	assert.Len(t, result.Ledger.Pilots, 1)
}

// A main file that cannot be read is an error and no diagnostic.
func TestLoadWithoutAFile(t *testing.T) {
	_, err := Load(Options{Files: Memory{}, Main: "test.boxbook"})
	require.ErrorIs(t, err, fs.ErrNotExist)
	_, err = Load(Options{Files: Disk{}, Main: t.TempDir()})
	require.ErrorContains(t, err, "it is a folder, not a ledger")
	_, err = Load(Options{Files: Disk{}, Main: filepath.Join(t.TempDir(), "no.boxbook")})
	require.ErrorIs(t, err, fs.ErrNotExist)
}

// An empty ledger is one that has what the program ships.
func TestEmptyLedger(t *testing.T) {
	for _, text := range []string{"", "\n", "\ufeff", "# nothing yet", "   \n\t\n"} {
		l := readClean(t, text)
		assert.Empty(t, l.Flights)
		assert.Equal(t, []string{"us", "uk", "fai"}, named(l.Ladders, func(x *season.Ladder) string { return x.Name }), "%q", text)
	}
}
