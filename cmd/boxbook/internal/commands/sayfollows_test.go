package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
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

// A flight is found again whose programme its sequence says, and whose pilot and day
// were typed as people write them: an official total apart and an undecided figure are
// said.
func TestAFlightByFlagsIsFoundByWhatTheyImply(t *testing.T) {
	book := strings.Replace(scoredBook, "pilot ines\n", "pilot ines\n  name \"Ines Corvo\"\n", 1) +
		"sequence known-26\n  programme known\n  1 K 10\n  2 K 10\n"
	dir, path := ledgerIn(t, book)
	flight := []string{"log", "flight", "--sequence", "known-26", "--contest", "spring", "-f", path}
	code, said := typed(t, dir, append(flight, "--date", "18.4.2026", "--pilot", "Ines Corvo", "--row", "7 8", "--row", "8 8", "--official", "150")...)
	require.Zero(t, code, said)
	require.Contains(t, said, "is 5.00 less than the marks as typed come to")
	code, said = typed(t, dir, append(flight, "--date", "2026-04-19", "--pilot", "ines", "--row", "HZ 8", "--row", "8 8")...)
	require.Zero(t, code, said)
	require.Contains(t, said, "Undecided: ")
	require.Contains(t, said, "`resolve 1 zero` or `resolve 1 fill`")
}

// A printed result and a penalty that come later say what they make of the score.
func TestALaterLineSaysTheScore(t *testing.T) {
	dir, path := ledgerIn(t, scoredBook+"flight 2026-04-18 ines known\n  contest spring\n  sequence two\n  1 7 8\n  2 8 8\n")
	code, said := typed(t, dir, "log", "penalty", "--flight", "last", "--penalty", "low 5", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "75.00%: 150.00 of 200 points, after 5 for low.")
	code, said = typed(t, dir, "log", "official", "--flight", "2026-04-18", "--official", "153", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "The official total, 153")
	require.Contains(t, said, "is 3.00 more than the marks as typed come to")
	code, said = typed(t, dir, "log", "penalty", "--flight", "last", "--penalty", "low 2.5", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "after 5 for low and 2.5 for low")
}

// A slip in changing an answer that stands on the line does not lose it: Enter still
// takes the one before.
func TestASlipKeepsTheAnswerBefore(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "contest", "--dates", "2026-06-20")
	k.answer("a short name", "redbank")
	k.answer("its full name", "Redbank")
	k.answer("its site", "Redbank")
	k.answer("the last day to enter", "2026-06-05")
	k.answer("its ladder", "back")
	k.answer("the last day to enter", "2026-06-31")
	k.answer("the last day to enter", "")
	k.answer("its ladder", "")
	k.answer("its rule style", "")
	k.answer("its judges", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "2026-06-05")
}

// A year's result is said before it is written as the page of the year says it.
func TestAResultIsSaidAsTheYearHasIt(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\nincome 2025-03-01 sponsorship 1300.00 EUR\ncost 2025-04-01 hall-hire 3000.00 EUR for club\n")
	code, said := typed(t, dir, "log", "agreed", "--year", "2025", "--amount", "-1700 EUR", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "the lines of 2025 come to a loss of 1,700.00 EUR, as agreed\n")
	code, said = typed(t, dir, "year", "2025", "-f", path)
	require.Zero(t, code, said)
	require.Contains(t, said, "agreed")
}
