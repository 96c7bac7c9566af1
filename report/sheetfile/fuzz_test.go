package sheetfile_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"boxbook/report/sheetfile"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// FuzzImportCSV holds what is true of any bytes whatever: they are refused in a
// sentence, or they are a grid in order whose cells hold something, from which
// marks can be looked for; and both twice alike.
func FuzzImportCSV(f *testing.F) {
	samples, err := filepath.Glob("../../testdata/sheets/*.?sv")
	require.NoError(f, err)
	require.NotEmpty(f, samples)
	for _, path := range samples {
		data, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(data)
	}
	f.Add(inUTF16("fig;A\n1;8,5\n", true))
	f.Add([]byte("sep=;\nfig;A\n1;\"8\n5\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) { checkBytes(t, data) })
}

// FuzzImportWorkbook does the same for the cells of a workbook.
func FuzzImportWorkbook(f *testing.F) {
	f.Add(`<row r="3"><c r="B3" t="s"><f>A1</f><v>1</v></c><c t="inlineStr"><is><t>hz</t></is></c><c s="1"><v>46150</v></c></row>`, `<mergeCells><mergeCell ref="A1:B2"/></mergeCells>`)
	f.Fuzz(func(t *testing.T, rows, after string) {
		parts := sheetBook(rows, after)
		parts["xl/sharedStrings.xml"] = "<sst><si><t>fig</t></si><si><t>A</t></si></sst>"
		parts["xl/styles.xml"] = `<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>`
		checkBytes(t, packed(t, parts))
	})
}

func checkBytes(t *testing.T, data []byte) {
	t.Helper()
	g, err := sheetfile.Parse("sheet", "", data)
	again, errAgain := sheetfile.Parse("sheet", "", data)
	require.Equal(t, g, again)
	require.Equal(t, err, errAgain)
	if err != nil {
		var refused *sheetfile.RefusedError
		var choice *sheetfile.ChoiceError
		require.True(t, errors.As(err, &refused) || errors.As(err, &choice), "%v", err)
		assert.NotContains(t, err.Error(), "\n")
		return
	}
	row := 0
	for _, r := range g.Rows {
		require.Greater(t, r.Number, row)
		row = r.Number
		require.NotEmpty(t, r.Cells)
		column := 0
		for _, c := range r.Cells {
			require.Greater(t, c.Column, column)
			require.LessOrEqual(t, c.Column, sheetimport.LastColumn)
			column = c.Column
			require.NotEqual(t, sheetimport.Empty, c.Kind)
		}
	}
	recognised(g)
}
