package sheetfile_test

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"boxbook/report/sheetfile"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// judged is a workbook of ten figures and positioning, a column a judge, after
// a change.
func judged(t *testing.T, change func(f *excelize.File) error) sheetimport.Result {
	f := excelize.NewFile()
	for column, name := range []string{"fig", "AK", "BM", "CT", "mean"} {
		for row := 1; row <= 12; row++ {
			cell := sheetimport.CellName(column+1, row)
			var value any = 8
			switch {
			case row == 1:
				value = name
			case column == 0 && row == 12:
				value = "positioning"
			case column == 0:
				value = row - 1
			}
			require.NoError(t, f.SetCellValue("Sheet1", cell, value))
		}
	}
	require.NoError(t, change(f))
	var b bytes.Buffer
	require.NoError(t, f.Write(&b))
	g, err := sheetfile.Parse("judged.xlsx", "", b.Bytes())
	require.NoError(t, err)
	return recognised(g)
}

// A column or a row that the sheet hides is read like any other.
func TestHiddenJudgesAreRead(t *testing.T) {
	for _, column := range []string{"A", "B", "C", "D", "B:D", "A:E"} {
		r := judged(t, func(f *excelize.File) error { return f.SetColVisible("Sheet1", column, false) })
		assert.Equal(t, []string{"AK", "BM", "CT"}, r.Panel, column)
		assert.Empty(t, r.Problems, column)
	}
	r := judged(t, func(f *excelize.File) error { return f.SetRowVisible("Sheet1", 3, false) })
	assert.Empty(t, r.Problems)
	assert.Len(t, r.Rows[1], 3)
}

// Merged cells leave every judge there or say what is wrong, whatever is merged.
func TestMergedJudgesAreRead(t *testing.T) {
	for left := 1; left <= 4; left++ {
		for right := left + 1; right <= 5; right++ {
			for _, rows := range [][2]int{{1, 1}, {1, 2}, {3, 3}, {1, 12}, {2, 12}} {
				area := fmt.Sprint(sheetimport.CellName(left, rows[0]), ":", sheetimport.CellName(right, rows[1]))
				r := judged(t, func(f *excelize.File) error {
					return f.MergeCell("Sheet1", sheetimport.CellName(left, rows[0]), sheetimport.CellName(right, rows[1]))
				})
				if len(r.Problems) == 0 {
					assert.Len(t, r.Panel, 3, area)
				}
			}
		}
	}
}

// Text with more columns than a sheet has is not cut short.
func TestMoreColumnsThanASheetHas(t *testing.T) {
	_, err := sheetfile.Parse("wide.csv", "", []byte("fig"+strings.Repeat(",", sheetimport.LastColumn)+"AK\n"))
	assert.EqualError(t, err, "wide.csv has more columns than a sheet has, 16384")
}
