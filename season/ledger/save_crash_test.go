//go:build crash && unix

package ledger

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The crash test: so many processes are killed in a change, so many of them
// where they stop between the temporary file and its new name.
const (
	crashes       = 500
	crashesPaused = 200
)

// TestChangeIsWholeAfterManyCrashes kills process after process in the midst of
// a change of one ledger, of about 1 MB, at any moment: each leaves the ledger
// that was there or the new one, whole. What one leaves lying about the next one
// clears away.
func TestChangeIsWholeAfterManyCrashes(t *testing.T) {
	text := oldText + strings.Repeat("# a line of a long ledger, of some forty bytes\n", 22_000)
	path := newBook(t, text)
	took := changeTime(t, path)
	requireFile(t, path, text+"timed\n")
	text += "timed\n"
	random := rand.New(rand.NewPCG(2026, 11))
	paused := []string{stepOpened, stepWritten, stepSynced}
	killedEarly, kept, renewed, left := 0, 0, 0, map[string]int{}
	for i := range crashes {
		line := "line " + strconv.Itoa(i)
		step := "any moment"
		if i%(crashes/100) < crashesPaused/100 {
			step = paused[random.IntN(len(paused))]
			require.True(t, crashAt(t, path, line, step))
			requireFile(t, path, text)
			require.Len(t, leavings(t, path), 1)
		} else if crashAnywhere(t, path, line, time.Duration(random.Int64N(int64(took*3/2)))) {
			killedEarly++
		}
		raw, err := os.ReadFile(path)
		require.NoError(t, err)
		switch string(raw) {
		case text:
			kept++
		case text + line + "\n":
			text += line + "\n"
			renewed++
		default:
			require.Fail(t, "neither the old nor the new ledger", "crash %d at %s: %d bytes, before %d", i, step, len(raw), len(text))
		}
		left[step] += len(leavings(t, path))
		require.LessOrEqual(t, len(leavings(t, path)), 1)
	}
	t.Logf("a change takes about %s", took)
	t.Logf("%d processes: %d stopped and killed between the temporary file and the rename, %d of %d others killed before their end",
		crashes, crashesPaused, killedEarly, crashes-crashesPaused)
	t.Logf("the ledger was the old one %d times, the new one %d times; temporary files left: %v", kept, renewed, left)
	require.NoError(t, Change(path, appendLine("last"), agree))
	requireFile(t, path, text+"last\n")
	requireAlone(t, filepath.Dir(path), "book.boxbook")
	require.Positive(t, renewed)
	require.Greater(t, killedEarly, crashes/10)
}

// changeTime is how long a process takes from its beginning to its end.
func changeTime(t *testing.T, path string, more ...string) time.Duration {
	t.Helper()
	cmd := child(t, path, "timed", more...)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	awaitLine(t, out, childBegins)
	start := time.Now()
	require.NoError(t, cmd.Wait())
	return time.Since(start)
}

// crashAnywhere kills a process so long after its change begins, and reports
// whether it had not ended by itself.
func crashAnywhere(t *testing.T, path, line string, after time.Duration, more ...string) bool {
	t.Helper()
	cmd := child(t, path, line, more...)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	awaitLine(t, out, childBegins)
	time.Sleep(after)
	return killed(t, cmd)
}
