package ledger

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// pair writes a ledger of two files, and gives their paths.
func pair(t testing.TB, main, part string) (string, string) {
	t.Helper()
	path := newBook(t, main)
	other := filepath.Join(filepath.Dir(path), "part.boxbook")
	require.NoError(t, os.WriteFile(other, []byte(part), 0o644))
	return path, other
}

const pairHead = "include \"part.boxbook\"\n"

// both changes the two files of a pair by one command.
func both(t testing.TB, main, part string) {
	t.Helper()
	journaled(t, main, "both", func(opts Options) error {
		if err := changeKept(main, opts.Journal, appendLine("# main"), agree); err != nil {
			return err
		}
		return changeKept(part, opts.Journal, appendLine("# part"), agree)
	})
}

// TestUndoOfSeveralFiles holds that the files of one command go back together,
// or none of them.
func TestUndoOfSeveralFiles(t *testing.T) {
	main, part := pair(t, pairHead, "coach marek\n")
	both(t, main, part)
	const mainIs, partIs = pairHead + "# main\n", "coach marek\n# part\n"
	require.NoError(t, os.WriteFile(part, []byte(partIs+"# by hand\n"), 0o644))
	require.ErrorContains(t, takeBack(main), "line 3 is now: # by hand")
	requireFile(t, main, mainIs)
	require.NoError(t, os.WriteFile(part, []byte(partIs), 0o644))

	// One that is changed between the two comes too late to be looked at first.
	u, err := PlanUndo(bookOptions(main))
	require.NoError(t, err)
	err = u.restore(editingDisk{at: main, edit: func() { require.NoError(t, os.WriteFile(part, []byte("coach dana\n"), 0o644)) }}, Watch{})
	require.EqualError(t, err, part+" was changed meanwhile; nothing was taken back")
	requireFile(t, main, mainIs)
	requireFile(t, part, "coach dana\n")

	require.NoError(t, os.WriteFile(part, []byte(partIs), 0o644))
	require.NoError(t, takeBack(main))
	requireFile(t, main, pairHead)
	requireFile(t, part, "coach marek\n")
}

// editingDisk does something right after a file was replaced, as an editor
// might.
type editingDisk struct {
	osDisk
	at   string
	edit func()
}

func (d editingDisk) exchange(one, other string) error {
	err := d.osDisk.exchange(one, other)
	if other == d.at {
		d.edit()
	}
	return err
}

// TestUndoOfHalfACommand holds that of a command that was cut off between two
// files, what it did is taken back, and of an undo that was cut off, the rest.
func TestUndoOfHalfACommand(t *testing.T) {
	for _, half := range []int{0, 1} {
		main, part := pair(t, pairHead, "coach marek\n")
		both(t, main, part)
		back := []string{main, part}[half]
		require.NoError(t, os.WriteFile(back, []byte([]string{pairHead, "coach marek\n"}[half]), 0o644))
		require.NoError(t, takeBack(main))
		requireFile(t, main, pairHead)
		requireFile(t, part, "coach marek\n")
		require.ErrorContains(t, takeBack(main), "nothing to take back")
	}
}

// TestUndoOfWhatWasNotShown holds that a change that was made after the
// difference was shown is not taken back in its place, and not lost.
func TestUndoOfWhatWasNotShown(t *testing.T) {
	path := newBook(t, oldText)
	require.Empty(t, changed(t, path, path, oldText+"pilot yuki\n"))
	u, err := PlanUndo(bookOptions(path))
	require.NoError(t, err)
	require.Empty(t, changed(t, path, path, oldText+"pilot yuki\npilot mara\n"))
	_, err = u.TakeBack(bookOptions(path))
	require.EqualError(t, err, "the ledger was changed meanwhile; nothing was taken back")
	requireFile(t, path, oldText+"pilot yuki\npilot mara\n")
	require.NoError(t, takeBack(path))
	require.NoError(t, takeBack(path))
	requireFile(t, path, oldText)
}

// modelChange is what the model knows of a command: the two texts before and
// after.
type modelChange struct{ before, after [2]string }

