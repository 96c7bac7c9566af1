package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

const scoredBook = `pilot ines
contest spring 2026-04-18..2026-04-19
  panel  A B
sequence two
  1  K 10  "loop"
  2  K 10  "roll"
`

// A flight added by flags says its score, whether the official total agrees, and the
// contest that was on its day where it names none; one from a sheet does too.
func TestAFlightByFlagsSaysItsScore(t *testing.T) {
	dir, path := ledgerIn(t, scoredBook)
	flight := []string{"log", "flight", "--pilot", "ines", "--programme", "known", "--sequence", "two", "--row", "7 8", "--row", "8 8", "-f", path}
	code, said := typed(t, dir, append(flight, "--date", "2026-04-18", "--contest", "spring", "--official", "155")...)
	require.Zero(t, code, said)
	require.Contains(t, said, "77.50%: 155.00 of 200 points. The official total agrees with the marks.\n")
	require.NotContains(t, said, "No contest is named")
	code, said = typed(t, dir, append(flight, "--date", "2026-04-19", "--panel", "A B")...)
	require.Zero(t, code, said)
	require.Contains(t, said, "No contest is named; spring was on that day: a line `contest spring` in the")
	code, said = typed(t, dir, append(flight, "--date", "2026-04-25", "--panel", "A B")...)
	require.Zero(t, code, said)
	require.Contains(t, said, "77.50%")
	require.NotContains(t, said, "No contest is named")

	sheet := filepath.Join(dir, "sheet.csv")
	require.NoError(t, os.WriteFile(sheet, []byte("fig;A;B\n1;7;8\n2;9;8\n"), 0o600))
	var out bytes.Buffer
	s := readmeStreams(&out)
	s.err = &out
	code = run([]string{"import", sheet, "--write", "--date", "2026-04-18", "--pilot", "ines", "--programme", "free", "--sequence", "two", "--contest", "spring", "-f", path}, s)
	said = out.String()
	require.Zero(t, code, said)
	require.Contains(t, said, "80.00%: 160.00 of 200 points.")
}
