package ledger

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"boxbook/data"

	"github.com/stretchr/testify/require"
)

const slips = `pilot ines   # of the box
  name  “Ines Halloran”
flight 18.04.2026 ines free   # the first
  category intermediate
official 54O.49 of 800
  fault  1 line-angel 10°  seen   at 1.12   # as noted
include "part.boxbook
`

const slipsFixed = `pilot ines   # of the box
  name  "Ines Halloran"
flight 2026-04-18 ines free   # the first
  category intermediate
  official 540.49 of 800
  fault  1 line-angle 10deg  seen   at 1:12   # as noted
include "part.boxbook"
`

const (
	partSlips = "\ufeffflight 2026-04-21 ines free\r\n  category intermediate\r\n  place 3/9 # of nine"
	partFixed = "\ufeffflight 2026-04-21 ines free\r\n  category intermediate\r\n  place 3 of 9 # of nine"
)

func slipLedger(t *testing.T) (string, Options) {
	t.Helper()
	dir := t.TempDir()
	main := filepath.Join(dir, "main.boxbook")
	require.NoError(t, os.WriteFile(main, []byte(slips), 0o640))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "part.boxbook"), []byte(partSlips), 0o600))
	return dir, Options{Files: Disk{}, Main: main, Builtin: data.Builtin(), AsOf: day(t, casesToday)}
}

// TestFixesOfAWholeLedger: errors that come to light behind others, and those of
// a file that is only read once its include is in order, are fixed in one go;
// nothing is written, and all else stays to the letter.
func TestFixesOfAWholeLedger(t *testing.T) {
	dir, opts := slipLedger(t)
	files, left, err := Fixes(opts)
	require.NoError(t, err)
	require.Empty(t, left.Diagnostics)
	require.Len(t, files, 2)
	require.Equal(t, slipsFixed, files[0].Fixed)
	require.Equal(t, partFixed, files[1].Fixed)
	require.Len(t, files[0].Made, 8)
	requireFile(t, opts.Main, slips)
	requireFile(t, filepath.Join(dir, "part.boxbook"), partSlips)
}

func TestFixFile(t *testing.T) {
	dir, opts := slipLedger(t)
	files, _, err := Fixes(opts)
	require.NoError(t, err)
	// What stands in the file when its lock is held is fixed, not what was seen.
	require.NoError(t, os.WriteFile(opts.Main, []byte("# new\n"+slips), 0o640))
	for _, f := range files {
		made, err := FixFile(opts, f.Source)
		require.NoError(t, err)
		require.NotEmpty(t, made)
	}
	requireFile(t, opts.Main, "# new\n"+slipsFixed)
	requireFile(t, filepath.Join(dir, "part.boxbook"), partFixed)
	info, err := os.Stat(opts.Main)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), info.Mode())
	made, err := FixFile(opts, files[0].Source)
	require.NoError(t, err)
	require.Empty(t, made)
}

// TestFixesOfALongLine: a line is fixed in one go, however many of its words are wrong.
func TestFixesOfALongLine(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.boxbook")
	text := "pilot ines\nsequence s\n  category sportsman\n  1" + strings.Repeat(" 9,1,3,2:1", 30) + "\n"
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	opts := Options{Files: Disk{}, Main: path}
	files, _, err := Fixes(opts)
	require.NoError(t, err)
	require.Len(t, files, 1)
	_, err = FixFile(opts, files[0].Source)
	require.NoError(t, err)
	requireFile(t, path, strings.ReplaceAll(text, ",", "."))
}

// TestFixesOfAPart: whoever is given a file that is part of a ledger edits that
// file alone.
func TestFixesOfAPart(t *testing.T) {
	files := Memory{
		"book.boxbook":        "pilot ines\n  name Ines Halloran\ninclude \"coach/marek.boxbook\"\n",
		"coach/marek.boxbook": "part-of \"../book.boxbook\"\ncoach marek\n  name Marek Oduya\n",
	}
	fixed, left, err := Fixes(Options{Files: files, Main: "coach/marek.boxbook"})
	require.NoError(t, err)
	require.Len(t, fixed, 1)
	require.Contains(t, fixed[0].Fixed, `name "Marek Oduya"`)
	require.Equal(t, 1, left.Diagnostics.Errors())
	require.Equal(t, "book.boxbook", left.Diagnostics[0].File)
	fixed, left, err = Fixes(Options{Files: files, Main: "book.boxbook"})
	require.NoError(t, err)
	require.Len(t, fixed, 2)
	require.Empty(t, left.Diagnostics)
}

// TestFixesThatWouldNotHold: an edit that only makes another error of its words
// is left out, and the others are made.
func TestFixesThatWouldNotHold(t *testing.T) {
	text := "pilot ines\n  name Ines Halloran\nflight 2026-04-18 ines free\n  official 5\n  note  \"x\"\n"
	list := List{
		{Line: 2, Fixes: []Fix{{2, 8, 21, `"Ines Halloran"`}}},
		{Line: 4, Fixes: []Fix{{4, 12, 13, "five"}}},
	}
	after, made := ApplyFixes(text, list)
	require.Len(t, made, 2)
	result, err := Load(Options{Files: Memory{"a": after}, Main: "a"})
	require.NoError(t, err)
	require.False(t, list[0].misread(nil, result.Diagnostics))
	require.True(t, list[1].misread(nil, result.Diagnostics))
}

// TestStrayLine: a line that no edit was of must be as it was.
func TestStrayLine(t *testing.T) {
	made := List{{Line: 2, Fixes: []Fix{{Line: 2}}}}
	require.Zero(t, strayLine("a\nb\nc\n", "a\nx\nc\n", made))
	require.Equal(t, 1, strayLine("a\nb\nc\n", "x\nb\nc\n", made))
	require.Equal(t, 3, strayLine("a\nb\nc", "a\nb\nc\n", made))
	require.Positive(t, strayLine("a\nb\nc\n", "a\nc\n", made))
}

// TestKinds holds the table of kinds: names of our own form, each once, said in
// lower case and without a full stop.
func TestKinds(t *testing.T) {
	kinds := Kinds()
	require.Len(t, kinds, len(messages))
	seen := map[Code]bool{}
	for _, k := range kinds {
		require.Regexp(t, `^[a-z0-9]+(-[a-z0-9]+)*$`, string(k.Code))
		require.LessOrEqual(t, len(k.Code), 28, k.Code)
		require.False(t, seen[k.Code], k.Code)
		seen[k.Code] = true
		require.Contains(t, []Severity{Error, Warning}, k.Severity)
		require.False(t, k.Message == "" || strings.HasSuffix(k.Message, "."), k.Code)
		first, _, _ := strings.Cut(k.Message, " ")
		require.True(t, first == strings.ToLower(first) || first[0] == '%' || first == "K", k.Message)
	}
}
