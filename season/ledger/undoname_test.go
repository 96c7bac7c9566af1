package ledger

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// A journal is a file beside the ledger: what it says was done is text from
// outside, and passes the gate of all such text.
func TestUndoNamesThroughTheGate(t *testing.T) {
	at := time.Date(2026, 11, 25, 18, 30, 0, 0, time.UTC)
	for command, want := range map[string]string{
		"log: coach dana":        `"log: coach dana" of 2026-11-25 18:30`,
		"log: cost \"fuel\" 12":  `"log: cost "fuel" 12" of 2026-11-25 18:30`,
		"log: \u202enad\x1b[2Jx": "\"log: \\u202enad\uFFFD[2Jx\" of 2026-11-25 18:30",
		"log:\nadded\rover":      "\"log: added over\" of 2026-11-25 18:30",
	} {
		require.Equal(t, want, (&Undoing{Command: command, At: at}).String())
		require.Equal(t, want, keptChange{Command: command, At: at}.String())
	}
}
