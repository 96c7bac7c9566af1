//go:build unix

package lsp

import (
	"os"
	"path/filepath"
	"runtime/debug"
	"strings"
	"syscall"
	"testing"
	"time"

	"boxbook/season/testkit/longledger"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// mostWait is how long an editor may wait for an answer, right after a letter was
// typed, on a ledger of thirty seasons; the test's bound is loose, for machines
// that are slow or busy, and the times themselves, the processor's, the best of
// several, are in its log.
const (
	mostWait = 50 * time.Millisecond
	loose    = 4
)

// spent is the processor's time that the process has used.
func spent(t *testing.T) time.Duration {
	t.Helper()
	var usage syscall.Rusage
	require.NoError(t, syscall.Getrusage(syscall.RUSAGE_SELF, &usage))
	return time.Duration(usage.Utime.Nano() + usage.Stime.Nano())
}

// TestAnswersComeAtOnce asks everything of a ledger of thirty seasons, each time
// after a letter was typed; the best of several counts.
func TestAnswersComeAtOnce(t *testing.T) {
	if testing.Short() || raceDetector {
		t.Skip("measures time")
	}
	dir, err := filepath.EvalSymlinks(t.TempDir())
	require.NoError(t, err)
	path, text := filepath.Join(dir, "long.boxbook"), longledger.Text(longledger.Thirty())
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	defer debug.SetGCPercent(debug.SetGCPercent(400)) // as the program has it
	opts := testOptions()
	opts.Settle = time.Hour // the diagnostics are asked for beside the answers
	c := connect(t, dir, opts)
	c.open(path, text)
	last := strings.LastIndex(text, "\nflight ") + 1
	flight := position{strings.Count(text[:last], "\n"), 8}
	pilot, drill := strings.Index(text, "\npilot p1")+1, strings.LastIndex(text, "\ndrill ")+1
	asked := []struct {
		method string
		params map[string]any
	}{
		{"textDocument/completion", at(path, position{flight.Line, 19})},
		{"textDocument/hover", at(path, flight)},
		{"textDocument/hover", at(path, position{flight.Line + 3, 3})},
		{"textDocument/hover", at(path, position{strings.Count(text[:drill], "\n"), 2})},
		{"textDocument/definition", at(path, position{flight.Line, 20})},
		{"textDocument/references", at(path, position{flight.Line, 20})},
		{"textDocument/rename", at(path, position{strings.Count(text[:pilot], "\n"), 7})},
		{"textDocument/documentSymbol", of(path)},
		{"textDocument/foldingRange", of(path)},
		{"textDocument/formatting", of(path)},
		{"textDocument/codeAction", of(path)},
		{"textDocument/inlayHint", of(path)},
	}
	for n, a := range asked {
		switch a.method {
		case "textDocument/rename":
			a.params["newName"] = "somebody"
		case "textDocument/codeAction", "textDocument/inlayHint":
			a.params["range"] = rng{position{flight.Line - 60, 0}, position{flight.Line, 0}}
		}
		best := time.Hour
		for i := range 5 {
			c.change(path, text+strings.Repeat("\n", i+1), 10*n+i+2)
			start := spent(t)
			raw, err := c.call(a.method, a.params)
			best = min(best, spent(t)-start)
			require.NoError(t, err, a.method)
			require.True(t, len(raw) > len("null") || a.method == "textDocument/codeAction" || a.method == "textDocument/formatting", a.method)
		}
		t.Logf("%-30s %6.1f ms", a.method, float64(best.Microseconds())/1000)
		assert.Less(t, best, loose*mostWait, a.method)
	}
	require.NoError(t, c.leave())
}