// inPlace reports whether a change can be taken back from two texts: refused
// where one of the files it changed has another text.
func (c modelChange) inPlace(now [2]string) (some, refused bool) {
	for i := range now {
		switch {
		case c.before[i] == c.after[i], now[i] == c.before[i]:
		case now[i] == c.after[i]:
			some = true
		default:
			refused = true
		}
	}
	return some, refused
}

// undone gives the texts with the last change of a list that is in place taken
// back, and the changes that are left.
func undone(now [2]string, changes []modelChange) (is [2]string, rest []modelChange, ok bool) {
	for i, c := range slices.Backward(changes) {
		switch some, refused := c.inPlace(now); {
		case refused:
			return now, changes, false
		case some:
			for n := range now {
				if c.before[n] != c.after[n] {
					now[n] = c.before[n]
				}
			}
			return now, changes[:i], true
		}
	}
	return now, changes, false
}

// hastyDisk waits for no disk: what is done is done as soon as other programs can
// see it.
type hastyDisk struct{ osDisk }

func (d hastyDisk) create(path string) (tempFile, error) {
	f, err := d.osDisk.create(path)
	return hastyFile{f}, err
}

func (hastyDisk) openFolder(string) (folder, error) { return hastyFile{}, nil }

type hastyFile struct{ tempFile }

func (hastyFile) Sync() error { return nil }

func (f hastyFile) Close() error {
	if f.tempFile == nil {
		return nil
	}
	return f.tempFile.Close()
}

// TestUndoProperty makes changes of two files in any order, by log, by tidy, by
// hand, and takes them back: the files are at each moment what a list of texts
// says.
func TestUndoProperty(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		now := [2]string{pairHead + "pilot   ines\n", " # no line\ncoach   marek\n"}
		main, part := pair(t, now[0], now[1])
		paths := []string{main, part}
		var changes []modelChange
		read := func() [2]string { return [2]string{textOfFile(t, main), textOfFile(t, part)} }
		keep := func(command string, paths []string, edit func(path, text string) (string, error)) {
			j, err := startJournal(hastyDisk{}, main, lockWait, keptChange{Command: command, At: noon()}, Watch{})
			require.NoError(rt, err)
			for _, path := range paths {
				c := changer{disk: hastyDisk{}, shown: path, wait: lockWait, journal: j}
				require.NoError(rt, c.change(func(text string) (string, error) { return edit(path, text) }, agree))
			}
			j.Close()
			require.Empty(rt, j.Notes())
			if is := read(); is != now {
				changes = append(changes, modelChange{now, is})
				changes = changes[max(0, len(changes)-MaxUndo):]
				now = is
			}
		}
		log := func(rt *rapid.T) {
			n := rapid.IntRange(0, 1).Draw(rt, "file")
			block := rapid.SampledFrom([]string{"coach   dana", "person x\n name \"X\"", "# nothing"}).Draw(rt, "block")
			keep("log", paths[n:n+1], func(_, text string) (string, error) { return Append(text, block), nil })
			require.Contains(rt, now[n], strings.Split(block, "\n")[0])
		}
		tidy := func(*rapid.T) { keep("tidy", paths, Tidy) }
		hand := func(rt *rapid.T) {
			n := rapid.IntRange(0, 1).Draw(rt, "file")
			text := now[n] + "# by hand\n"
			if len(changes) > 0 && rapid.Bool().Draw(rt, "back") {
				c := rapid.SampledFrom(changes).Draw(rt, "to")
				text = c.before[n]
			}
			require.NoError(rt, os.WriteFile(paths[n], []byte(text), 0o644))
			now[n] = text
		}
		undo := func(rt *rapid.T) {
			want, rest, ok := undone(now, changes)
			u, err := PlanUndo(bookOptions(main))
			if err == nil {
				_, err = u.takeBack(hastyDisk{}, bookOptions(main))
			}
			require.Equal(rt, ok, err == nil, "%v", err)
			require.Equal(rt, want, read())
			now, changes = want, rest
		}
		rt.Repeat(map[string]func(*rapid.T){"log": log, "log more": log, "tidy": tidy, "by hand": hand, "undo": undo, "undo again": undo})
	})
}
