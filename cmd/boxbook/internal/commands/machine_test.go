//go:build machine

package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"boxbook/season/ledger"
)

// machine is a ledger under the commands that change it, and what a simple model
// knows of it: the texts it had, and the people who must be in it.
type machine struct {
	dir     string
	now     string
	before  []string // texts that undo goes back to, the last one last
	pilots  int
	writers int // processes that write at once
}

func (m *machine) path() string { return filepath.Join(m.dir, "main.boxbook") }

func (m *machine) read(rt *rapid.T) string {
	raw, err := os.ReadFile(m.path())
	require.NoError(rt, err)
	return string(raw)
}

// run runs a command on the ledger, in this process.
func (m *machine) run(rt *rapid.T, want int, args ...string) string {
	var out, said strings.Builder
	s := &streams{
		in: strings.NewReader(""), out: &out, err: &said, now: demoDay, env: func(string) string { return "" }, version: "0", width: 80,
	}
	code := run(append(args, "-f", m.path()), s)
	require.Equal(rt, want, code, "%q: %s%s", args, out.String(), said.String())
	return out.String() + said.String()
}

// changed takes over what a command made of the text.
func (m *machine) changed(rt *rapid.T) {
	if is := m.read(rt); is != m.now {
		m.before, m.now = append(m.before, m.now), is
		m.before = m.before[max(0, len(m.before)-ledger.MaxUndo):]
	}
}

// log adds a pilot: every line of before stands, and the new one behind them.
func (m *machine) log(rt *rapid.T) {
	m.pilots++
	name := fmt.Sprintf("p%d", m.pilots)
	m.run(rt, exitDone, "log", "pilot", "--handle", name)
	require.True(rt, strings.HasPrefix(m.read(rt), strings.TrimRight(m.now, "\n")), "earlier lines stay")
	require.Contains(rt, m.read(rt), "pilot "+name)
	m.changed(rt)
}

// sheet imports a flight of the day that the count of texts gives.
func (m *machine) sheet(rt *rapid.T) {
	day := fmt.Sprintf("2026-%02d-%02d", rapid.IntRange(1, 10).Draw(rt, "month"), rapid.IntRange(1, 28).Draw(rt, "day"))
	name := "flight " + day + " ines practice"
	args := []string{"import", filepath.Join(m.dir, "sheet.csv"), "--date", day, "--pilot", "ines", "--programme", "practice", "--sequence", "s", "--write"}
	if strings.Contains(m.now, name) {
		return // a second one of the day is asked for
	}
	m.run(rt, exitDone, args...)
	require.Contains(rt, m.read(rt), name)
	require.Contains(rt, m.read(rt), "7.5")
	m.changed(rt)
}

func (m *machine) tidy(rt *rapid.T) {
	m.run(rt, exitDone, "tidy", "--write")
	require.Equal(rt, strings.Fields(m.now), strings.Fields(m.read(rt)), "tidy changes white space alone")
	m.changed(rt)
}

// hand is an editor: undo cannot go behind it.
func (m *machine) hand(rt *rapid.T) {
	m.now += rapid.SampledFrom([]string{"# by hand\n", "   # by hand\n", "\n", "coach   c" + fmt.Sprint(len(m.now)) + "\n"}).Draw(rt, "typed")
	m.before = nil
	require.NoError(rt, os.WriteFile(m.path(), []byte(m.now), 0o644))
}

func (m *machine) undo(rt *rapid.T) {
	if len(m.before) == 0 {
		var out, said strings.Builder
		s := &streams{in: strings.NewReader(""), out: &out, err: &said, now: demoDay, env: func(string) string { return "" }, version: "0", width: 80}
		require.NotEqual(rt, exitDone, run([]string{"undo", "--yes", "-f", m.path()}, s), "nothing can be taken back")
		require.Equal(rt, m.now, m.read(rt))
		return
	}
	m.run(rt, exitDone, "undo", "--yes")
	m.now, m.before = m.before[len(m.before)-1], m.before[:len(m.before)-1]
	require.Equal(rt, m.now, m.read(rt))
}

// reads ask, and change nothing.
func (m *machine) reads(rt *rapid.T) {
	args := rapid.SampledFrom([][]string{{"check"}, {"check", "--format", "json"}, {"year"}, {"tidy", "--diff"}, {"pilots"}, {"export", "money"}}).Draw(rt, "question")
	m.run(rt, exitDone, args...)
	require.Equal(rt, m.now, m.read(rt))
}

// writes is another writer of the same ledger. A process of its own is a tenth of a
// second of a processor, most of what this test took; a lock holds off whoever
// opened its file anew, in this process too, so three in four are goroutines.
func (m *machine) writes(name string, alone bool) error {
	args := []string{"log", "pilot", "--handle", name, "-f", m.path()}
	if alone {
		said, err := process{dir: m.dir}.command(args...).CombinedOutput()
		if err != nil {
			return fmt.Errorf("%s: %w: %s", name, err, said)
		}
		return nil
	}
	var said strings.Builder
	s := &streams{in: strings.NewReader(""), out: &said, err: &said, now: demoDay, env: func(string) string { return "" }, version: "0", width: 80}
	if code := run(args, s); code != exitDone {
		return fmt.Errorf("%s: exit code %d: %s", name, code, said.String())
	}
	return nil
}

// two writers at once: both are in, in one order or the other.
func (m *machine) two(rt *rapid.T) {
	names := []string{fmt.Sprintf("w%d", m.writers), fmt.Sprintf("w%d", m.writers+1)}
	m.writers += 2
	alone := rapid.IntRange(1, 4).Draw(rt, "of four, as processes") == 1
	var wait sync.WaitGroup
	failed := make([]error, len(names))
	for i, name := range names {
		wait.Add(1)
		go func() {
			defer wait.Done()
			failed[i] = m.writes(name, alone)
		}()
	}
	wait.Wait()
	require.Equal(rt, []error{nil, nil}, failed)
	is, at := m.read(rt), []int{}
	for _, name := range names {
		require.Equal(rt, 1, strings.Count(is, "pilot "+name+"\n"), is)
		at = append(at, strings.Index(is, "pilot "+name+"\n"))
	}
	require.True(rt, strings.HasPrefix(is, strings.TrimRight(m.now, "\n")))
	between := strings.TrimRight(is[:slices.Max(at)], "\n") + "\n"
	m.before, m.now = append(m.before, m.now, between), is
	m.before = m.before[max(0, len(m.before)-ledger.MaxUndo):]
}

// TestMachine does in any order what people do with a ledger, and holds it to
// the model after each step.
func TestMachine(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		m := &machine{dir: t.TempDir(), now: "pilot ines\nsequence s\n  category intermediate\n  1 K 10\n"}
		require.NoError(rt, os.WriteFile(m.path(), []byte(m.now), 0o644))
		require.NoError(rt, os.WriteFile(filepath.Join(m.dir, "sheet.csv"), []byte("fig;A\n1;7.5\n"), 0o644))
		rt.Repeat(map[string]func(*rapid.T){
			"log": m.log, "import": m.sheet, "tidy": m.tidy, "by hand": m.hand, "undo": m.undo, "undo again": m.undo, "read": m.reads, "two writers": m.two,
		})
	})
}
