package workbook

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/words"
	"boxbook/season"
)

// Every fault, note and review of the season stands on the sheet Remarks, each
// with what it is beside: the words of the coach are in the workbook.
func TestEveryRemarkIsOnTheSheet(t *testing.T) {
	l := load(t, demoLedger)
	book := workbookOf(t, l, "ines")
	rows, err := book.GetRows("Remarks")
	require.NoError(t, err)
	said := func(column int, text string) bool {
		return slices.ContainsFunc(rows, func(row []string) bool { return column < len(row) && row[column] == text })
	}
	faults, notes := 0, 0
	for _, f := range l.Select(of(t, l, "ines")) {
		for _, fault := range f.Faults {
			faults++
			assert.True(t, said(5, fault.Kind.Name), fault.Kind.Name)
			if fault.Remark != "" {
				assert.True(t, said(14, fault.Remark), fault.Remark)
			}
			if fault.At != nil {
				assert.True(t, said(12, fault.At.String()), fault.At)
			}
		}
		texts := slices.Clone(f.Notes)
		for _, r := range f.Reviewed {
			texts = append(texts, r.Notes...)
		}
		for _, text := range texts {
			notes++
			assert.True(t, said(14, text), text)
		}
	}
	require.Greater(t, faults, 40)
	require.Greater(t, notes, 5)
	require.Len(t, rows, 1+faults+notes)
}

// A sheet without a row prints no page: its heading alone would take one.
func TestSheetsWithoutRowsPrintNoPage(t *testing.T) {
	printed := func(l *season.Ledger, sheet string) string {
		for _, name := range workbookOf(t, l, "ines").GetDefinedName() {
			if name.Name == "_xlnm.Print_Area" && name.Scope == sheet {
				return name.RefersTo
			}
		}
		return ""
	}
	marked := fewFlights(t, 3, false)
	assert.NotContains(t, printed(marked, words.RemarksSheet), "$A$1")
	assert.Contains(t, printed(marked, words.GradesSheet), "$A$1")
	totals := filepath.Join(t.TempDir(), "totals.boxbook")
	require.NoError(t, os.WriteFile(totals, []byte("pilot ines\nflight 2026-04-18 ines known\n  category sportsman\n  official 70 of 100\n  note \"wind\"\n"), 0o600))
	l := load(t, totals)
	assert.NotContains(t, printed(l, words.GradesSheet), "$A$1")
	assert.Contains(t, printed(l, words.RemarksSheet), "$A$1")
}
