package ledger

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"boxbook/data"
	"boxbook/season"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// TestAppend holds where blocks go, and that all before them stays.
func TestAppend(t *testing.T) {
	tests := []struct{ name, text, blocks, want string }{
		{"to nothing", "", "pilot a\n", "pilot a\n"},
		{"to a byte order mark", "\ufeff", "pilot a", "\ufeffpilot a\n"},
		{"one blank line between", "pilot a\n", "pilot b\n  club \"K\"\n", "pilot a\n\npilot b\n  club \"K\"\n"},
		{"a blank line that is there is enough", "pilot a\n\n", "pilot b\n", "pilot a\n\npilot b\n"},
		{"white space is a blank line", "pilot a\n \t\n", "pilot b\n", "pilot a\n \t\npilot b\n"},
		{"several blank lines stay", "pilot a\n\n\n", "pilot b\n", "pilot a\n\n\npilot b\n"},
		{"a missing last line end stays missing", "pilot a", "pilot b\n  club \"K\"\n", "pilot a\n\npilot b\n  club \"K\""},
		{"an open line of white space", "pilot a\n  ", "pilot b\n", "pilot a\n  \npilot b"},
		{"line ends of the text", "pilot a\r\n", "pilot b\n  club \"K\"\n", "pilot a\r\n\r\npilot b\r\n  club \"K\"\r\n"},
		{"line ends of the text, not of the blocks", "pilot a\n", "pilot b\r\n  club \"K\"\r\n", "pilot a\n\npilot b\n  club \"K\"\n"},
		{"the last of mixed line ends", "pilot a\npilot b\r\npilot c", "pilot d", "pilot a\npilot b\r\npilot c\r\n\r\npilot d"},
		{"half a line end", "pilot a\r\npilot b\r", "pilot c", "pilot a\r\npilot b\r\n\r\npilot c"},
		{"blank lines around the blocks go", "pilot a\n", "\n \n\npilot b\n\npilot c\n\n\n", "pilot a\n\npilot b\n\npilot c\n"},
		{"comments are part of the blocks", "pilot a\n# end\n", "# new\npilot b # x\n", "pilot a\n# end\n\n# new\npilot b # x\n"},
		{"no blocks", "pilot a", "\n  \n", "pilot a"},
		{"money beneath money", "cost 2026-01-01 fuel 1 EUR for a\n", "income 2026-01-02 prize 2 EUR\n", "cost 2026-01-01 fuel 1 EUR for a\nincome 2026-01-02 prize 2 EUR\n"},
		{"money after a blank line", "cost 2026-01-01 fuel 1 EUR for a\n\n", "cost 2026-01-02 fuel 2 EUR for a\n", "cost 2026-01-01 fuel 1 EUR for a\n\ncost 2026-01-02 fuel 2 EUR for a\n"},
		{"money after a contest's money", "contest c 2026-01-01\n  cost fuel 1 EUR for a\n", "cost 2026-01-02 fuel 2 EUR for a\n", "contest c 2026-01-01\n  cost fuel 1 EUR for a\n\ncost 2026-01-02 fuel 2 EUR for a\n"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got := Append(test.text, test.blocks)
			require.Equal(t, test.want, got)
			require.True(t, strings.HasPrefix(got, test.text))
			require.Zero(t, lostLine(test.text, got))
		})
	}
}

