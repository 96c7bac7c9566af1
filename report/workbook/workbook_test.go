package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/report/answers"
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
)

// everyWorkbook names ledgers and pilots whose workbooks the general tests go
// through.
var everyWorkbook = []struct{ path, pilot string }{
	{demoLedger, "ines"},
	{seasonLedger, "ines"},
	{seasonLedger, "tobias"},
	{seasonLedger, "yuki"},
	{checkLedger, "checker"},
	{gliderLedger, "mara"},
	{tourLedger, "ines"},
	{tourLedger, "tobias"},
	{tourLedger, "yuki"},
}

func TestSheetsInOrder(t *testing.T) {
	book := workbookOf(t, load(t, seasonLedger), "ines")
	require.Equal(t, []string{
		"Season", "Remarks", "Flights", "Grades", "Families", "Faults and drills", "Panel", "Readiness", "Elements", "Rules",
	}, book.GetSheetList())
}

// Two readings of one ledger give the same bytes; another day gives others.
func TestSameBytes(t *testing.T) {
	for _, w := range everyWorkbook {
		first, second := load(t, w.path), load(t, w.path)
		a := written(t, first, of(t, first, w.pilot), asked{})
		require.True(t, bytes.Equal(a, written(t, second, of(t, second, w.pilot), asked{})), w)
		other := written(t, first, of(t, first, w.pilot), asked{asOf: first.AsOf + 1})
		require.False(t, bytes.Equal(a, other))
	}
}

// Every part has one fixed date, and they stand in one order.
func TestPartsAreSorted(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{})
	archive, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	var names []string
	for _, f := range archive.File {
		names = append(names, f.Name)
		require.True(t, f.Modified.Equal(time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)), f.Name)
	}
	require.True(t, slices.IsSorted(names))
	require.Equal(t, "[Content_Types].xml", names[0])
}

func TestEverySheetIsFrozenAndPrints(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{version: "1.2"})
	book := open(t, raw)
	for i, sheet := range book.GetSheetList() {
		panes, err := book.GetPanes(sheet)
		require.NoError(t, err)
		require.True(t, panes.Freeze, sheet)
		require.Positive(t, panes.YSplit, sheet)
		layout, err := book.GetPageLayout(sheet)
		require.NoError(t, err)
		require.Equal(t, 9, *layout.Size, "A4")
		require.Contains(t, []string{"landscape", "portrait"}, *layout.Orientation)
		require.Equal(t, 1, *layout.FitToWidth, sheet)
		head, err := book.GetHeaderFooter(sheet)
		require.NoError(t, err)
		require.Equal(t, "&L&BInes Halloran&B, season 2026&R"+sheet, head.OddHeader)
		require.Contains(t, head.OddFooter, "&Lboxbook 1.2, as of 2026-11-25")
		require.Contains(t, head.OddFooter, "&RPage &P of &N")
		xml := part(t, raw, "xl/worksheets/sheet"+strconv.Itoa(1+i)+".xml")
		require.Contains(t, xml, `<pageSetUpPr fitToPage="true">`)
		require.NotContains(t, xml, "filterMode")
	}
	names := part(t, raw, "xl/workbook.xml")
	require.Contains(t, names, "&#39;Grades&#39;!$A$1:")
	for _, sheet := range []string{"Flights", "Elements", "Rules"} {
		require.Regexp(t, `Print_Area"[^>]*>`+sheet+`!\$[A-Z]+\$1<`, names, "an empty cell is printed, and nothing of the sheet")
	}
}

// functions are those that spreadsheet programs have had since 2010, none of
// them volatile (such as NOW, RAND, OFFSET, INDIRECT).
var functions = []string{
	"ABS", "AND", "COUNT", "COUNTA", "COUNTIF", "COUNTIFS", "IF", "INDEX", "ISNUMBER", "MATCH", "MAX", "MIN", "MOD",
	"N", "NA", "NOT", "OR", "ROUND", "SUM", "SUMIFS", "SUMPRODUCT",
}

var function = regexp.MustCompile(`([A-Za-z_.]+)\(`)

func TestFormulasUseOldFunctionsAlone(t *testing.T) {
	quotedText := regexp.MustCompile(`"(?:[^"]|"")*"`)
	for _, w := range everyWorkbook {
		book := workbookOf(t, load(t, w.path), w.pilot)
		count := 0
		for sheet, cells := range book.formulas() {
			for _, cell := range cells {
				formula, _ := book.GetCellFormula(sheet, cell)
				count++
				bare := quotedText.ReplaceAllString(formula, "")
				require.NotContains(t, bare, "[", "no other file: %s", formula)
				require.NotContains(t, bare, "{", "every reference is put in: %s", formula)
				require.Less(t, len(formula), 8192)
				for _, m := range function.FindAllStringSubmatch(bare, -1) {
					require.Contains(t, functions, m[1], "%s!%s %s", sheet, cell, formula)
				}
			}
		}
		require.Greater(t, count, 100, w)
	}
}

