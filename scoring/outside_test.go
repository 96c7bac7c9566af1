package scoring

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/data/sources/testkit"
)

// outsideSheet reads a table's sheet of one judge and its printed total.
func outsideSheet(t *testing.T, asked string) (sheet Sheet, total string) {
	t.Helper()
	sheet.Judges = 1
	for part := range strings.SplitSeq(asked, "; ") {
		if printed, ok := strings.CutPrefix(part, "printed "); ok {
			return sheet, printed
		}
		k, marks, _ := strings.Cut(part, ": ")
		kind := Figure
		for _, weighted := range []LineKind{Positioning, Harmony} {
			if rest, ok := strings.CutPrefix(k, weighted.String()+" "); ok {
				kind, k = weighted, rest
			}
		}
		n, err := strconv.Atoi(k)
		require.NoError(t, err)
		sheet.Lines = append(sheet.Lines, row(t, kind, n, marks))
	}
	return sheet, ""
}

// A printed total that differs on a sheet that a source has: what the office did is
// among what would explain it.
func TestOutsideReconciliation(t *testing.T) {
	testkit.Outside(t, "reconcile", func(t *testing.T, c testkit.Check) {
		sheet, total := outsideSheet(t, c.Asked)
		r := reconcile(t, sheet, total)
		if c.Want == "agrees" {
			assert.True(t, r.Agrees, c.Where)
			return
		}
		assert.False(t, r.Agrees)
		assert.Contains(t, briefs(r), c.Want, c.Where)
	})
}
