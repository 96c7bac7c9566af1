package commands

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// asTyped runs boxbook in a folder, beside what runs at a terminal.
func asTyped(t *testing.T, dir string, args ...string) {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.Command(exe, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), asCommand+"=1", "BOXBOOK_LEDGER=")
	out, err := cmd.CombinedOutput()
	require.NoError(t, err, "%s", out)
}

// Undo asks at a terminal, and what is neither yes nor no takes nothing back.
func TestUndoAsks(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte("pilot ines\n"), 0o644))
	asTyped(t, dir, "log", "coach", "--handle", "dana")
	after := textOf(t, path)

	k := startTalk(t, dir, "undo")
	k.expect(`the last change: "log: coach dana"`)
	k.expect("-coach dana")
	k.answer("take it back?", "")
	k.answer("take it back?", "?")
	k.expect("yes takes the change back, no leaves the ledger as it is")
	k.answer("take it back?", "perhaps")
	k.expect(`"perhaps" is neither yes nor no`)
	k.answer("take it back?", "no")
	k.expect("nothing was taken back")
	require.Equal(t, exitDone, k.exit())
	require.Equal(t, after, textOf(t, path))

	k = startTalk(t, dir, "undo")
	k.expect("take it back?")
	k.key("\x03")
	k.expect("stopped; nothing was taken back")
	require.Equal(t, exitInterrupted, k.exit())
	require.Equal(t, after, textOf(t, path))

	k = startTalk(t, dir, "undo")
	k.answer("take it back?", "y")
	k.expect(`taken back: "log: coach dana"`)
	require.Equal(t, exitDone, k.exit())
	require.Equal(t, "pilot ines\n", textOf(t, path))
}

// What another window logs, or an editor saves, while undo asks is not lost: the
// answer was about another text.
func TestUndoAsksAboutWhatItShows(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte("pilot ines\n"), 0o644))
	asTyped(t, dir, "log", "coach", "--handle", "dana")

	k := startTalk(t, dir, "undo")
	k.expect("take it back?")
	asTyped(t, dir, "log", "coach", "--handle", "marek")
	both := textOf(t, path)
	require.Contains(t, both, "coach marek")
	k.key("yes\r")
	k.expect("the ledger was changed meanwhile; nothing was taken back")
	require.Equal(t, exitUsage, k.exit())
	require.Equal(t, both, textOf(t, path))

	k = startTalk(t, dir, "undo")
	k.expect("-coach marek")
	k.expect("take it back?")
	saved := both + "# by hand\n"
	require.NoError(t, os.WriteFile(path, []byte(saved), 0o644))
	k.key("yes\r")
	k.expect("has changed since the last change that boxbook made")
	require.Equal(t, exitUsage, k.exit())
	require.Equal(t, saved, textOf(t, path))
}
