//go:build unix

package ledger

import (
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// keptSteps are the steps of a change with a journal at which a process is
// ended, in their order.
var keptSteps = []string{
	stepLocked, stepOpened, stepWritten, stepSynced,
	"journal " + stepOpened, "journal " + stepWritten, "journal " + stepSynced, "journal " + stepRenamed,
	stepKept, stepRenamed,
}

// TestUndoAfterACrash ends a process at each step of a change: undo then takes
// back that change, if it was made, and the one before.
func TestUndoAfterACrash(t *testing.T) {
	for _, step := range keptSteps {
		t.Run(step, func(t *testing.T) {
			path := newBook(t, oldText)
			require.Empty(t, changed(t, path, path, oldText+"first\n"))
			require.True(t, crashAt(t, path, "lost", step, childKeep+"=yes"), "no crash")
			if step == stepRenamed {
				requireFile(t, path, oldText+"first\nlost\n")
				require.NoError(t, takeBack(path))
			}
			requireFile(t, path, oldText+"first\n")
			require.NoError(t, takeBack(path))
			requireFile(t, path, oldText)
			require.ErrorContains(t, takeBack(path), "nothing to take back")
			require.Empty(t, changed(t, path, path, oldText+"next\n"))
			require.NoError(t, takeBack(path))
			requireFile(t, path, oldText)
			requireAlone(t, filepath.Dir(path), ".book.boxbook.undo", "book.boxbook")
		})
	}
}

// TestACrashOfUndo ends a process at each step of an undo of two files: what it
// did not take back, the next one does, and all of it can be put back.
func TestACrashOfUndo(t *testing.T) {
	for _, step := range []string{
		stepLocked, stepOpened, stepWritten, stepSynced, stepRenamed,
		"journal " + stepOpened, "journal " + stepWritten, "journal " + stepSynced, "journal " + stepRenamed,
		"journal " + stepOpened + again, "journal " + stepWritten + again, "journal " + stepSynced + again, "journal " + stepRenamed + again,
	} {
		t.Run(step, func(t *testing.T) {
			main, part := pair(t, pairHead, "coach marek\n")
			require.Empty(t, changed(t, main, part, "coach dana\n"))
			both(t, main, part)
			require.True(t, crashAt(t, main, "", step, childUndo+"=yes"), "no crash")
			if done := strings.HasSuffix(step, again); !done {
				require.NoError(t, takeBack(main))
			}
			requireFile(t, main, pairHead)
			requireFile(t, part, "coach dana\n")
			require.NoError(t, takeBack(main))
			requireFile(t, part, "coach marek\n")
			require.ErrorContains(t, takeBack(main), "nothing to take back")
			require.NoError(t, putBack(main))
			requireFile(t, part, "coach dana\n")
			require.NoError(t, putBack(main))
			requireFile(t, main, pairHead+"# main\n")
			requireFile(t, part, "coach dana\n# part\n")
			require.ErrorContains(t, putBack(main), "nothing to put back")
		})
	}
}

// TestTwoCrashesInARow ends one process and then another in the midst of a change
// or of an undo: the changes that were made can all be taken back.
func TestTwoCrashesInARow(t *testing.T) {
	crashes := []struct{ step, mode string }{
		{stepKept, childKeep}, {stepRenamed, childKeep}, {stepRenamed, childUndo}, {"journal " + stepRenamed, childUndo},
	}
	for _, first := range crashes {
		for _, second := range crashes {
			path := newBook(t, oldText)
			texts := []string{oldText, oldText + "one\n", oldText + "one\ntwo\n"}
			require.Empty(t, changed(t, path, path, texts[1]))
			require.Empty(t, changed(t, path, path, texts[2]))
			for i, crash := range []struct{ step, mode string }{first, second} {
				require.True(t, crashAt(t, path, "crash "+strconv.Itoa(i), crash.step, crash.mode+"=yes"), "no crash")
				switch is := textOfFile(t, path); {
				case is == texts[len(texts)-2]:
					texts = texts[:len(texts)-1]
				case is != texts[len(texts)-1]:
					texts = append(texts, is)
				}
			}
			for i := len(texts) - 2; i >= 0; i-- {
				require.NoError(t, takeBack(path), "%s, then %s", first, second)
				requireFile(t, path, texts[i])
			}
			require.ErrorContains(t, takeBack(path), "nothing to take back")
		}
	}
}

// TestJournalFromManyProcesses holds that each of the changes of many processes
// at once can be taken back, one after the other.
func TestJournalFromManyProcesses(t *testing.T) {
	path := newBook(t, oldText)
	children := make([]*exec.Cmd, 16)
	for i := range children {
		children[i] = child(t, path, "line", childKeep+"=yes")
		require.NoError(t, children[i].Start())
	}
	for _, cmd := range children {
		require.NoError(t, cmd.Wait())
	}
	for n := len(children); n > 0; n-- {
		requireFile(t, path, oldText+strings.Repeat("line\n", n))
		require.NoError(t, takeBack(path))
	}
	requireFile(t, path, oldText)
}