// TestAddLines holds where lines go, and that all around them stays.
func TestAddLines(t *testing.T) {
	const flight = "2026-04-18/ines/known"
	tests := []struct {
		name, text string
		kind, of   string
		lines      []string
		want       string
	}{
		{
			"at the block's end", "flight 2026-04-18 ines known # x\n  place        3 of 4\n\n# next\npilot ines\n", "flight", flight,
			[]string{"fault 2 radius seen"},
			"flight 2026-04-18 ines known # x\n  place        3 of 4\n  fault        2 radius seen\n\n# next\npilot ines\n",
		},
		{
			"beneath the last line of its key", "flight 2026-04-18 ines known\n fault 1 radius\n\n # later\n fault 2 radius # y\n note \"x\"\n", "flight", flight,
			[]string{"fault 3   radius"},
			"flight 2026-04-18 ines known\n fault 1 radius\n\n # later\n fault 2 radius # y\n fault        3 radius\n note \"x\"\n",
		},
		{
			"a figure beneath the figures", "sequence s\n  1            K 7\n  total        K 7\n", "sequence", "s",
			[]string{"2 K 9 \"loop\"", "3 K 5"},
			"sequence s\n  1            K 7\n  2            K 9                    \"loop\"\n  3            K 5\n  total        K 7\n",
		},
		{
			"in a block without lines, at the end of a text that is open", "pilot a\r\nflight 2026-04-18 ines known", "flight", flight,
			[]string{"note \"x\"", "place 2"},
			"pilot a\r\nflight 2026-04-18 ines known\r\n  note         \"x\"\r\n  place        2",
		},
		{
			"the indent and the line end of the lines above", "contest c 2026-01-01\r\n\tname \"C\"\r\n", "contest", "c",
			[]string{"site \"L\""},
			"contest c 2026-01-01\r\n\tname \"C\"\r\n\tsite      \"L\"\r\n",
		},
		{
			"a drill by its day, pilot and target", "drill 2026-05-03 ines radius\ndrill 2026-05-03 ines drift \"x\"\n  by           marek\n", "drill", "2026-05-03/ines/bridging",
			[]string{"ended 2026-09-12 \"loops round\""},
			"drill 2026-05-03 ines radius\ndrill 2026-05-03 ines drift \"x\"\n  by           marek\n  ended        2026-09-12 \"loops round\"\n",
		},
		{
			"a flight by its number", "flight 2026-04-18 ines known\n  place 1\nflight 2026-04-18 ines known 2\n  place 2\n", "flight", flight + "/2",
			[]string{"note \"x\""},
			"flight 2026-04-18 ines known\n  place 1\nflight 2026-04-18 ines known 2\n  place 2\n  note         \"x\"\n",
		},
		{
			"number 1 is no number", "flight 2026-04-18 ines known 2\n  place 2\nflight 2026-04-18 ines known 01 \"x\"\n  place 1\n", "flight", flight + "/1",
			[]string{"note \"x\""},
			"flight 2026-04-18 ines known 2\n  place 2\nflight 2026-04-18 ines known 01 \"x\"\n  place 1\n  note         \"x\"\n",
		},
		{
			"past a comment that goes on", "flight 2026-04-18 ines known\n  place 1   # first\n            # and more\n  # of the block\n", "flight", flight,
			[]string{"note \"x\""},
			"flight 2026-04-18 ines known\n  place 1   # first\n            # and more\n  note         \"x\"\n  # of the block\n",
		},
		{
			"to a review", "review 2026-04-18/ines/known by marek\n  fault 1 radius\n", "review", flight,
			[]string{"fault 2 radius # new"},
			"review 2026-04-18/ines/known by marek\n  fault 1 radius\n  fault        2 radius  # new\n",
		},
		{
			"to a drill by its target's group", "drill 2026-05-03 ines radius\ndrill 2026-05-03 ines 8.5.2.1 \"x\"\n  by marek\n", "drill", "2026-05-03/ines/" + season.GroupOf("8.5.2.1"),
			[]string{"ended 2026-09-12 \"loops round\""},
			"drill 2026-05-03 ines radius\ndrill 2026-05-03 ines 8.5.2.1 \"x\"\n  by marek\n  ended        2026-09-12 \"loops round\"\n",
		},
		{
			"to a drill on what is read as bridging", "drill 2026-05-03 ines drift\n", "drill", "2026-05-03/ines/bridging",
			[]string{"by marek"},
			"drill 2026-05-03 ines drift\n  by           marek\n",
		},
		{
			"beneath a line with half a line end", "pilot a\n  name \"A\"\r", "pilot", "a",
			[]string{"club \"K\""},
			"pilot a\n  name \"A\"\r\n  club      \"K\"",
		},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			got, err := AddLines(test.text, Target{"x.boxbook", test.kind, test.of}, test.lines...)
			require.NoError(t, err)
			require.Equal(t, test.want, got)
			require.Zero(t, lostLine(test.text, got))
		})
	}
}

// TestAddLinesRefuses holds what cannot be added.
// A flight's set-up and marks go above the rest of it, whatever stands there already.
func TestAddMarksAboveTheRest(t *testing.T) {
	to := Target{File: "a.boxbook", Kind: "flight", Name: "2026-04-18/ines/known"}
	lines := []string{"sequence s", "1 8 7", "2 7 7", "positioning 8 8"}
	const marks = "  sequence     s\n  1            8    7\n  2            7    7\n  positioning  8    8\n"
	for before, after := range map[string]string{
		"  place 3 of 9\n": marks + "  place 3 of 9\n",
		"  contest tarn # one day\n  place 3 of 9\n  note \"late\"\n": "  contest tarn # one day\n" + marks + "  place 3 of 9\n  note \"late\"\n",
		"  place 3 of 9\n  panel A B\n":                               "  place 3 of 9\n  panel A B\n" + marks,
	} {
		const head = "flight 2026-04-18 ines known\n"
		text, err := AddLines(head+before, to, lines...)
		require.NoError(t, err)
		require.Equal(t, head+after, text)
		has, err := HasLine(head+before, to, "panel")
		require.NoError(t, err)
		require.Equal(t, strings.Contains(before, "panel"), has)
	}
	_, err := HasLine("pilot ines\n", to, "panel")
	require.Error(t, err)
}

