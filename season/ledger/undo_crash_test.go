//go:build crash && unix

package ledger

import (
	"math/rand/v2"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// TestUndoAfterManyCrashes kills process after process in the midst of a change
// of a ledger of about 1 MB with its journal, or in the midst of an undo, at any
// moment: the ledger is always the one before or the one after, and an undo
// gives the very text that was there before the last change.
func TestUndoAfterManyCrashes(t *testing.T) {
	path := newBook(t, oldText+strings.Repeat("# a line of a long ledger, of some forty bytes\n", 22_000))
	texts := []string{textOfFile(t, path)}
	took, tookUndo := changeTime(t, path, childKeep+"=yes"), changeTime(t, path, childUndo+"=yes")
	requireFile(t, path, texts[0])
	changeTime(t, path, childKeep+"=yes")
	texts = append(texts, texts[0]+"timed\n")
	requireFile(t, path, texts[1])
	random := rand.New(rand.NewPCG(2026, 16))
	count := map[string]int{}
	within := func(took time.Duration) time.Duration { return time.Duration(random.Int64N(int64(took * 3 / 2))) }
	for i := range crashes {
		now := texts[len(texts)-1]
		if kind := random.IntN(5); kind < 3 || len(texts) == 1 {
			line := "line " + strconv.Itoa(i)
			count["killed"] += one(crashAnywhere(t, path, line, within(took), childKeep+"=yes"))
			is := textOfFile(t, path)
			require.True(t, is == now || is == now+line+"\n", "neither the old nor the new ledger: crash %d", i)
			if is != now {
				count["changed"]++
				texts = append(texts, is)
				texts = texts[max(0, len(texts)-MaxUndo-1):]
			}
		} else if former := texts[len(texts)-2]; kind == 3 {
			count["killed undo"] += one(crashAnywhere(t, path, "", within(tookUndo), childUndo+"=yes"))
			is := textOfFile(t, path)
			require.True(t, is == now || is == former, "neither the old nor the former ledger: crash %d", i)
			if is != now {
				count["undone by the killed"]++
				texts = texts[:len(texts)-1]
			}
		} else {
			count["undone"]++
			require.NoError(t, takeBack(path), "after crash %d", i)
			require.True(t, textOfFile(t, path) == former, "not the former ledger: after crash %d", i)
			texts = texts[:len(texts)-1]
		}
	}
	t.Logf("a change takes about %s, an undo %s; %v", took, tookUndo, count)
	require.Empty(t, changed(t, path, path, "# the end\n"))
	requireAlone(t, filepath.Dir(path), ".book.boxbook.undo", "book.boxbook")
	require.Greater(t, count["killed"], crashes/10)
	require.Positive(t, count["undone by the killed"])
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
