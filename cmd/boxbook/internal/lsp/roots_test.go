package lsp

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The ledger that includes a file is found above the folder that the editor takes for
// its root, whatever that is.
func TestLedgerAboveTheRootIsFound(t *testing.T) {
	dir := t.TempDir()
	seasons := filepath.Join(dir, "seasons")
	require.NoError(t, os.Mkdir(seasons, 0o755))
	text := "drill 2025-05-01 ines radius \"four loops a leg\"\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "club.boxbook"), []byte("pilot ines\n\ninclude \"seasons/2025.boxbook\"\n"), 0o644))
	path := filepath.Join(seasons, "2025.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	for _, root := range []string{dir, seasons} {
		c := connect(t, root, testOptions())
		c.notify("textDocument/didOpen", map[string]any{"textDocument": map[string]any{"uri": uriOf(path), "version": 1, "languageId": "boxbook", "text": text}})
		_, err := c.call("textDocument/documentSymbol", map[string]any{"textDocument": map[string]any{"uri": uriOf(path)}})
		require.NoError(t, err)
		require.Empty(t, c.told[uriOf(path)].Diagnostics, root)
		require.NoError(t, c.leave())
	}
}
