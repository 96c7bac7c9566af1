package sheetfile_test

import (
	"testing"
	"unicode/utf16"

	"boxbook/report/sheetfile"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestText(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"commas":                     {"fig,A,B\n1,8.5,hz\n", "A1=fig | B1=A | C1=B\nA2=1 | B2=8.5 | C2=hz"},
		"semicolons, decimal commas": {"fig;A;B\r\n1;8,5;hz\r\n", "A1=fig | B1=A | C1=B\nA2=1 | B2=8,5 | C2=hz"},
		"tabs, decimal commas":       {"fig\tA\tB\n1\t8,5\t7,0", "A1=fig | B1=A | C1=B\nA2=1 | B2=8,5 | C2=7,0"},
		"a comma in every line":      {"1;8,5\n2;7,0\n3;6,5\n", "A1=1 | B1=8,5\nA2=2 | B2=7,0\nA3=3 | B3=6,5"},
		"semicolons in notes":        {"fig,A,notes\n1,8.5,low; late\n2,7,high; early\n", "A1=fig | B1=A | C1=notes\nA2=1 | B2=8.5 | C2=low; late\nA3=2 | B3=7 | C3=high; early"},
		"commas in quotes":           {"fig;A;notes\n1;8.5;\"low, late, short\"\n", "A1=fig | B1=A | C1=notes\nA2=1 | B2=8.5 | C2=low, late, short"},
		"a title above":              {"Tarn Valley Open\n\nfig;A;B\n1;8,5;7\n2;8,5;7", "A1=Tarn Valley Open\nA3=fig | B3=A | C3=B\nA4=1 | B4=8,5 | C4=7\nA5=2 | B5=8,5 | C5=7"},
		"the separator told":         {"sep=;\r\nfig;A,B\n1;8\n", "A1=fig | B1=A,B\nA2=1 | B2=8"},
		"a mark at the head":         {"\uFEFFfig,A\n1,8\n", "A1=fig | B1=A\nA2=1 | B2=8"},
		"lines within a cell":        {"fig,A\n1,\"8\n\n9\"\n\n2,7\n", "A1=fig | B1=A\nA2=1 | B2=8\n\n9\nA4=2 | B4=7"},
		"lines as they ended once":   {"fig,A\r1,8\r", "A1=fig | B1=A\nA2=1 | B2=8"},
		"one column":                 {"fig\n1\n", "A1=fig\nA2=1"},
		"empty cells and spaces":     {"fig, A ,,\n\n ,8,\u00a0,x\n", "A1=fig | B1=A\nB3=8 | D3=x"},
		"nothing":                    {"", ""},
	} {
		t.Run(name, func(t *testing.T) {
			g, err := sheetfile.Parse("sheet.csv", "", []byte(c.text))
			require.NoError(t, err)
			assert.Equal(t, c.want, shown(g))
		})
	}
}

// Text of one byte a letter, as spreadsheets of western languages write it.
func TestTextInWindows1252(t *testing.T) {
	g, err := sheetfile.Parse("sheet.csv", "", []byte("\xdcbung;A\r\n1;7\xbd\r\n2;\x966\r\n"))
	require.NoError(t, err)
	assert.Equal(t, "A1=Übung | B1=A\nA2=1 | B2=7½\nA3=2 | B3=–6", shown(g))
	assert.Equal(t, "Windows 1252", g.Encoding)
}

