package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"math"
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"boxbook/data"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/workbook/xlsx"
	"boxbook/season"
	"boxbook/season/ledger"
)

const (
	seasonLedger  = "testdata/season.boxbook"
	demoLedger    = "../../data/demo/longmere.boxbook"
	checkLedger   = "../../testdata/ledgers/check-values.boxbook"
	gliderLedger  = "../../testdata/ledgers/glider-silver.boxbook"
	tourLedger    = "../../testdata/ledgers/language-tour.boxbook"
	awkwardLedger = "testdata/accounts.boxbook"
)

// today stands for the day on which the tests' workbooks are written.
const today = "2026-11-25"

func read(t testing.TB, path string) string {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(raw)
}

// parse reads the text of a ledger that includes no other file.
func parse(t testing.TB, text string) *season.Ledger {
	t.Helper()
	return loadFrom(t, ledger.Memory{"test.boxbook": text}, "test.boxbook")
}

// load reads a ledger from disk, with all that it includes.
func load(t testing.TB, path string) *season.Ledger {
	t.Helper()
	return loadFrom(t, ledger.Disk{}, path)
}

func loadFrom(t testing.TB, files ledger.Files, main string) *season.Ledger {
	t.Helper()
	asOf, _ := season.ParseDate(today)
	result, err := ledger.Load(ledger.Options{Files: files, Main: main, Builtin: data.Builtin(), AsOf: asOf})
	require.NoError(t, err)
	for _, d := range result.Diagnostics {
		require.NotContains(t, d.Error(), ": error:")
	}
	return result.Ledger
}

// of selects a pilot's season 2026.
func of(t testing.TB, l *season.Ledger, pilot string) season.Selection {
	t.Helper()
	p := l.PilotNamed(pilot)
	require.NotNil(t, p, pilot)
	return season.Selection{Pilot: p, Season: 2026}
}

// asked is what a test asks for besides a selection.
type asked struct {
	asOf    season.Date // the ledger's own where it is zero
	version string
}

// writing are the answers and options of a selection.
func writing(l *season.Ledger, s season.Selection, a asked) (answers.Book, Options) {
	if a.asOf == 0 {
		a.asOf = l.AsOf
	}
	return answers.BookOf(l, s, nil), Options{Head: tables.Head(a.version, a.asOf, "", tables.PeriodChoices(s))}
}

// contentOf is what the sheets of a selection show.
func contentOf(l *season.Ledger, s season.Selection) *content {
	return newContent(writing(l, s, asked{}))
}

func written(t testing.TB, l *season.Ledger, s season.Selection, a asked) []byte {
	t.Helper()
	var b bytes.Buffer
	book, o := writing(l, s, a)
	require.NoError(t, Write(&b, book, o))
	return b.Bytes()
}

// opened is a workbook read back.
type opened struct {
	*excelize.File
	t       testing.TB
	columns map[string]int
}

func open(t testing.TB, raw []byte) opened {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(raw))
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, f.Close()) })
	return opened{f, t, map[string]int{}}
}

// workbookOf writes and reads a pilot's season.
func workbookOf(t testing.TB, l *season.Ledger, pilot string) opened {
	t.Helper()
	return open(t, written(t, l, of(t, l, pilot), asked{version: "test"}))
}

// stored is a cell's value as it stands in the file, unformatted.
func (o opened) stored(sheet, cell string) string {
	o.t.Helper()
	v, err := o.GetCellValue(sheet, cell, excelize.Options{RawCellValue: true})
	require.NoError(o.t, err)
	return v
}

// column finds a column by its heading; of several the first.
func (o opened) column(sheet string, row int, title string) int {
	o.t.Helper()
	key := fmt.Sprintf("%s %d %s", sheet, row, title)
	if c, ok := o.columns[key]; ok {
		return c
	}
	for c := 1; c < 60; c++ {
		if o.stored(sheet, xlsx.ColumnName(c)+strconv.Itoa(row)) == title {
			o.columns[key] = c
			return c
		}
	}
	require.Fail(o.t, "no column", "%s: %s", sheet, title)
	return 0
}

// cell names the cell under a heading of row 1.
func (o opened) cell(sheet, title string, row int) string {
	o.t.Helper()
	return xlsx.ColumnName(o.column(sheet, 1, title)) + strconv.Itoa(row)
}

// under reads the cell under a heading of row 1.
func (o opened) under(sheet, title string, row int) string {
	o.t.Helper()
	return o.stored(sheet, o.cell(sheet, title, row))
}

// rowOf finds the row in which a column has a text.
func (o opened) rowOf(sheet, title, want string) int {
	o.t.Helper()
	c := xlsx.ColumnName(o.column(sheet, 1, title))
	for row := 2; row < 2000; row++ {
		if o.stored(sheet, c+strconv.Itoa(row)) == want {
			return row
		}
	}
	require.Fail(o.t, "no row", "%s: %s %s", sheet, title, want)
	return 0
}

// formulas lists every formula cell, by sheet.
func (o opened) formulas() map[string][]string {
	o.t.Helper()
	found := map[string][]string{}
	for _, sheet := range o.GetSheetList() {
		ref, err := o.GetSheetDimension(sheet)
		require.NoError(o.t, err)
		_, corner, _ := strings.Cut(ref, ":")
		width, height, err := excelize.CellNameToCoordinates(corner)
		require.NoError(o.t, err)
		for row := 1; row <= height; row++ {
			for c := 1; c <= width; c++ {
				cell := xlsx.ColumnName(c) + strconv.Itoa(row)
				formula, err := o.GetCellFormula(sheet, cell)
				require.NoError(o.t, err)
				if formula != "" {
					found[sheet] = append(found[sheet], cell)
				}
			}
		}
	}
	return found
}

// requireNumber holds a stored value to an exact one, "" to nil.
func requireNumber(t testing.TB, want *big.Rat, got string, what ...any) {
	t.Helper()
	if want == nil {
		require.Empty(t, got, what...)
		return
	}
	f, _ := want.Float64()
	value, err := strconv.ParseFloat(got, 64)
	require.NoError(t, err, what...)
	require.InDelta(t, f, value, 1e-12*max(1, math.Abs(f)), what...)
}

// part reads one part of the packed file.
func part(t testing.TB, raw []byte, name string) string {
	t.Helper()
	archive, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	f, err := archive.Open(name)
	require.NoError(t, err)
	defer f.Close()
	text, err := io.ReadAll(f)
	require.NoError(t, err)
	return string(text)
}