func TestNothingBesideTheSheets(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{})
	archive, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	for _, f := range archive.File {
		lower := strings.ToLower(f.Name)
		for _, unwanted := range []string{"vba", "external", "calcchain", ".bin"} {
			require.NotContains(t, lower, unwanted)
		}
	}
	require.NotContains(t, part(t, raw, "[Content_Types].xml"), "macroEnabled.main")
}

func TestPropertiesAreDatedAsOf(t *testing.T) {
	l := load(t, seasonLedger)
	day, _ := season.ParseDate("2026-10-01")
	book := open(t, written(t, l, of(t, l, "ines"), asked{asOf: day, version: "1.2"}))
	props, err := book.GetDocProps()
	require.NoError(t, err)
	assert.Equal(t, "Ines Halloran, season 2026", props.Title)
	assert.Equal(t, "2026-10-01T00:00:00Z", props.Created)
	assert.Equal(t, "2026-10-01T00:00:00Z", props.Modified)
	assert.Equal(t, "boxbook 1.2", props.Creator)
	assert.Contains(t, book.stored("Season", "A2"), "as of 2026-10-01")
}

func TestNoPilot(t *testing.T) {
	var b bytes.Buffer
	require.ErrorIs(t, Write(&b, answers.Book{}, Options{}), ErrNoPilot)
	require.Zero(t, b.Len())
}

// A season without flights is a workbook that says so.
func TestEmptySeason(t *testing.T) {
	l := load(t, seasonLedger)
	s := of(t, l, "ines")
	s.Season = 1999
	book := open(t, written(t, l, s, asked{}))
	require.Equal(t, "none", book.stored("Grades", "A2"))
	require.Equal(t, "0", book.stored("Season", "B"+strconv.Itoa(factsRow)))
	require.Contains(t, book.stored("Season", "F"+strconv.Itoa(factsRow)), "no chart")
	for sheet, cells := range book.formulas() {
		requireSame(t, book, sheet, cells...)
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }

func TestWriterThatFails(t *testing.T) {
	l := load(t, seasonLedger)
	book, o := writing(l, of(t, l, "ines"), asked{})
	require.ErrorIs(t, Write(failing{}, book, o), io.ErrClosedPipe)
}

// What a person typed never becomes a formula, nor a code of a printed header,
// nor a reference inside a formula.
func TestHostileNames(t *testing.T) {
	text := strings.NewReplacer(
		`name      "Ines Halloran"`, `name      "=1+1 & Co"`,
		`name      "Harbour Cup"`, `name      "+SUM(A1)"`,
		`name      "Longmere Spring"`, `name      "@home"`,
		`"one and a quarter spin"`, `"-spin {mean}"`,
		`"climbed again after the humpty"`, `"=a \"quoted\" {points} text"`,
	).Replace(read(t, seasonLedger))
	l := parse(t, text)
	raw := written(t, l, of(t, l, "ines"), asked{})
	book := open(t, raw)
	head, err := book.GetHeaderFooter("Season")
	require.NoError(t, err)
	require.Contains(t, head.OddHeader, "&L&B=1+1 && Co&B,")
	for sheet, cells := range map[string]map[string]string{
		"Season":  {"A1": "=1+1 & Co"},
		"Flights": {"B2": "@home", "B7": "+SUM(A1)"},
		"Grades":  {"E2": "-spin {mean}"},
	} {
		for cell, want := range cells {
			formula, _ := book.GetCellFormula(sheet, cell)
			require.Empty(t, formula)
			kind, _ := book.GetCellType(sheet, cell)
			require.Equal(t, excelize.CellTypeInlineString, kind)
			require.Equal(t, want, book.stored(sheet, cell))
		}
	}
	require.Equal(t, `interruption 30 (=a "quoted" {points} text)`, book.under("Flights", "remark", 4))
	requireSame(t, book, "Flights", book.cell("Flights", "remark", 4))
}

func TestNamesAreKeptApart(t *testing.T) {
	taken := namesTaken{}
	require.Equal(t, "Lakes", taken.add("Lakes"))
	require.Equal(t, "lakes (2)", taken.add("lakes"))
	require.Equal(t, "LAKES (3)", taken.add("LAKES"))
}

func TestPrintedKeepsToItsLength(t *testing.T) {
	require.Equal(t, "a && b", xlsx.Printed("a & b", 60))
	require.LessOrEqual(t, len([]rune(xlsx.Printed(strings.Repeat("&", 500), 60))), 61)
	require.Equal(t, "abc…", xlsx.Printed("abcdefgh", 4))
}

func TestDatesThatSpreadsheetsCannotCount(t *testing.T) {
	require.Equal(t, xlsx.Text("1899-12-30"), day("1899-12-30"))
	require.Equal(t, xlsx.Integer(46130), day("2026-04-18")) // derived: 46130 days after 1899-12-30
}

func TestLinesOfAText(t *testing.T) {
	c := xlsx.Column[int]{Width: 10}
	require.Equal(t, 1, c.Lines("one two", true))
	require.Equal(t, 2, c.Lines("one two three", true))
	require.Equal(t, 3, c.Lines("abcdefghijklmnopqrstuvwxyz", true))
	require.Equal(t, 1, c.Lines("one two three", false))
}

// The format has columns stand in order; some programs call a file broken in
// which they do not.
func TestColumnsStandInOrder(t *testing.T) {
	l := load(t, seasonLedger)
	raw := written(t, l, of(t, l, "ines"), asked{})
	for i := range open(t, raw).GetSheetList() {
		last := 0
		for _, m := range regexp.MustCompile(`<col min="(\d+)" max="(\d+)"`).FindAllStringSubmatch(part(t, raw, fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)), -1) {
			first, _ := strconv.Atoi(m[1])
			require.Greater(t, first, last)
			last, _ = strconv.Atoi(m[2])
		}
		require.Positive(t, last)
	}
}