// Cells of a table that was pasted stand where the spaces have them: a cell
// without anything in it stays empty.
func TestTextAlignedBySpaces(t *testing.T) {
	const table = `Tarn Valley Open              page 3

Fig  Description        K    A   B    Mean  Points
1    half Cuban        14  7.0  6.5  6.750  94.500
2    stall turn, half  23       9.0  8.500 195.500
     Positioning       20  HZ   7.5  7.500 150.000
Total                  57 32.5 173.5  88.0`
	g, err := sheetfile.Parse("sheet.txt", "", []byte(table))
	require.NoError(t, err)
	assert.True(t, g.Aligned)
	assert.Equal(t, `A1=Tarn Valley Open | E1=page 3
A3=Fig | B3=Description | C3=K | D3=A | E3=B | F3=Mean | G3=Points
A4=1 | B4=half Cuban | C4=14 | D4=7.0 | E4=6.5 | F4=6.750 | G4=94.500
A5=2 | B5=stall turn, half | C5=23 | E5=9.0 | F5=8.500 | G5=195.500
B6=Positioning | C6=20 | D6=HZ | E6=7.5 | F6=7.500 | G6=150.000
A7=Total | C7=57 | D7=32.5 | E7=173.5 | F7=88.0`, shown(g))
}

// inUTF16 is a text as some programs save it.
func inUTF16(text string, mark bool) []byte {
	var data []byte
	if mark {
		text = "\uFEFF" + text
	}
	for _, unit := range utf16.Encode([]rune(text)) {
		data = append(data, byte(unit), byte(unit>>8))
	}
	return data
}

func TestTextThatIsRefused(t *testing.T) {
	const utf8 = "save it as CSV in UTF-8"
	for name, c := range map[string]struct {
		file, said, hint string
	}{
		"UTF-16":              {string(inUTF16("fig,A\n1,8\n", true)), "sheet.csv is text in UTF-16, which is not read", utf8},
		"UTF-16 without mark": {string(inUTF16("fig,A\n1,8\n", false)), "sheet.csv is text in UTF-16, which is not read", utf8},
		"zero bytes":          {"fig,A\n1,8\x00\n", "sheet.csv is no text: it has zero bytes", utf8},
		"no letters":          {"fig,A\n1,8\n2,pr\xe9\x01\n", "sheet.csv is no text: byte 0x01 in line 3", utf8},
		"no Windows-1252":     {"fig,A\n1,8\n2,pr\xe9\x81\n", "sheet.csv is not text in UTF-8, nor in Windows 1252: line 3", utf8},
		"a quote in a cell":   {"fig,A\n1,8\"\n", "sheet.csv has a quotation mark in the middle of a cell, in line 2", "save it as CSV from a spreadsheet program"},
		"an open quote":       {"fig,A\n1,\"8\n2,7\n", "sheet.csv has quoted text that does not end well, from line 2 on", "save it as CSV from a spreadsheet program"},
		"an old workbook":     {"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1....", "sheet.csv is a workbook of the old kind, or one with a password", "save it as .xlsx without a password, or as CSV"},
		"a PDF":               {"%PDF-1.7", "sheet.csv is a PDF, which has no cells", "paste its text into a file and import that, or type the marks: boxbook log flight"},
		"half a workbook":     {"PK\x03\x04....", "sheet.csv is a damaged workbook: it cannot be unpacked", ""},
	} {
		t.Run(name, func(t *testing.T) {
			g, err := sheetfile.Parse("sheet.csv", "", []byte(c.file))
			var refused *sheetfile.RefusedError
			require.ErrorAs(t, err, &refused)
			assert.Equal(t, c.said, err.Error())
			assert.Equal(t, c.hint, refused.Hint)
			assert.Empty(t, g.Rows)
		})
	}
	_, err := sheetfile.Parse("tarn.XLSX", "", []byte("fig,A\n"))
	assert.EqualError(t, err, "tarn.XLSX is no workbook, though its name says so")
	_, err = sheetfile.Parse("tarn.csv", "Known", []byte("fig,A\n"))
	assert.EqualError(t, err, "tarn.csv is text, which has no sheets to choose from")
	_, err = sheetfile.Load("../../testdata/sheets", "")
	assert.ErrorContains(t, err, "it is a folder, not a sheet")
	_, err = sheetfile.Load("none.csv", "")
	assert.ErrorContains(t, err, "no such file")
}
