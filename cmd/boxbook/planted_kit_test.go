package main

import (
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// top is the folder of the whole program, from the tests'.
const top = "../.."

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

// builtWith builds the program with other texts in place of its own, by path,
// and says what the compiler says where it refuses.
func builtWith(t testing.TB, texts map[string]string) (binary, refused string) {
	t.Helper()
	folder := t.TempDir()
	replace := map[string]string{}
	for path, text := range texts {
		source, err := filepath.Abs(path)
		require.NoError(t, err)
		edited := filepath.Join(folder, fmt.Sprintf("%d.txt", len(replace)))
		require.NoError(t, os.WriteFile(edited, []byte(text), 0o600))
		replace[source] = edited
	}
	raw, err := json.Marshal(map[string]any{"Replace": replace})
	require.NoError(t, err)
	overlay := filepath.Join(folder, "overlay.json")
	require.NoError(t, os.WriteFile(overlay, raw, 0o600))
	binary = filepath.Join(folder, "boxbook.exe")
	said, err := exec.Command("go", "build", "-ldflags=-s -w", "-overlay", overlay, "-o", binary, ".").CombinedOutput()
	if err != nil {
		return "", string(said)
	}
	return binary, ""
}

// asking runs commands and gives what they print; the day is that of the demo.
type asking func(t testing.TB, args ...string) string

// built asks a program that was built, on a machine whose user has set nothing.
func built(binary string) asking {
	return func(t testing.TB, args ...string) string {
		t.Helper()
		cmd := exec.Command(binary, append(args, "--asof", demoDay().Format("2006-01-02"))...)
		cmd.Env = append(os.Environ(), "NO_COLOR=1", "BOXBOOK_LEDGER=", "BOXBOOK_PILOT=", "COLUMNS=")
		var complaint strings.Builder
		cmd.Stderr = &complaint
		out, err := cmd.Output()
		require.NoError(t, err, "%v: %s", args, complaint.String())
		return string(out)
	}
}

// asIs asks this program.
func asIs(t testing.TB, args ...string) string {
	t.Helper()
	return screenOf(t, 80, args...)
}
