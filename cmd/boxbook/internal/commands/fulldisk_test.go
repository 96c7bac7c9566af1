//go:build unix

package commands

import (
	"io/fs"
	"syscall"
	"testing"

	"boxbook/season/ledger"

	"github.com/stretchr/testify/require"
)

// A ledger that does not fit on the disk is said by its name and as it was, not as
// output that could not be written.
func TestFullDiskIsOfTheLedger(t *testing.T) {
	full := &fs.PathError{Op: "write", Path: ".longmere.boxbook.1.tmp", Err: syscall.ENOSPC}
	change := &ledger.ChangeError{Path: "longmere.boxbook", Doing: "write the new text of", Err: full}
	require.Equal(t, "cannot write the new text of longmere.boxbook: no space left on device; the ledger is as it was", plainFailure(change))
	require.Equal(t, "cannot write the output: no space left on device", plainFailure(full))
}
