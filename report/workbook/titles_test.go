package workbook

import (
	"regexp"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"boxbook/report"
)

// other is a text of the same length that says nothing, so that rows stand where
// they stood.
func other(text string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return 'x'
		}
		return r
	}, text)
}

func renameTable(t *report.Table) {
	t.Title = other(t.Title)
	for i := range t.Columns {
		t.Columns[i].Title = other(t.Columns[i].Title)
	}
	for i := range t.Footer {
		t.Footer[i][0] = report.Text(other(t.Footer[i][0].String()))
	}
}

// The chart of the faults draws the same cells whatever the table's columns are
// called.
func TestFaultsChartDoesNotGoByTitles(t *testing.T) {
	l := load(t, demoLedger)
	c := contentOf(l, of(t, l, "ines"))
	drawn := func(change func(*report.Table)) []string {
		k := kindsOf(c.book.Faults)
		change(k.table)
		chart := part(t, sheetFile(t, faultsSheetOf(c, k)), "xl/charts/chart1.xml")
		return regexp.MustCompile(`<f>[^<]*</f>`).FindAllString(chart, -1)
	}
	as := drawn(func(*report.Table) {})
	require.Len(t, as, 3, "the name, the words and the points")
	require.Equal(t, as, drawn(renameTable))
}
