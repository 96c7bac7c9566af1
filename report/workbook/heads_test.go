package workbook

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"boxbook/report/workbook/xlsx"
)

// headWidth is about how wide a bold word is, in the units of a column's width.
func headWidth(word string) float64 {
	width := 0.0
	for _, r := range word {
		switch {
		case strings.ContainsRune("mwMW", r):
			width += 1.6
		case strings.ContainsRune("iljtfr,", r):
			width += 0.65
		default:
			width += 1.1
		}
	}
	return width
}

func requireApart[R any](t *testing.T, columns []xlsx.Column[R]) {
	t.Helper()
	const gap = 0.8
	for _, c := range columns {
		for _, word := range strings.Fields(c.Title) {
			if !c.Folded {
				require.LessOrEqual(t, headWidth(word)+gap, c.Width, "%s in %q", word, c.Title)
			}
		}
	}
}

// The heads of the page that is read first leave a gap between them.
func TestHeadsOfTheSeasonPageStandApart(t *testing.T) {
	l := load(t, demoLedger)
	c := contentOf(l, of(t, l, "ines"))
	requireApart(t, sized(contestColumns(c)))
	requireApart(t, sized(enteredColumns()))
	requireApart(t, sized(trendColumns()))
}

// What stands beneath a printed page is whole.
func TestLegendsArePrintedWhole(t *testing.T) {
	l := load(t, demoLedger)
	for name, raw := range map[string][]byte{"coach": written(t, l, of(t, l, "ines"), asked{}), "club": clubFile(t, l, 2026)} {
		for i := range open(t, raw).GetSheetList() {
			xml := part(t, raw, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1))
			_, footer, found := strings.Cut(xml, "<oddFooter>")
			require.True(t, found)
			footer, _, _ = strings.Cut(footer, "</oddFooter>")
			require.NotContains(t, footer, "…", name)
		}
	}
}
