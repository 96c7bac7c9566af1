//go:build unix

package commands

import (
	"io"
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

// Output goes where a link points, into a pipe or a device, and over no file
// that may not be written; what is there stays what it was.
func TestOutputKeepsWhatIsNoFile(t *testing.T) {
	folder := t.TempDir()
	at := func(name string) string { return filepath.Join(folder, name) }
	data := []byte("percent\n")

	require.NoError(t, os.WriteFile(at("target"), []byte("old"), 0o600))
	require.NoError(t, os.Symlink("target", at("link")))
	require.NoError(t, writeOutput(at("link"), data))
	requireLink(t, at("link"))
	requireFile(t, at("target"), "percent\n")
	info, err := os.Stat(at("target"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "a file keeps its mode")

	require.NoError(t, os.Symlink("later", at("dangling")))
	require.NoError(t, writeOutput(at("dangling"), data))
	requireLink(t, at("dangling"))
	requireFile(t, at("later"), "percent\n")

	require.NoError(t, syscall.Mkfifo(at("pipe"), 0o600))
	read := make(chan string)
	go func() {
		text, _ := os.ReadFile(at("pipe"))
		read <- string(text)
	}()
	require.NoError(t, writeOutput(at("pipe"), data))
	require.Equal(t, "percent\n", <-read)
	info, err = os.Lstat(at("pipe"))
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeNamedPipe)

	require.NoError(t, writeOutput(at("new"), data))
	requireFile(t, at("new"), "percent\n")

	if os.Geteuid() != 0 { // who may write everything is refused nothing
		require.NoError(t, os.WriteFile(at("kept"), []byte("old"), 0o400))
		require.ErrorIs(t, writeOutput(at("kept"), data), os.ErrPermission)
		requireFile(t, at("kept"), "old")
	}
	if full, err := os.Lstat("/dev/full"); err == nil && full.Mode()&os.ModeCharDevice != 0 {
		require.ErrorIs(t, writeOutput("/dev/full", data), syscall.ENOSPC)
		after, err := os.Lstat("/dev/full")
		require.NoError(t, err)
		require.Equal(t, full.Mode(), after.Mode(), "a device stays one")
	}
}

func requireLink(t *testing.T, path string) {
	t.Helper()
	info, err := os.Lstat(path)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
}

func requireFile(t *testing.T, path, want string) {
	t.Helper()
	file, err := os.Open(path)
	require.NoError(t, err)
	defer file.Close()
	text, err := io.ReadAll(file)
	require.NoError(t, err)
	require.Equal(t, want, string(text))
}
