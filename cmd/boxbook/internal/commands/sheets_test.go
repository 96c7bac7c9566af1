package commands

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// sheet is a sheet of a workbook as a spreadsheet program shows it.
type sheet struct {
	name  string
	cells []sheetCell // row by row
	// head is the nearest title above a cell, by place.
	head map[[2]int]string
}

// sheetCell is a cell with something in it. Value is the stored one, which
// beside a formula is its result; shown is what a reader sees.
type sheetCell struct {
	row, column  int
	value, shown string
	formula      string
	number, day  bool
}

func (c sheetCell) at() string {
	at, _ := excelize.CoordinatesToCellName(c.column, c.row)
	return at
}

// float is a number's value.
func (c sheetCell) float() float64 {
	v, _ := strconv.ParseFloat(c.value, 64)
	return v
}

// dayShown is how a cell of a date reads.
var dayShown = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`)

// sheetsOf reads a workbook.
func sheetsOf(t testing.TB, path string) []sheet {
	t.Helper()
	file, err := excelize.OpenFile(path)
	require.NoError(t, err)
	defer file.Close()
	var sheets []sheet
	for _, name := range file.GetSheetList() {
		s := sheet{name: name}
		rows, err := file.GetRows(name, excelize.Options{RawCellValue: true})
		require.NoError(t, err)
		for row := range rows {
			for column, value := range rows[row] {
				if c := cellOf(t, file, name, row+1, column+1, value); c.value != "" || c.formula != "" {
					s.cells = append(s.cells, c)
				}
			}
		}
		s.findHeads()
		sheets = append(sheets, s)
	}
	return sheets
}

func cellOf(t testing.TB, file *excelize.File, sheet string, row, column int, value string) sheetCell {
	t.Helper()
	c := sheetCell{row: row, column: column, value: value}
	kind, err := file.GetCellType(sheet, c.at())
	require.NoError(t, err)
	c.formula, err = file.GetCellFormula(sheet, c.at())
	require.NoError(t, err)
	_, err = strconv.ParseFloat(value, 64)
	c.number = err == nil && (kind == excelize.CellTypeUnset || kind == excelize.CellTypeNumber)
	c.shown, err = file.GetCellValue(sheet, c.at())
	require.NoError(t, err)
	c.day = c.number && dayShown.MatchString(c.shown)
	return c
}

// findHeads gives each cell the title above it: that of the nearest row above
// that holds nothing but texts, and at least two.
func (s *sheet) findHeads() {
	s.head = map[[2]int]string{}
	titles := map[int]string{}
	for _, row := range s.rows() {
		if areTitles(row) {
			titles = map[int]string{}
			for _, c := range row {
				titles[c.column] = c.value
			}
		}
		for _, c := range row {
			s.head[[2]int{c.row, c.column}] = titles[c.column]
		}
	}
}

// areTitles reports whether a row can be that of a table's titles.
func areTitles(row []sheetCell) bool {
	isValue := func(c sheetCell) bool { return c.number || c.formula != "" }
	return len(row) > 1 && !slices.ContainsFunc(row, isValue)
}

// title is a cell's title.
func (s *sheet) title(c sheetCell) string { return s.head[[2]int{c.row, c.column}] }

// rows cuts the cells into rows.
func (s *sheet) rows() [][]sheetCell {
	var rows [][]sheetCell
	for i, c := range s.cells {
		if i == 0 || s.cells[i-1].row != c.row {
			rows = append(rows, nil)
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], c)
	}
	return rows
}

// sheetTable is a table of a sheet: titles and rows of cells by title.
type sheetTable struct {
	titles []string
	rows   []map[string]sheetCell
}

// titleOf finds a title in full: that which ends so where none is the same, since
// some begin with a number that can be another.
func (t sheetTable) titleOf(end string) string {
	if slices.Contains(t.titles, end) {
		return end
	}
	i := slices.IndexFunc(t.titles, func(title string) bool { return strings.HasSuffix(title, " "+end) })
	if i < 0 {
		return ""
	}
	return t.titles[i]
}

// table finds the table whose first titles are these; it ends with the first
// row that lacks a cell in its first column. There is none with ok false.
func (s *sheet) table(titles ...string) (found sheetTable, ok bool) {
	columns := map[int]string{}
	next := 0
	for _, row := range s.rows() {
		texts := []string{}
		for _, c := range row {
			texts = append(texts, c.value)
		}
		if !ok && slices.Equal(texts[:min(len(texts), len(titles))], titles) {
			ok, found.titles, next = true, texts, row[0].row+1
			for _, c := range row {
				columns[c.column] = c.value
			}
			continue
		}
		if !ok {
			continue
		}
		if row[0].row != next || row[0].column != 1 {
			return found, ok
		}
		next++
		cells := map[string]sheetCell{}
		for _, c := range row {
			cells[columns[c.column]] = c
		}
		found.rows = append(found.rows, cells)
	}
	return found, ok
}

// sheetNamed finds a sheet.
func sheetNamed(t testing.TB, sheets []sheet, name string) sheet {
	t.Helper()
	i := slices.IndexFunc(sheets, func(s sheet) bool { return s.name == name })
	require.GreaterOrEqual(t, i, 0, "no sheet %s", name)
	return sheets[i]
}

func (s sheet) where(c sheetCell) string {
	return fmt.Sprintf("%s!%s (%s) = %s", s.name, c.at(), strings.TrimSpace(s.title(c)), c.value)
}
