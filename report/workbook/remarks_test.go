package workbook

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
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
