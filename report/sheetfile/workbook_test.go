package sheetfile_test

import (
	"archive/zip"
	"bytes"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"boxbook/report/sheetfile"
	"boxbook/season/sheetimport"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// kindNames are how shown names the kinds of cells; numbers and text stand as
// they are.
var kindNames = map[sheetimport.Kind]string{
	sheetimport.Date: "date ", sheetimport.Truth: "truth ", sheetimport.Failure: "failure ", sheetimport.Unsolved: "unsolved", sheetimport.Number: "number ",
}

// shown is a grid as text, a cell a word: B7=8.5.
func shown(g sheetimport.Grid) string {
	var rows []string
	for _, row := range g.Rows {
		var cells []string
		for _, c := range row.Cells {
			formula := ""
			if c.Formula {
				formula = "formula "
			}
			cells = append(cells, fmt.Sprintf("%s=%s%s%s", sheetimport.CellName(c.Column, row.Number), formula, kindNames[c.Kind], c.Text))
		}
		rows = append(rows, strings.Join(cells, " | "))
	}
	return strings.Join(rows, "\n")
}

// The sample that LibreOffice wrote, and the same as a library wrote it that
// does not calculate.
func TestWorkbooksOfOtherPrograms(t *testing.T) {
	g, err := sheetfile.Load("../../testdata/sheets/tarn.xlsx", "Known")
	require.NoError(t, err)
	assert.Equal(t, "Known", g.Name)
	assert.Equal(t, []sheetimport.Area{{Left: 1, Top: 1, Right: 8, Bottom: 1}}, g.Merged)
	assert.Equal(t, strings.TrimSpace(`
A1=Tarn Valley Open, Known, Ines Halloran
A3=Fig | B3=Figure | C3=K | D3=Judge AK | E3=Judge BM | F3=Judge DW | G3=Mean | H3=Notes
A4=number 1 | B4=half Cuban | C4=number 14 | D4=number 7.5 | E4=number 8 | F4=hz | G4=formula number 7.75 | H4=line short
A5=number 2 | B5=stall turn, quarter roll up | C5=number 23 | D5=AV | E5=number 7 | F5=number 6.5 | G5=formula number 6.75
A6=number 3 | B6=rolling turn | C6=number 14 | D6=number 6.5 | E6=formula number 6 | F6=number 7 | G6=formula number 6.5
A7=number 4 | B7=unlabelled | C7=number 9 | D7=number 8 | E7=number 8 | F7=- | G7=formula number 8
A8=Positioning | C8=number 20 | D8=number 8 | E8=number 7.5 | F8=number 8 | G8=formula number 7.83333333333333
A9=Total | D9=formula number 30 | E9=formula number 36.5 | F9=formula number 21.5`), shown(g))

	g, err = sheetfile.Load("../../testdata/sheets/tarn.xlsx", "Slips")
	require.NoError(t, err)
	assert.Contains(t, shown(g), "C3=date 2026-05-08 |")
	assert.Contains(t, shown(g), "D7=formula truth TRUE | E7=formula failure #DIV/0!")

	g, err = sheetfile.Load("../../testdata/sheets/uncalculated.xlsx", "Known")
	require.NoError(t, err)
	assert.Contains(t, shown(g), "E6=formula unsolved |")

	g, err = sheetfile.Load("../../testdata/sheets/tarn.xlsx", "Rates")
	require.NoError(t, err, "a hidden sheet can be asked for by name")
	assert.Equal(t, "A1=number 1", shown(g))
}

// A hidden sheet beside the only one that shows is named with it, where nobody named a sheet.
func TestAHiddenSheetBeside(t *testing.T) {
	f := excelize.NewFile()
	defer func() { require.NoError(t, f.Close()) }()
	_, err := f.NewSheet("calc")
	require.NoError(t, err)
	require.NoError(t, f.SetCellValue("Sheet1", "A1", 1))
	require.NoError(t, f.SetSheetVisible("calc", false))
	path := filepath.Join(t.TempDir(), "book.xlsx")
	require.NoError(t, f.SaveAs(path))
	grids, err := sheetfile.LoadAll(path)
	require.NoError(t, err)
	require.Len(t, grids, 1)
	assert.Equal(t, []string{"calc"}, grids[0].Beside)
	g, err := sheetfile.Load(path, "Sheet1")
	require.NoError(t, err)
	assert.Empty(t, g.Beside)
}

func TestWhichSheet(t *testing.T) {
	_, err := sheetfile.Load("../../testdata/sheets/tarn.xlsx", "")
	assert.EqualError(t, err, `../../testdata/sheets/tarn.xlsx has several sheets: "Known", "Slips", "Long"`)
	_, err = sheetfile.Load("../../testdata/sheets/tarn.xlsx", "known")
	assert.EqualError(t, err, `../../testdata/sheets/tarn.xlsx has no sheet "known", it has "Known", "Slips", "Long"`)
	_, err = sheetfile.Parse("book", "", packed(t, sheetBook("", "")))
	assert.NoError(t, err, "the only sheet needs no name")
}

// Every type of cell, as another library writes them.
func TestCellsOfALibrary(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	put := func(cell string, value any) { require.NoError(t, f.SetCellValue("Sheet1", cell, value)) }
	put("A1", "  figure ")
	put("C1", 8.699999999999999289)
	put("D1", 8)
	put("E1", true)
	put("F1", time.Date(2026, 5, 8, 12, 0, 0, 0, time.UTC))
	put("A3", 1e20)
	require.NoError(t, f.SetCellFormula("Sheet1", "B3", "1+1"))
	require.NoError(t, f.SetCellRichText("Sheet1", "C3", []excelize.RichTextRun{{Text: "half "}, {Text: "Cuban"}}))
	put("D3", strings.Repeat("é", 300))
	own := `dd"th" mmm`
	number := `0.0" days"`
	for cell, format := range map[string]*string{"E3": &own, "F3": &number} {
		style, err := f.NewStyle(&excelize.Style{CustomNumFmt: format})
		require.NoError(t, err)
		put(cell, 8.5)
		require.NoError(t, f.SetCellStyle("Sheet1", cell, cell, style))
	}
	var out bytes.Buffer
	require.NoError(t, f.Write(&out))
	g, err := sheetfile.Parse("book.xlsx", "", out.Bytes())
	require.NoError(t, err)
	assert.Equal(t, "A1=figure | C1=number 8.7 | D1=number 8 | E1=truth TRUE | F1=date 2026-05-08\n"+
		"A3=number 1e+20 | B3=formula unsolved | C3=half Cuban | D3="+strings.Repeat("é", 200)+"… | E3=date 8.5 | F3=number 8.5", shown(g))
}

// What programs write that cells by hand seldom show.
func TestCellsByHand(t *testing.T) {
	const cells = `<row><c><v>1</v></c><c t="s"><v>1</v></c><c t="s"><v>9</v></c><c t="s"/></row>
<row r="4"><c r="C4" t="str"><f>A1&amp;"x"</f><v>hz</v></c><c t="str"><f>""</f><v></v></c><c t="inlineStr"><is><r><t>half </t></r><r><t>Cuban</t></r></is></c>
<c t="e"><v>#N/A</v></c><c t="b"><v>0</v></c><c t="d"><v>2026-05-08T00:00:00Z</v></c><c><f>1</f><v/></c><c s="1"><v>46150</v></c><c s="1"><v>8.5</v></c><c s="9"><v>8.5</v></c><c><v>abc</v></c></row>
<row r="7"><c r="B7"><v>2</v></c><c r="A7"><v>1</v></c><extLst><ext><row r="99"><c r="A99"><v>9</v></c></row></ext></extLst></row>`
	parts := sheetBook(cells, `<mergeCells><mergeCell ref="B7:A8"/></mergeCells>`)
	parts["xl/sharedStrings.xml"] = `<sst><si><t>zero</t></si><si><r><t>figure</t></r><rPh sb="0" eb="1"><t>reading</t></rPh></si></sst>`
	parts["xl/styles.xml"] = `<styleSheet><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="16"/></cellXfs></styleSheet>`
	g, err := sheetfile.Parse("book.xlsx", "", packed(t, parts))
	require.NoError(t, err)
	assert.Equal(t, "A1=number 1 | B1=figure | C1=failure a text that the workbook does not have\n"+
		"C4=formula hz | E4=half Cuban | F4=failure #N/A | G4=truth FALSE | H4=date 2026-05-08 | I4=formula unsolved | J4=date 2026-05-08 | K4=date 8.5 | L4=number 8.5 | M4=abc\n"+
		"A7=number 1 | B7=number 2", shown(g))
	assert.Equal(t, []sheetimport.Area{{Left: 1, Top: 7, Right: 2, Bottom: 8}}, g.Merged)

	parts["xl/workbook.xml"] = strings.Replace(parts["xl/workbook.xml"], "<sheets>", `<workbookPr date1904="1"/><sheets>`, 1)
	g, err = sheetfile.Parse("book.xlsx", "", packed(t, parts))
	require.NoError(t, err)
	// [derived]: 46150 days from 1904-01-01 are 1462 days later.
	assert.Contains(t, shown(g), "J4=date 2030-05-09")
}

// sheetBook is a workbook of one sheet, by part; rows are the inside of its
// sheetData, after what follows that.
func sheetBook(rows, after string) map[string]string {
	const kind = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
	return map[string]string{
		"_rels/.rels":                `<Relationships><Relationship Id="a" Type="` + kind + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml":            `<workbook xmlns:r="r"><sheets><sheet name="Marks" sheetId="1" r:id="s"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": `<Relationships><Relationship Id="s" Type="` + kind + `worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="t" Type="` + kind + `sharedStrings" Target="/xl/sharedStrings.xml"/><Relationship Id="u" Type="` + kind + `styles" Target="styles.xml"/></Relationships>`,
		"xl/worksheets/sheet1.xml":   "<worksheet><sheetData>" + rows + "</sheetData>" + after + "</worksheet>",
	}
}

// packed packs parts into a file.
func packed(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var out bytes.Buffer
	z := zip.NewWriter(&out)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		w, err := z.Create(name)
		require.NoError(t, err)
		_, err = w.Write([]byte(parts[name]))
		require.NoError(t, err)
	}
	require.NoError(t, z.Close())
	return out.Bytes()
}

