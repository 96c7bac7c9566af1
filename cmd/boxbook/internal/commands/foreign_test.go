package commands

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What somebody typed is not replaced by a page; a page of the same program is, in
// every format, and so is an empty file.
func TestOutputKeepsWhatIsTyped(t *testing.T) {
	dir, book := t.TempDir(), absolute(t, "../../../../data/demo/"+demoLedger)
	for _, c := range []struct{ command, name string }{
		{"season", "sheet.csv"}, {"season", "notes.txt"}, {"season", "notes.md"}, {"booklet", "notes.html"}, {"flight", "data.json"}, {"workbook", "own.xlsx"},
	} {
		path := filepath.Join(dir, c.name)
		const sheet = "Fig;A;B\n1;7,5;8\n"
		require.NoError(t, os.WriteFile(path, []byte(sheet), 0o600))
		code, said := typed(t, dir, c.command, "ines", "-f", book, "-o", path)
		assert.Equal(t, exitUsage, code, c.name)
		assert.Contains(t, said, "is there and is no page of boxbook; nothing was written", c.name)
		kept, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, sheet, string(kept), c.name)

		require.NoError(t, os.WriteFile(path, nil, 0o600))
		for range 2 {
			code, said = typed(t, dir, c.command, "ines", "-f", book, "-o", path)
			assert.Equal(t, 0, code, "%s: %s", c.name, said)
		}
		written, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.NotEmpty(t, written)
	}
}

// A workbook of another program is kept too.
func TestOutputKeepsAnotherWorkbook(t *testing.T) {
	book := absolute(t, "../../../../data/demo/"+demoLedger)
	data, err := os.ReadFile("../../../../testdata/sheets/tarn.xlsx")
	require.NoError(t, err)
	dir := t.TempDir()
	path := filepath.Join(dir, "own.xlsx")
	require.NoError(t, os.WriteFile(path, data, 0o600))
	code, said := typed(t, dir, "workbook", "ines", "-f", book, "-o", path)
	assert.Equal(t, exitUsage, code, said)
	kept, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, data, kept)
}

// absolute is a path that holds from every folder.
func absolute(t *testing.T, path string) string {
	t.Helper()
	path, err := filepath.Abs(path)
	require.NoError(t, err)
	return path
}
