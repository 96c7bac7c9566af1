package commands

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// few writes a ledger of one pilot with these flights.
func few(t testing.TB, flights string) string {
	t.Helper()
	figures := "  programme known\n  1 5.2.1.1:17 9.1.1.1:6\n  2 7.4.1.1:10\n  3 1.2.1.1:8 9.1.2.4:10\n  4 8.5.2.1:10 9.4.4.2:5\n"
	text := "pilot ines\n  name \"Ines Halloran\"\nsequence known\n  category sportsman\n" + figures +
		"sequence next\n  category intermediate\n" + figures + flights
	path := filepath.Join(t.TempDir(), "few.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

// spread are flights of a year, a month apart, each of a contest of its own, with
// a fault from the second on and a drill after it.
func spread(year, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest c%d-%d %d-%02d-18..%d-%02d-19\n  panel A B C\n", year, i, year, i+3, year, i+3)
		fmt.Fprintf(&b, "flight %d-%02d-18 ines known\n  contest c%d-%d\n  sequence known\n", year, i+3, year, i)
		rows(&b, i)
		if i > 0 {
			fmt.Fprintf(&b, "  fault 2 radius 2x\n")
		}
	}
	fmt.Fprintf(&b, "drill %d-08-20 ines radius\n", year)
	return b.String()
}

// later are flights of the next category, a month apart.
func later(month, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest later%d 2026-%02d-08..2026-%02d-09\n  panel A B C\n", i, month+i, month+i)
		fmt.Fprintf(&b, "flight 2026-%02d-08 ines known\n  contest later%d\n  sequence next\n", month+i, i)
		rows(&b, i+1)
	}
	return b.String()
}

// together are flights of one contest.
func together(flights int) string {
	var b strings.Builder
	b.WriteString("contest tarn 2026-04-01..2026-04-09\n  panel A B C\n")
	for i := range flights {
		fmt.Fprintf(&b, "flight 2026-04-%02d ines known\n  contest tarn\n  sequence known\n", i+1)
		rows(&b, i)
	}
	return b.String()
}

// rows are the marks of a flight, all others for each.
func rows(b *strings.Builder, i int) {
	grade := func(j, k int) string { return fmt.Sprintf("%g", 5+float64((3*i+5*j+7*k+i*i*j)%8)/2) }
	for figure := 1; figure <= 4; figure++ {
		second := grade(figure, 1)
		if figure == 2 && i == 1 {
			second = "HZ"
		}
		fmt.Fprintf(b, "  %d %s %s %s\n", figure, grade(figure, 0), second, grade(figure, 2))
	}
}

// totals are flights of which only the official total was typed, a month apart
// from a month on, each better than the last.
func totals(month, flights int) string {
	var b strings.Builder
	for i := range flights {
		fmt.Fprintf(&b, "contest c%d 2026-%02d-18..2026-%02d-19\n", i, month+i, month+i)
		fmt.Fprintf(&b, "flight 2026-%02d-18 ines known\n  contest c%d\n  sequence known\n  official %d.%d2 of 660\n", month+i, i, 400+7*i, i)
	}
	return b.String()
}
