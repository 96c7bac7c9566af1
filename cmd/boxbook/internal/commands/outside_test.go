package commands

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"unicode"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// hidden is what a text from outside may bring and nobody sees: line ends that
// only some programs know, turns of the writing direction, characters that are
// none, tags, a zero-width space.
const hidden = "a\u2028b\u202ec\u0085d\ufffee\U000e0041f\uffffg\u200bh\u2066i"

// hostileLedger has it in everything that a person types in quotes.
var hostileLedger = strings.ReplaceAll(`pilot p
  name "P@"
sequence s
  category intermediate
  1 K 10 "label@"
flight 2026-05-01 p free
  sequence s
  panel A
  1 7.5
  fault 1 radius seen "remark@"
  note "note@"
  penalty other 5 "penalty@"
cost 2026-05-02 fuel@ 3.00 EUR for p by p "cost@"
`, "fuel@", "fuel")

// unseenIn gives the first character of an output that must not be in it.
func unseenIn(text string) (rune, bool) {
	for _, r := range text {
		if r == '\n' {
			continue
		}
		if r < ' ' || 0x7f <= r && r < 0xa0 || r == '\u200b' || unicode.Is(unicode.Bidi_Control, r) || r == '\u2028' ||
			unicode.Is(unicode.Noncharacter_Code_Point, r) || 0xe0000 <= r && r < 0xe1000 {
			return r, true
		}
	}
	return 0, false
}

// TestNothingHiddenGetsOut holds every format of every page to what can be seen,
// whatever the ledger brings; the JSON means the same characters all the same.
func TestNothingHiddenGetsOut(t *testing.T) {
	path := filepath.Join(t.TempDir(), "h.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(strings.ReplaceAll(hostileLedger, "@", hidden)), 0o644))
	for _, command := range [][]string{{"flight"}, {"debrief"}, {"season"}, {"faults"}, {"year"}, {"panel"}, {"families"}, {"export", "faults"}, {"export", "money"}} {
		for _, format := range []string{"text", "json", "csv", "markdown", "html"} {
			if command[0] == "export" && format != "csv" && format != "json" {
				continue
			}
			out, says, code := process{}.run(t, append(slices.Clone(command), "--format", format, "-f", path)...)
			require.Zero(t, code, says)
			r, found := unseenIn(out)
			require.False(t, found, "%s --format %s has %U", strings.Join(command, " "), format, r)
			if format == "json" && command[0] == "export" && command[1] == "faults" {
				var rows []map[string]any
				require.NoError(t, json.Unmarshal([]byte(out), &rows))
				require.Equal(t, "remark"+hidden, rows[0]["remark"])
			}
		}
	}
	book := filepath.Join(t.TempDir(), "h.xlsx")
	_, says, code := process{}.run(t, "workbook", "-o", book, "-f", path)
	require.Zero(t, code, says)
	parts, err := zip.OpenReader(book)
	require.NoError(t, err)
	defer parts.Close()
	for _, part := range parts.File {
		f, err := part.Open()
		require.NoError(t, err)
		raw, err := io.ReadAll(f)
		require.NoError(t, err)
		r, found := unseenIn(string(bytes.ReplaceAll(raw, []byte("\r\n"), nil)))
		require.False(t, found, "%s has %U", part.Name, r)
	}
}

// TestFileNamesAreShownHarmless holds what is said of files with names that are
// made to be misread.
func TestFileNamesAreShownHarmless(t *testing.T) {
	t.Parallel()
	for n, name := range []string{"a\x1b[31mb", "a\nboxbook: all is well", "a\u202eb", "a\u009bb", "a\xffb", "a\U000e0041b"} {
		dir := t.TempDir()
		path := filepath.Join(dir, name+".boxbook")
		require.NoError(t, os.WriteFile(path, []byte("pilot p\nflight 2026-05-01 p free\n  void \"rain\"\n"), 0o644))
		for c, args := range [][]string{
			{"check"},
			{"check", "-f", path},
			{"tidy", "--write"},
			{"flight"},
			{"flight", "--format", "json"},
			{"check", "--format", "json"},
			{"log", "pilot", "--handle", "q"},
			{"undo", "--yes"},
			{"undo", "--yes"}, // nothing is left
			{"check", "-f", path + "none"},
			{"import", path, "--date", "2026-05-01"},
			{"season", "-o", filepath.Join(dir, name+".html")},
			{"booklet", "-o", filepath.Join(dir, name+".html")},
			{"workbook", "-o", filepath.Join(dir, name+".xlsx")},
			{"start", path},
			{"start", filepath.Join(dir, "b"+name+".boxbook")},
			{"check"},
			{"log", "pilot", "--handle", "z", "--into", name},
		} {
			if (n+c)%3 > 0 && !raceDetector {
				continue // the slower run has them all
			}
			printed, said, _ := process{dir: dir}.run(t, args...) // some of them are refused
			out := printed + said
			require.True(t, utf8.ValidString(out), "%q %q: %q", name, args, out)
			r, found := unseenIn(out)
			require.False(t, found, "%q %q has %U: %s", name, args, r, out)
			require.NotContains(t, out, "\nboxbook: all is well", args)
		}
	}
}