func TestDamagedWorkbooks(t *testing.T) {
	for name, c := range map[string]struct {
		parts map[string]string
		said  string
	}{
		"rows backwards":       {sheetBook(`<row r="2"/><row r="1"/>`, ""), "book is a damaged workbook: its rows are out of order"},
		"a row beyond the end": {sheetBook(`<row r="1048577"/>`, ""), "book is a damaged workbook: it has a row beyond the last one"},
		"no row number":        {sheetBook(`<row r="x"/>`, ""), "book is a damaged workbook: its rows are out of order"},
		"a cell twice":         {sheetBook(`<row><c r="B1"><v>1</v></c><c r="B1"><v>2</v></c></row>`, ""), "book is a damaged workbook: it has the cell B1 twice"},
		"a cell elsewhere":     {sheetBook(`<row r="2"><c r="B1"><v>1</v></c></row>`, ""), `book is a damaged workbook: a cell of row 2 is called "B1"`},
		"a column too far":     {sheetBook(`<row><c r="XFE1"><v>1</v></c></row>`, ""), `book is a damaged workbook: a cell of row 1 is called "XFE1"`},
		"too many in a row":    {sheetBook(`<row><c r="XFD1"><v>1</v></c><c><v>1</v></c></row>`, ""), "book is a damaged workbook: row 1 has more cells than a sheet has columns"},
		"a merge of nothing":   {sheetBook("", `<mergeCells><mergeCell ref="B7"/></mergeCells>`), `book is a damaged workbook: "B7" names no merged cells`},
		"broken tags":          {sheetBook("<row><c>", ""), "book is a damaged workbook: its parts cannot be read"},
		"cut off":              {map[string]string{"_rels/.rels": "<Relationships>"}, "book is a damaged workbook: its parts cannot be read"},
		"another program's":    {map[string]string{"mimetype": "application/vnd.oasis.opendocument.spreadsheet", "content.xml": "<x/>"}, "book is no xlsx workbook, though it is packed like one"},
		"no sheets":            {without(sheetBook("", ""), "xl/_rels/workbook.xml.rels"), "book has no sheet of cells"},
		"the sheet is missing": {without(sheetBook("", ""), "xl/worksheets/sheet1.xml"), `book is a damaged workbook: the sheet "Marks" is not in it`},
		"a link outside": {map[string]string{
			"_rels/.rels": `<Relationships><Relationship Id="a" Type="x/officeDocument" Target="../../../etc/passwd"/></Relationships>`,
		}, "book is no xlsx workbook, though it is packed like one"},
		"a link to elsewhere": {map[string]string{
			"_rels/.rels":     `<Relationships><Relationship Id="a" Type="x/officeDocument" Target="xl/workbook.xml" TargetMode="External"/></Relationships>`,
			"xl/workbook.xml": "<workbook/>",
		}, "book is no xlsx workbook, though it is packed like one"},
		"entities": {
			with(sheetBook("", ""), "xl/worksheets/sheet1.xml", `<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]><worksheet><sheetData><row><c t="str"><v>&b;</v></c></row></sheetData></worksheet>`),
			"book is a damaged workbook: its parts cannot be read",
		},
		"hidden alone":           {with(sheetBook("", ""), "xl/workbook.xml", `<workbook xmlns:r="r"><sheets><sheet name="Marks" state="veryHidden" r:id="s"/></sheets></workbook>`), "book has hidden sheets alone"},
		"two names for one part": {with(sheetBook("", ""), "XL/Workbook.xml", "<workbook/>"), "book is a damaged workbook: it has a part twice"},
	} {
		t.Run(name, func(t *testing.T) {
			g, err := sheetfile.Parse("book", "", packed(t, c.parts))
			require.EqualError(t, err, c.said)
			var refused *sheetfile.RefusedError
			require.ErrorAs(t, err, &refused)
			assert.Empty(t, g.Rows)
		})
	}
}

func with(parts map[string]string, name, text string) map[string]string {
	parts[name] = text
	return parts
}

func without(parts map[string]string, name string) map[string]string {
	delete(parts, name)
	return parts
}
