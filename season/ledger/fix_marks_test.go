package ledger

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// rowsLedger is a flight of the rows, before a panel.
func rowsLedger(panel string, rows ...string) string {
	text := "pilot ines\nsequence rk\n  category sportsman\n"
	for i := range rows {
		text += "  " + string(rune('1'+i)) + " K 10\n"
	}
	text += "flight 2026-06-27 ines known\n  sequence rk\n  panel " + panel + "\n"
	for i, row := range rows {
		text += "  " + string(rune('1'+i)) + " " + row + "\n"
	}
	return text
}

// fixedRows are the rows as every edit that is offered leaves them.
func fixedRows(t require.TestingT, panel string, rows ...string) []string {
	text := rowsLedger(panel, rows...)
	files, _, err := Fixes(Options{Files: Memory{"a": text}, Main: "a"})
	require.NoError(t, err)
	if len(files) > 0 {
		text = files[0].Fixed
	}
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	lines = lines[len(lines)-len(rows):]
	for i := range lines {
		lines[i] = lines[i][4:]
	}
	return lines
}

// TestMarksAreNotInvented: an edit of marks makes no other number of marks of a row
// than the panel has, and none of what may be a decimal in two pieces.
func TestMarksAreNotInvented(t *testing.T) {
	for _, c := range []struct{ panel, row, fixed, hint string }{
		{"AK BM", "7/10", "7/10", "which is meant: 7, or 7 and 10?"},
		{"AK BM CT", "6.5 HZ 7/10", "6.5 HZ 7/10", "which is meant: 7, or 7 and 10?"},
		{"AK", "7/10", "7/10", "which is meant: 7, or 7 and 10?"},
		{"AK BM", "7 .5", "7 .5", "which is meant: 7.5, or 7 and 0.5?"},
		{"AK", "7 .5", "7 .5", "which is meant: 7.5, or 7 and 0.5?"},
		{"AK BM", "7 ,5", "7 ,5", "which is meant: 7.5, or 7 and 0.5?"},
		{"AK BM", "7.5 .5", "7.5 .5", "write 0.5"},
		{"AK BM", "7. 5", "7. 5", "which is meant: 7.5, or 7 and 5?"},
		{"AK BM", "7. 5.", "7. 5", "which is meant: 7.5, or 7 and 5?"},
		{"AK BM", "7, 5", "7, 5", "which is meant: 7.5, or 7 and 5?"},
		{"AK BM", "7, 5, 8", "7, 5, 8", "put only white space between marks"},
		{"AK BM CT", "7, 5, 8", "7 5 8", "put only white space between marks"},
		{"AK BM", "7 ½", "7 ½", "which is meant: 7.5, or 7 and 0.5?"},
		{"AK BM", "7 1/2", "7 1/2", "which is meant: 7.5, or 7 and 0.5?"},
		{"AK BM CT", "7 8 1/2", "7 8 1/2", "which is meant: 8.5, or 8 and 0.5?"},
		{"AK BM", "7 7/8", "7 7/8", "put only white space between marks"},
		{"AK BM", "7/8", "7 8", "put only white space between marks"},
		{"AK BM CT", "7.5/7.0/6.5", "7.5 7.0 6.5", "put only white space between marks"},
		{"AK BM CT DV", "7/8 7/8", "7 8 7 8", "put only white space between marks"},
		{"AK BM CT", "75 7", "75 7", "7.5?"},
		{"AK BM", "75 7", "7.5 7", "7.5?"},
		{"AK BM", "7 8.", "7 8", "write 8"},
	} {
		result, err := Load(Options{Files: Memory{"a": rowsLedger(c.panel, c.row)}, Main: "a"})
		require.NoError(t, err)
		at := slices.IndexFunc(result.Diagnostics, func(d Diagnostic) bool { return d.Code == badMark || d.Code == gradeHigh })
		require.GreaterOrEqual(t, at, 0, c.row)
		require.Equal(t, c.hint, result.Diagnostics[at].Hint, "%s: %s", c.panel, c.row)
		require.Equal(t, []string{c.fixed}, fixedRows(t, c.panel, c.row), "%s: %s", c.panel, c.row)
	}
	files, _, err := Fixes(Options{Files: Memory{"a": strings.Replace(rowsLedger("AK BM", "8", "7"), "  1 8\n  2 7\n", "  sheet AK 7 7/10\n  sheet BM 7/8\n", 1)}, Main: "a"})
	require.NoError(t, err)
	require.Len(t, files, 1)
	require.Contains(t, files[0].Fixed, "  sheet AK 7 7/10\n  sheet BM 7 8\n")
}

// TestMarksOfFixedRows: whatever slips a row has, edits leave it with as many marks as
// it has words, or make just the panel's number of them; half of a decimal never
// becomes a mark.
func TestMarksOfFixedRows(t *testing.T) {
	words := []string{
		"7", "8", "5", "0", "10", "7.5", "7,5", "HZ", "-", "av", "7.", ".5", ",5", "7,", "5,", "7;", "75", "½", "7½", "1/2", "7/10",
		"7.5/10", "7/8", "7;5", "7.5/7/6.5", "7..5", "O", "7.O", ".", ",", "h", "7%", "7th", "0.", "5.",
	}
	judges := []string{"AK", "BM", "CT", "DV", "EW"}
	rapid.Check(t, func(rt *rapid.T) {
		panel := judges[:rapid.IntRange(1, len(judges)).Draw(rt, "judges")]
		row := rapid.SliceOfN(rapid.SampledFrom(words), 1, 5).Draw(rt, "row")
		fixed := strings.Fields(fixedRows(rt, strings.Join(panel, " "), strings.Join(row, " "))[0])
		if len(fixed) != len(row) && (len(fixed) != len(panel) || len(row) == len(panel)) {
			rt.Fatalf("%q of %d judges became %q", row, len(panel), fixed)
		}
		if len(fixed) != len(row) {
			return
		}
		for i, word := range row {
			half := strings.HasPrefix(word, ".") || strings.HasPrefix(word, ",") && word != "," || word == "½" && i > 0 && len(row[i-1]) == 1 && isNumber(row[i-1]) || word == "1/2"
			parted := strings.HasSuffix(word, ".") && i+1 < len(row) && row[i+1][0] >= '0' && row[i+1][0] <= '9' && word != "."
			if (half || parted) && fixed[i] != word {
				rt.Fatalf("%q became %q", row, fixed)
			}
		}
	})
}
