package workbook

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The sheet of faults opens with the matters of safety noted, and says of a drill that
// was ended that it was, as the page of faults does.
func TestFaultsSheetSaysSafetyAndEnded(t *testing.T) {
	rows, err := workbookOf(t, load(t, demoLedger), "ines").GetRows("Faults and drills")
	require.NoError(t, err)
	var all []string
	for _, row := range rows {
		all = append(all, strings.Join(row, "|"))
	}
	text := strings.Join(all, "\n")
	assert.Contains(t, text, "Matters of safety noted, which cost no points: loose article in the cockpit (1 of 16 flights), closed 2026-04-11 (nobody named).")
	assert.Contains(t, text, "2026-05-23, ended")
}
