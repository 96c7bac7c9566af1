package report

import (
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A word as long as a line of the ledger may be is laid out without copying it
// again for each of its characters: that took seconds, and 1.8 GB. The bound is
// bytes allocated for each byte of the text.
func TestWrappingGrowsWithTheText(t *testing.T) {
	const length, most = 60_000, 200
	for _, text := range []string{strings.Repeat("x", length), strings.Repeat("漢", length/3), strings.Repeat("a ", length/2), strings.Repeat("e\u0301", length/3)} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		lines := wrap(text, 80)
		runtime.ReadMemStats(&after)
		require.NotEmpty(t, lines)
		require.Less(t, int(after.TotalAlloc-before.TotalAlloc)/length, most, "%.4q", text)
	}
}
