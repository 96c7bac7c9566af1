package ledger

import (
	"os"
	"path/filepath"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/require"
)

// inUTF16 is a text in two bytes a letter.
func inUTF16(text string, mark bool) string {
	var out []byte
	if mark {
		out = append(out, 0xff, 0xfe)
	}
	for _, unit := range utf16.Encode([]rune(text)) {
		out = append(out, byte(unit), byte(unit>>8))
	}
	return string(out)
}

// A file in UTF-16 is said to be one, once, and no edit touches it; an included one
// takes the names that it may have with it.
func TestUTF16IsSaidOnce(t *testing.T) {
	text := "pilot ines\n\ndrill 2026-05-03 ines radius \"x\"\n"
	for _, mark := range []bool{true, false} {
		dir := t.TempDir()
		path := filepath.Join(dir, "s.boxbook")
		require.NoError(t, os.WriteFile(path, []byte(inUTF16(text, mark)), 0o644))
		result, err := Load(Options{Files: Disk{}, Main: path})
		require.NoError(t, err)
		require.Len(t, result.Diagnostics, 1)
		require.Equal(t, "the file is text in UTF-16, which is not read", result.Diagnostics[0].Message)
		require.Equal(t, "save it as UTF-8", result.Diagnostics[0].Hint)
		files, _, err := Fixes(Options{Files: Disk{}, Main: path})
		require.NoError(t, err)
		require.Empty(t, files)

		whole := filepath.Join(dir, "whole.boxbook")
		require.NoError(t, os.WriteFile(whole, []byte("include \"s.boxbook\"\n\ndrill 2026-05-04 ines radius \"x\"\n"), 0o644))
		result, err = Load(Options{Files: Disk{}, Main: whole})
		require.NoError(t, err)
		for _, d := range result.Diagnostics {
			require.NotContains(t, d.Message, "pilot", "a consequence")
		}
	}
	require.False(t, isUTF16("pilot ines\x00\n"))
	require.False(t, isUTF16(""))
}

// A path that is written with a backslash gets a slash, where the file is there.
func TestBackslashInAPathIsASlash(t *testing.T) {
	files := Memory{"s.boxbook": "include \"2026\\s.boxbook\"\n", "2026/s.boxbook": "pilot ines\n"}
	opts := Options{Files: files, Main: "s.boxbook"}
	result, err := Load(opts)
	require.NoError(t, err)
	require.Equal(t, "write / between folder and file", result.Diagnostics[0].Hint)
	fixed, result, err := Fixes(opts)
	require.NoError(t, err)
	require.Empty(t, result.Diagnostics)
	require.Equal(t, "include \"2026/s.boxbook\"\n", fixed[0].Fixed)
}
