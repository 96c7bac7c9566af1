package ledger

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A name is one's alone until it is let go; a lock file that a process left behind
// stands in nobody's way, and none stays.
func TestClaim(t *testing.T) {
	path := filepath.Join(t.TempDir(), ".s.boxbook.flight.draft")
	letGo, err := Claim(path)
	require.NoError(t, err)
	_, err = Claim(path)
	require.ErrorIs(t, err, ErrBusy)
	other, err := Claim(path + ".1")
	require.NoError(t, err)
	other()
	letGo()
	require.NoFileExists(t, path+lockSuffix)
	require.NoError(t, os.WriteFile(path+lockSuffix, nil, 0o666))
	letGo, err = Claim(path)
	require.NoError(t, err)
	letGo()
	require.NoFileExists(t, path+lockSuffix)
}
