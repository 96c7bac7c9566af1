package commands

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestATotalAloneIsExplained says at logging, in check and in the season that a printed
// total without a maximum has no percent.
func TestATotalAloneIsExplained(t *testing.T) {
	dir, _ := ledgerIn(t, twoFigures)
	const says = "the official total 500 has no maximum, so no percent"
	code, said := typed(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "free", "--category", "advanced", "--official", "500")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, said, says)
	require.Contains(t, said, "add `of MAXIMUM` behind it")
	code, said = typed(t, dir, "check")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, said, says)
	code, said = typed(t, dir, "season")
	require.Equal(t, exitDone, code, said)
	require.Contains(t, strings.Join(strings.Fields(said), " "), "- 2026-04-18/ines/free: without a maximum the printed total has no percent, and does not count")
}

// TestASeasonForProgramsSaysTheSource has a column for what the asterisk says to people.
func TestASeasonForProgramsSaysTheSource(t *testing.T) {
	dir, _ := ledgerIn(t, springFlown)
	code, said := typed(t, dir, "season", "--format", "csv")
	require.Equal(t, exitDone, code, said)
	lines := strings.Split(strings.TrimSpace(said), "\n")
	require.True(t, strings.HasSuffix(lines[0], ",to median,sequence,source"), said)
	require.True(t, strings.HasSuffix(lines[1], ",computed"), said)
	code, said = typed(t, dir, "log", "official", "--flight", "last", "--official", "160")
	require.Equal(t, exitDone, code, said)
	_, said = typed(t, dir, "season", "--format", "csv")
	require.Contains(t, said, ",official\n")
}
