package commands

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/creack/pty"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pagerScript is a pager that says that it was asked, by a file, and shows all.
const pagerScript = "#!/bin/sh\necho \"$LESS\" > \"$PAGED\"\nexec cat\n"

// pagedTalk runs boxbook at a terminal of some lines, with a pager, until it has said
// something.
func pagedTalk(t *testing.T, rows int, pager, until string, args ...string) (screen string, paged bool) {
	t.Helper()
	dir := t.TempDir()
	exe, err := os.Executable()
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pager"), []byte(pagerScript), 0o700))
	mark := filepath.Join(dir, "paged")
	cmd := exec.Command(exe, args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), asCommand+"=1", "TERM=xterm", "NO_COLOR=", "LESS=", "PAGED="+mark, "PAGER="+strings.ReplaceAll(pager, "HERE", dir))
	tty, err := pty.StartWithSize(cmd, &pty.Winsize{Rows: uint16(rows), Cols: 80})
	require.NoError(t, err)
	k := &talk{t: t, cmd: cmd, tty: tty, silent: make(chan struct{})}
	go k.listen()
	t.Cleanup(func() { _ = tty.Close() })
	k.expect(until)
	require.Equal(t, exitDone, k.exit())
	k.mu.Lock()
	defer k.mu.Unlock()
	_, err = os.Stat(mark)
	return k.said.String(), err == nil
}

// A page that is longer than the terminal goes through $PAGER, colour and all; one
// that fits, or that is asked for without, does not.
func TestPagerAtTheTerminal(t *testing.T) {
	ledger, err := filepath.Abs("../../../../data/demo/longmere.boxbook")
	require.NoError(t, err)
	home := []string{"--pilot", "ines", "-f", ledger, "--asof", "2026-11-25"}
	for _, c := range []struct {
		rows  int
		args  []string
		pager string
		paged bool
	}{
		{10, home, "HERE/pager", true},
		{40, home, "HERE/pager", false},
		{10, append(home, "--no-pager"), "HERE/pager", false},
		{10, home, "HERE/missing", false},
		{10, home, "false", false},
	} {
		t.Run(fmt.Sprint(c.rows, c.args, c.pager), func(t *testing.T) {
			screen, paged := pagedTalk(t, c.rows, c.pager, "boxbook plan ines", c.args...)
			assert.Equal(t, c.paged, paged)
			assert.Contains(t, screen, "\x1b[", "colour")
			assert.Equal(t, 1, strings.Count(plainScreen(screen), "Ines Halloran, intermediate"), screen)
		})
	}
}

// Help that is longer than the terminal goes through it as well: topics, the help of
// commands, kinds of error.
func TestPagerOfHelp(t *testing.T) {
	for _, c := range []struct {
		rows  int
		args  string
		until string
		paged bool
	}{
		{24, "help methods", "Fisher", true},
		{24, "help methods --no-pager", "Fisher", false},
		{60, "help marks", "what was given", false},
		{15, "help marks", "what was given", true},
		{24, "export --help", "money", true},
		{24, "help export", "money", true},
		{24, "flight --help", "$BOXBOOK_PILOT", true},
		{24, "flight --help --no-pager", "$BOXBOOK_PILOT", false},
		{24, "--help", "Hand over", true},
		{5, "help grade-not-half", "half", true},
	} {
		t.Run(fmt.Sprint(c.rows, " ", c.args), func(t *testing.T) {
			screen, paged := pagedTalk(t, c.rows, "HERE/pager", c.until, strings.Fields(c.args)...)
			assert.Equal(t, c.paged, paged, screen)
		})
	}
}

// The pager is told to keep colours, unless the reader has settings of their own.
func TestPagerKeepsColour(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "paged")
	t.Setenv("PAGED", path)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pager"), []byte(pagerScript), 0o700))
	for own, want := range map[string]string{"": "FRX\n", "-M": "-M\n"} {
		t.Setenv("LESS", own)
		var out strings.Builder
		a := &app{streams: &streams{out: &out, err: &out, env: func(name string) string {
			return map[string]string{"PAGER": filepath.Join(dir, "pager"), "LESS": own}[name]
		}}}
		require.True(t, a.page([]byte("a page\n")))
		assert.Equal(t, "a page\n", out.String())
		said, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, want, string(said))
	}
}

// Only a page to be read here is paged: never a file, a pipe or another format.
func TestPagerNeverElsewhere(t *testing.T) {
	long := []byte(strings.Repeat("line\n", 50))
	at := func(change func(*app)) bool {
		a := &app{streams: &streams{terminal: true, height: 24, env: func(string) string { return "" }}, paged: true}
		change(a)
		return a.tooLong(long)
	}
	assert.True(t, at(func(*app) {}))
	assert.False(t, at(func(a *app) { a.terminal = false }))
	assert.False(t, at(func(a *app) { a.paged = false }))
	assert.False(t, at(func(a *app) { a.format = "json" }))
	assert.False(t, at(func(a *app) { a.height = 51 }))
	assert.True(t, at(func(a *app) { a.height = 50 }), "the prompt needs a line")
}
