package ledger

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data"
	"boxbook/season"
)

// Days ahead are listed each at its place where they are few, and are one line behind
// everything else where they are many; the list itself has each.
func TestDaysAheadAreOneLine(t *testing.T) {
	asOf, ok := season.ParseDate("2026-01-31")
	require.True(t, ok)
	for _, n := range []int{1, aheadListed, aheadListed + 1, 50} {
		text := "pilot ines\n"
		for i := range n {
			text += fmt.Sprintf("\nflight %d-02-01 ines practice\n", 2026+(i+1)%n)
		}
		text += "\nflight 2025-13-01 ines practice\n"
		result, err := Load(Options{Files: Memory{"book.boxbook": text}, Main: "book.boxbook", Builtin: data.Builtin(), AsOf: asOf})
		require.NoError(t, err)
		require.Equal(t, n, result.Diagnostics.Ahead())
		var out strings.Builder
		require.NoError(t, Render(&out, result.Diagnostics))
		said := strings.Count(out.String(), "later than 2026-01-31")
		if n <= aheadListed {
			assert.Equal(t, n, said)
			continue
		}
		assert.Equal(t, 1, said)
		want := fmt.Sprintf("warning: %d dates are later than 2026-01-31, the day that counts as today: from 2026-02-01 (book.boxbook:%d) to %d-02-01 (book.boxbook:%d)\n",
			n, 3+2*(n-1), 2026+n-1, 3+2*(n-2))
		assert.True(t, strings.HasSuffix(out.String(), want), "%s\n%s", want, out.String())
		assert.Contains(t, out.String(), "error: ")
	}
}
