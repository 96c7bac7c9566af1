package ledger

import (
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestChangeOnAFullDisk holds that a disk without room leaves the ledger alone,
// on a small file system in memory where such a one can be mounted.
func TestChangeOnAFullDisk(t *testing.T) {
	dir := t.TempDir()
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=128k"); err != nil {
		t.Skip("no file system can be mounted here:", err)
	}
	defer func() { require.NoError(t, syscall.Unmount(dir, 0)) }()
	text := strings.Repeat("# a line of a long ledger\n", 3000)
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	err := Change(path, appendLine("new"), agree)
	require.ErrorIs(t, err, syscall.ENOSPC)
	require.EqualError(t, err, "cannot write the new text of "+path+": no space left on device; the ledger is as it was")
	requireFile(t, path, text)
	requireAlone(t, dir, "book.boxbook")
}
