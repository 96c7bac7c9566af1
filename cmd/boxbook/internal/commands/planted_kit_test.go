package commands

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// top is the folder of the whole program, from the tests'.
const top = "../../../.."

// planted is one edit of the program's text: what a pattern finds, in one place
// of the files in a folder or of one file, is put another way ($1 as in package
// regexp).
type planted struct{ in, find, put string }

// edit gives the edited file's path and text. A pattern that finds nothing, or
// more than one place, fails the test: what it changes has moved.
func (p planted) edit(t testing.TB) (path, text string) {
	t.Helper()
	pattern := regexp.MustCompile("(?m)" + p.find)
	found := 0
	for _, name := range sourcesIn(t, filepath.Join(top, p.in)) {
		raw, err := os.ReadFile(name)
		require.NoError(t, err)
		if n := len(pattern.FindAllIndex(raw, -1)); n > 0 {
			found += n
			path, text = name, pattern.ReplaceAllString(string(raw), p.put)
		}
	}
	require.Equal(t, 1, found, "places of %s in %s; where what it names has moved, the test moves with it", p.find, p.in)
	return path, text
}

// sourcesIn lists the files of the product at and below a path.
func sourcesIn(t testing.TB, path string) []string {
	t.Helper()
	var names []string
	require.NoError(t, filepath.WalkDir(path, func(name string, entry fs.DirEntry, err error) error {
		if err == nil && !entry.IsDir() && !strings.HasSuffix(name, "_test.go") {
			names = append(names, name)
		}
		return err
	}))
	return names
}

// asking runs commands and gives what they print; the day is that of the demo.
type asking func(t testing.TB, args ...string) string

// asIs asks this program.
func asIs(t testing.TB, args ...string) string {
	t.Helper()
	return screenOf(t, 80, args...)
}
