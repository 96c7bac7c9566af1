package commands

import (
	"encoding/csv"
	"fmt"
	"math/big"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// halves is a ledger whose numbers end in 5 where they are cut: of two figures
// with four judges each the mean is 6.625, the percent 66.875 or 66.25, and the
// fields' totals lie between cents.
func halves(t *testing.T) string {
	t.Helper()
	var b strings.Builder
	for month := 3; month < 11; month++ {
		fmt.Fprintf(&b, "contest c%d 2026-%02d-18..2026-%02d-19\n  panel A B C D\n", month, month, month)
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  contest c%d\n  sequence even\n", month, month)
		b.WriteString("  1 6.5 6.5 6.5 7\n  2 6.5 7 6.5 6.5\n")
		fmt.Fprintf(&b, "  3 6.5 6.5 7 %g\n  4 6 6.5 6 6.5\n", 6.5+float64(month%2)/2)
		fmt.Fprintf(&b, "  field 280.125 270.005 260.125 250.375\n  fault 1 line-angle %ddeg\n", 5*(month%3+1))
	}
	b.WriteString("cost 2026-04-18 entry 12.25 EUR for club by ines\n")
	b.WriteString("drill 2026-07-01 ines line-angle\n")
	return few(t, "sequence even\n  category sportsman\n  programme known\n  1 1.1.1.1:10\n  2 7.4.1.1:10\n  3 5.2.1.1:10\n  4 9.1.1.1:10\n"+b.String())
}

// TestOneRoundingInEveryFormat holds what text and markdown print to the exact
// numbers of JSON, and the page's main table to those of csv, cell by cell, where
// they lie half way as elsewhere; amounts of money, a year's main table, never do.
func TestOneRoundingInEveryFormat(t *testing.T) {
	path := halves(t)
	cells, half := 0, map[string]int{}
	for _, args := range [][]string{
		ines("season", "--all"), ines("families", "--all"), ines("faults", "--all"), ines("drills"), ines("panel", "--all"), ines("plan"), ines("ready"),
		ines("forecast", "even"),
		{"flight", "2026-05-18/ines/known"},
		{"flight", "2026-06-18/ines/known"},
		{"year", "2026", "--all"},
	} {
		asked := append(slices.Clone(args), "-f", path)
		caution := map[string]string{"faults": faultsFoot, "drills": drillsFoot, "plan": planFoot, "ready": readyFoot, "forecast": forecastFoot}
		holdScreen(t, screen{args, caution[args[0]]}, asked)
		exact, err := csv.NewReader(strings.NewReader(screenOf(t, 80, append(slices.Clone(asked), "--format", "csv")...))).ReadAll()
		require.NoError(t, err, "%v: one table", args)
		markdown := screenOf(t, 80, append(slices.Clone(asked), "--format", "markdown")...)
		printed := markdownTables(markdown)
		text := flatLines(screenOf(t, 240, asked...))
		if args[0] == "plan" || args[0] == "ready" {
			continue // their tables are for programs alone
		}
		cells += holdCells(t, args, exact, printed[0], half)
		for i := range printed {
			for _, row := range printed[i][1:] {
				line := strings.Join(strings.Fields(strings.Join(row, " ")), " ")
				assert.Contains(t, text, line, "%v: the text has no such row", args)
			}
		}
	}
	assert.Greater(t, cells, 150)
	for _, page := range []string{"season", "families", "flight", "panel"} {
		assert.Positive(t, half[page], "no number of %s lies half way", page)
	}
}

// markdownMark is what stands behind a number for a note.
var markdownMark = regexp.MustCompile(`(\\\*|\*|°|\^|~|=|\?)+$`)

// holdCells holds the cells of a table as printed to the exact ones, and counts
// those that lie half way.
func holdCells(t *testing.T, args []string, exact, printed [][]string, half map[string]int) int {
	t.Helper()
	cells := 0
	require.LessOrEqual(t, len(exact), len(printed), args)
	for r := range exact { // a foot has sums, which csv leaves to its reader
		for c, said := range printed[r] {
			want := exact[r][c]
			number, ok := new(big.Rat).SetString(want)
			said = strings.TrimLeft(markdownMark.ReplaceAllString(said, ""), "+")
			if _, numeric := new(big.Rat).SetString(said); !ok || !numeric {
				continue
			}
			cells++
			_, fraction, _ := strings.Cut(said, ".")
			assert.Equal(t, number.FloatString(len(fraction)), said, "%v, %v, column %s", args, exact[r][:2], exact[0][c])
			scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(fraction))), nil))
			if doubled := scale.Mul(scale, number); !doubled.IsInt() && doubled.Mul(doubled, big.NewRat(2, 1)).IsInt() {
				half[args[0]]++
			}
		}
	}
	return cells
}

// markdownTables are the tables of a page's markdown, their titles first.
func markdownTables(raw string) [][][]string {
	var tables [][][]string
	inside := false
	for _, line := range strings.Split(raw, "\n") {
		if !strings.HasPrefix(line, "| ") {
			inside = false
			continue
		}
		if !inside {
			tables = append(tables, nil)
		}
		inside = true
		if strings.HasPrefix(line, "| :") || strings.HasPrefix(line, "| --") {
			continue
		}
		var row []string
		for _, cell := range strings.Split(strings.Trim(line, "|"), "|") {
			row = append(row, strings.ReplaceAll(strings.TrimSpace(cell), `\`, ""))
		}
		tables[len(tables)-1] = append(tables[len(tables)-1], row)
	}
	return tables
}

// flatLines are the lines of a page with one blank between words, without bars.
func flatLines(text string) string {
	var lines []string
	for _, line := range strings.Split(text, "\n") {
		lines = append(lines, strings.Join(strings.Fields(regexp.MustCompile(`[█▏▎▍▌▋▊▉▁-▇·]+`).ReplaceAllString(line, " ")), " "))
	}
	return strings.Join(lines, "\n")
}