// Long names wrap, in rows high enough, and nothing lies under the chart.
func TestLongNamesWrap(t *testing.T) {
	name := "The Twenty-Seventh International Open Aerobatic Championship of the Northern Lakes and Counties"
	pilot := "Maximiliana Theodora Wilhelmina von und zu Hohenlohe-Schillingsfuerst-Waldenburg the Third of Upper Longmere"
	source := strings.NewReplacer(`name      "Harbour Cup"`, `name      "`+name+`"`, `name      "Ines Halloran"`, `name      "`+pilot+`"`).Replace(read(t, seasonLedger))
	book := workbookOf(t, parse(t, source), "ines")
	wraps := func(sheet, cell string) {
		id, err := book.GetCellStyle(sheet, cell)
		require.NoError(t, err)
		style, err := book.GetStyle(id)
		require.NoError(t, err)
		require.True(t, style.Alignment.WrapText, "%s!%s", sheet, cell)
	}
	found := 0
	for _, sheet := range []string{"Season", "Families"} {
		rows, err := book.GetRows(sheet)
		require.NoError(t, err)
		for i, row := range rows {
			for k, got := range row {
				if got != name {
					continue
				}
				found++
				wraps(sheet, xlsx.ColumnName(k+1)+strconv.Itoa(i+1))
				height, err := book.GetRowHeight(sheet, i+1)
				require.NoError(t, err)
				require.GreaterOrEqual(t, height, 3.0*xlsx.LineHeight, "%s row %d", sheet, i+1)
			}
		}
	}
	require.GreaterOrEqual(t, found, 4, "contest, flight, best contest, percent by flight")
	for _, sheet := range []string{"Season", "Families", "Faults and drills", "Panel", "Readiness"} {
		require.Contains(t, book.stored(sheet, "A1"), pilot)
		wraps(sheet, "A1")
		height, err := book.GetRowHeight(sheet, 1)
		require.NoError(t, err)
		require.Greater(t, height, 40.0, sheet)
	}
}

// The column of panels gives long names room, and short ones no more than they
// need.
func TestPanelsHaveRoom(t *testing.T) {
	c := &content{flights: []flightRow{{}}}
	c.flights[0].Panel = []string{"AA", "BB", "CC"}
	require.Equal(t, float64(panelLeast), c.panelWidth())
	c.flights[0].Panel = []string{"AK", "BM", "CT", "DW", "HO", "LP"} // in one line: capitals are wide
	require.Equal(t, 23.0, c.panelWidth())
	c.flights[0].Panel = []string{"Bartholomew-Featherstone", "Xenophontos-Papadopoulou", "Cholmondeley"}
	require.Greater(t, c.panelWidth(), 36.0)
	require.Less(t, c.panelWidth(), 52.0)
	c.flights[0].Panel = slices.Repeat(c.flights[0].Panel, 3)
	require.Equal(t, float64(panelMost), c.panelWidth())
}
