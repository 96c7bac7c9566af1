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

// renamed gives every heading, table and column of a document another title.
func renamed(doc report.Document) {
	for i := range doc.Sections {
		doc.Sections[i].Heading = other(doc.Sections[i].Heading)
		for _, block := range doc.Sections[i].Blocks {
			if t, ok := block.(*report.Table); ok {
				renameTable(t)
			}
		}
	}
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

// Whatever headings, titles and the first words of a footer say, the accounts
// have the same formulas in the same cells.
func TestAccountsDoNotGoByTitles(t *testing.T) {
	l := load(t, demoLedger)
	formulas := func(change func(report.Document)) map[string]string {
		a := newAccounts(*yearOf(t, l))
		change(a.doc)
		book := open(t, sheetFile(t, a.sheet()))
		found := map[string]string{}
		for sheet, cells := range book.formulas() {
			for _, cell := range cells {
				found[cell], _ = book.GetCellFormula(sheet, cell)
			}
		}
		return found
	}
	as := formulas(func(report.Document) {})
	require.Greater(t, len(as), 20)
	require.Equal(t, as, formulas(renamed))
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