func TestAddLinesRefuses(t *testing.T) {
	const text = "flight 2026-04-18 ines known\n  place 1\ncontest c 2026-01-01\n"
	tests := []struct{ kind, of, line, want string }{
		{"flight", "2026-04-18/ines/free", "place 1", `x.boxbook has no flight "2026-04-18/ines/free"`},
		{"flight", "2026-04-18/ines/known/2", "place 1", `x.boxbook has no flight "2026-04-18/ines/known/2"`},
		{"contest", "d", "site \"L\"", `x.boxbook has no contest "d"`},
		{"contest", "c", "", `"" is not one line of a contest`},
		{"contest", "c", "# x", `"# x" is not one line of a contest`},
		{"contest", "c", "site \"L\"\n  note \"x\"", `"site \"L\"\n  note \"x\"" is not one line of a contest`},
		{"contest", "c", "sote \"L\"", "the ledger has 1 error"},
		{"contest", "c", "pilot a", "the ledger has 1 error"},
		{"contest", "c", "site \"L", "the ledger has 1 error"},
	}
	for _, test := range tests {
		_, err := AddLines(text, Target{"x.boxbook", test.kind, test.of}, test.line)
		require.EqualError(t, err, test.want)
	}
	_, err := AddLines("contest c 2026-01-01\nsite \"L\n", Target{"x.boxbook", "contest", "c"}, "note \"x\"")
	var invalid *InvalidError
	require.ErrorAs(t, err, &invalid)
}

// TestLostLine holds the guard of edits to its work.
func TestLostLine(t *testing.T) {
	tests := []struct {
		before, after string
		want          int
	}{
		{"", "", 0},
		{"", "a\n", 0},
		{"a\nb\n", "x\na\nx\nb\nx\n", 0},
		{"a\nb", "a\nb\n", 0},
		{"a\nb", "a\nb\r\nc", 0},
		{"a\nb\r", "a\nb\r\n", 0},
		{"a\n\nb\n", "a\nb\n", 2},
		{"a\nb\n", "b\na\n", 2},
		{"a\nb\n", "a\nB\n", 2},
		{"a\nb\n", "a\r\nb\n", 1},
		{"a\na\n", "a\n", 2},
		{"a\nb", "a\nbc", 2},
		{"a\nb", "a", 1},
		{"\ufeff", "\ufeffa\n", 0},
		{"\ufeffa\n", "a\n", 1},
		{"a\n", "\ufeffa\n", 1},
	}
	for _, test := range tests {
		require.Equal(t, test.want, lostLine(test.before, test.after), "%q, %q", test.before, test.after)
	}
}

// TestEditsKeepEveryLine edits the samples in any way an edit can and holds
// that every earlier line is there, in its order, that the new text is read, and
// that it says what was added.
func TestEditsKeepEveryLine(t *testing.T) {
	var samples []tidyLedger
	for _, l := range sampleLedgers(t) {
		if strings.Contains(l.text[l.main], "\nflight ") {
			samples = append(samples, l)
		}
	}
	require.GreaterOrEqual(t, len(samples), 3)
	rapid.Check(t, func(rt *rapid.T) {
		l := rapid.SampledFrom(samples).Draw(rt, "ledger")
		text := l.text[l.main]
		if rapid.Bool().Draw(rt, "carriage returns") {
			text = strings.ReplaceAll(text, "\n", "\r\n")
		}
		text = text[:len(text)-rapid.IntRange(0, 2).Draw(rt, "cut")]
		before, notes := tidyLedger{main: l.main, text: Memory{}}, 0
		for path, other := range l.text {
			before.text[path] = other
		}
		before.text[l.main] = text
		was := before.load(t)
		if was.Diagnostics.Err() != nil {
			return // the cut went through a last word
		}
		var here []*season.Flight // those of the file that is edited
		for _, f := range was.Ledger.Flights {
			if f.At.File == l.main {
				here = append(here, f)
			}
		}
		fl := here[rapid.IntRange(0, len(here)-1).Draw(rt, "flight")]
		after := text
		for range rapid.IntRange(1, 4).Draw(rt, "edits") {
			if rapid.Bool().Draw(rt, "append") {
				after = Append(after, "cost 2026-01-05 fuel 10,00 EUR for club\n")
				continue
			}
			var err error
			after, err = AddLines(after, Target{"x", "flight", fl.Name}, "note \"# new\"")
			require.NoError(rt, err)
			notes++
		}
		require.Zero(rt, lostLine(text, after))
		before.text[l.main] = after
		is := before.load(t)
		require.NoError(rt, is.Diagnostics.Err())
		i := slices.IndexFunc(is.Ledger.Flights, func(f *season.Flight) bool { return f.Name == fl.Name })
		require.Len(rt, is.Ledger.Flights[i].Notes, len(fl.Notes)+notes)
	})
}

