package ledger

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"boxbook/data"
)

// longestFuzzed keeps fuzzing to texts that are read quickly: what a long text
// can do wrong a short one can.
const longestFuzzed = 4 << 10

// leanBuiltin is what the program ships without its comments and with a few of
// its kinds of fault: reading all of it anew for each text took most of the time
// of fuzzing.
func leanBuiltin(t testing.TB) fs.FS {
	t.Helper()
	const kept = 3
	lean := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(data.Builtin(), ".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		raw, err := fs.ReadFile(data.Builtin(), path)
		var lines []string
		kinds := 0
		for line := range strings.SplitSeq(string(raw), "\n") {
			if strings.HasPrefix(line, "fault-kind ") {
				kinds++
			}
			if !strings.HasPrefix(line, "#") && kinds <= kept {
				lines = append(lines, line)
			}
		}
		lean[path] = &fstest.MapFile{Data: []byte(strings.Join(lines, "\n"))}
		return err
	}))
	return lean
}

// fewSeeds are the texts that fuzzing begins with: the shortest that raises each
// kind of diagnostic, and the short samples. With all of seedTexts the time went
// by before the first new text was tried.
func fewSeeds(t testing.TB) []string {
	t.Helper()
	shortest := map[Code]string{}
	for _, name := range caseFiles {
		for _, c := range readCases(t, casePath(name)) {
			list, _ := c.diagnose(t)
			for _, d := range list {
				text := c.files["test.boxbook"]
				if known, ok := shortest[d.Code]; !ok || len(text) < len(known) {
					shortest[d.Code] = text
				}
			}
		}
	}
	texts := []string{small, "pilot\xb1 ines\n  name  “Ines Hallorora\x9b\x9d"}
	for _, kind := range Kinds() {
		if text, ok := shortest[kind.Code]; ok && len(text) <= longestFuzzed {
			texts = append(texts, text)
		}
	}
	return texts
}
