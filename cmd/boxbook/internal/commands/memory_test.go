package commands

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/season/ledger"
)

// Room is made for a long ledger, also for one of many short files, and never
// for a short one: it costs a start more than it gains there.
func TestRoomIsMadeForLongLedgers(t *testing.T) {
	folder := t.TempDir()
	file := func(name string, size int) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(strings.Repeat("# a line\n", size/9+1)), 0o600))
		return path
	}
	short, long := file("short", roomFrom/4), file("long", roomFrom)
	made := 0
	disk := func() *roomy {
		s := &streams{room: func() { made++ }}
		return &roomy{Files: ledger.Disk{}, makeRoom: s.makeRoom}
	}
	r := disk()
	for range 3 {
		text, err := r.Read(short)
		require.NoError(t, err)
		require.Greater(t, len(text), roomFrom/4)
	}
	require.Zero(t, made)
	_, err := r.Read(short)
	require.NoError(t, err)
	require.Equal(t, 1, made, "at the fourth of them")
	r = disk()
	_, err = r.Read(long)
	require.NoError(t, err)
	_, err = r.Read(long)
	require.NoError(t, err)
	require.Equal(t, 2, made, "once, however much is read")
	_, err = disk().Read(filepath.Join(folder, "none"))
	require.ErrorIs(t, err, os.ErrNotExist)
}