// TestEdit holds an edit on disk to the whole ledger: it is written where the
// ledger holds together with it, and not where an included file would not.
func TestEdit(t *testing.T) {
	dir := t.TempDir()
	main, part := filepath.Join(dir, "main.boxbook"), filepath.Join(dir, "part.boxbook")
	write := func(path, text string) { require.NoError(t, os.WriteFile(path, []byte(text), 0o644)) }
	write(main, "include \"part.boxbook\"\npilot ines\n")
	write(part, "coach marek\n")
	opts := Options{Files: Disk{}, Main: main, Builtin: data.Builtin()}
	add := func(blocks string) error {
		return Edit(opts, part, func(text string) (string, error) { return Append(text, blocks), nil })
	}
	require.NoError(t, add("signoff 2026-09-12 ines advanced by marek"))
	const good = "coach marek\n\nsignoff 2026-09-12 ines advanced by marek\n"
	requireFile(t, part, good)

	var invalid *InvalidError
	require.ErrorAs(t, add("pilot ines"), &invalid)
	require.Contains(t, invalid.List[0].Message, `pilot "ines" is defined twice`)
	requireFile(t, part, good)

	var loss *lossError
	err := Edit(opts, part, func(text string) (string, error) { return strings.Replace(text, "marek", "Marek", 1), nil })
	require.ErrorAs(t, err, &loss)
	require.Equal(t, 1, loss.line)
	requireFile(t, part, good)

	stray := filepath.Join(dir, "stray.boxbook")
	write(stray, "")
	err = Edit(opts, stray, func(string) (string, error) { return "pilot mara\n", nil })
	require.ErrorContains(t, err, "is no longer part of the ledger")
	requireFile(t, stray, "")
}

// TestTidyFile holds that a file is tidied in place, and only if the whole
// ledger holds together.
func TestTidyFile(t *testing.T) {
	dir := t.TempDir()
	main := filepath.Join(dir, "main.boxbook")
	require.NoError(t, os.WriteFile(main, []byte("pilot   ines\r\n name \"I\"\r\n"), 0o644))
	opts := Options{Files: Disk{}, Main: main, Builtin: data.Builtin()}
	require.NoError(t, TidyFile(opts, Source{Name: "main.boxbook", Path: main}))
	requireFile(t, main, "pilot ines\r\n  name      \"I\"\r\n")
	const wrong = "pilot   ines\npilot ines\n"
	require.NoError(t, os.WriteFile(main, []byte(wrong), 0o644))
	var invalid *InvalidError
	require.ErrorAs(t, TidyFile(opts, Source{Name: "main.boxbook", Path: main}), &invalid)
	requireFile(t, main, wrong)
}

// TestLoadSources holds that each file comes with the name and the path under
// which it was read, each once.
func TestLoadSources(t *testing.T) {
	files := Memory{
		"book/main.boxbook":  "include \"a/one.boxbook\"\ninclude \"two.boxbook\"\n",
		"book/a/one.boxbook": "include \"../two.boxbook\"\ncoach one\n", "book/two.boxbook": "coach two\n",
	}
	result, sources, err := LoadSources(Options{Files: files, Main: "book/main.boxbook"})
	require.NoError(t, err)
	require.Empty(t, result.Diagnostics)
	require.Len(t, sources, 3)
	for i, name := range []string{"book/main.boxbook", "book/a/one.boxbook", "book/two.boxbook"} {
		require.Equal(t, Source{Name: name, Path: filepath.FromSlash(name), Text: files[name]}, sources[i])
	}
	_, _, err = LoadSources(Options{Files: files, Main: "none.boxbook"})
	require.ErrorIs(t, err, os.ErrNotExist)
}
