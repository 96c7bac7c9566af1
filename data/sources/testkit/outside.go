// Package testkit reads testdata/outside: what sources outside the project say of
// the main job, a check a line, with the mark of where it stands beside it.
package testkit

import (
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/data/sources"
)

// Check is a line: what is asked, what is to come of it, and where that stands.
type Check struct {
	Asked, Want, Where string
	Mark               sources.Mark
}

// Folder is where the tables are.
func Folder() string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "..", "..", "..", "testdata", "outside")
}

var (
	bar = regexp.MustCompile(`\s+\|\s+`)
	// ownWord is a mark's word in a remark behind the mark.
	ownWord = regexp.MustCompile(`\b(` + strings.Join(sources.Words, "|") + `)\b`)
)

// Outside are the checks of a table, each in a test of its own.
func Outside(t *testing.T, table string, run func(t *testing.T, c Check)) {
	t.Helper()
	for _, c := range Checks(t, table) {
		t.Run(c.Asked, func(t *testing.T) { run(t, c) })
	}
}

// Checks are the lines of a table. A line that is none, or whose mark names what
// there is not, fails the test.
func Checks(t testing.TB, table string) []Check {
	t.Helper()
	raw, err := os.ReadFile(filepath.Join(Folder(), table+".txt"))
	require.NoError(t, err)
	known, err := sources.List()
	require.NoError(t, err)
	var checks []Check
	for line := range strings.Lines(string(raw)) {
		line = strings.TrimSpace(line)
		if line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		parts := bar.Split(line, -1)
		require.Len(t, parts, 3, line)
		marks, err := sources.Marks(parts[2])
		require.NoError(t, err, line)
		require.Len(t, marks, 1, line)
		require.NoError(t, marks[0].Check(known), line)
		_, remark, _ := strings.Cut(parts[2], "]")
		require.NotRegexp(t, ownWord, remark, "%s: the mark itself says it", line)
		checks = append(checks, Check{parts[0], parts[1], parts[2], marks[0]})
	}
	require.NotEmpty(t, checks, table)
	return checks
}
