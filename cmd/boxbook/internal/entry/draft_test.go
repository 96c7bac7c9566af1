package entry

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a killed save has left is gone at the next start, beside the ledger and among
// the system's temporary files; a save under way, drafts, those set aside and other
// files stay.
func TestLeftoversOfAKilledSaveGo(t *testing.T) {
	dir, temporary := t.TempDir(), t.TempDir()
	t.Setenv("TMPDIR", temporary)
	ledger := filepath.Join(dir, "season.boxbook")
	d := newDraft(ledger, "flight")
	d.Answers["date"] = "2026-05-02"
	require.NoError(t, d.save())
	base := filepath.Base(d.path)
	before := time.Now().Add(-time.Hour)
	put := func(path string, at time.Time) string {
		require.NoError(t, os.WriteFile(path, []byte("{"), 0o600))
		require.NoError(t, os.Chtimes(path, at, at))
		return path
	}
	left := []string{put(filepath.Join(dir, "."+base+"8674665223082153551"), before), put(filepath.Join(temporary, "."+base+"42"), before)}
	stay := []string{
		put(filepath.Join(dir, "."+base+"43"), time.Now()), put(d.path+".1", before), put(filepath.Join(dir, "."+base+".1"), before),
		put(filepath.Join(dir, "."+base+"4x"), before), put(ledger, before), d.path,
	}
	read, ok, err := readDraft(ledger, "flight")
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, "2026-05-02", read.Answers["date"])
	for _, path := range left {
		assert.NoFileExists(t, path)
	}
	for _, path := range stay {
		assert.FileExists(t, path)
	}
}
