// Package sheetimport finds one flight's marks in a score sheet that another
// program laid out. It knows no file format: a reader of files hands it a grid
// of cells, and gets back the marks by figure and judge, and what could not be
// read, by cell. Nothing is guessed: a cell that is not plainly a mark is a
// problem with the cell's name.
package sheetimport

import (
	"cmp"
	"slices"
	"strconv"
)

// Kind says what a cell holds.
type Kind uint8

const (
	// Empty is a cell without anything in it.
	Empty Kind = iota
	// Text is text; in a file of plain text everything is.
	Text
	// Number is a number, its text without needless digits: 8.5.
	Number
	// Date is a number that the sheet shows as a date or a time. Its text is
	// YYYY-MM-DD, or the bare number where programs disagree about the day:
	// below 61, which is 1900-03-01.
	Date
	// Truth is TRUE or FALSE.
	Truth
	// Failure is an error value such as #N/A.
	Failure
	// Unsolved is a formula without a stored value.
	Unsolved
)

// Cell is one cell that holds something. Column counts from 1. Formula says
// that the value is what a formula came to when the file was saved.
type Cell struct {
	Column  int
	Kind    Kind
	Formula bool
	Text    string
}

// Row is one row, its cells by column. Number counts from 1.
type Row struct {
	Number int
	Cells  []Cell
}

// Cell gives the cell of a column, an Empty one where there is none.
func (r Row) Cell(column int) Cell {
	i, found := slices.BinarySearchFunc(r.Cells, column, func(c Cell, column int) int { return cmp.Compare(c.Column, column) })
	if !found {
		return Cell{Column: column}
	}
	return r.Cells[i]
}

// Area is a rectangle of cells that were merged into one, counted from 1, the
// ends included.
type Area struct{ Left, Top, Right, Bottom int }

// String names the area: B7:C7.
func (a Area) String() string {
	return CellName(a.Left, a.Top) + ":" + CellName(a.Right, a.Bottom)
}

// Span is a row of columns, counted from 1, the ends included.
type Span struct{ From, To int }

// Grid is one sheet: the rows that hold something, in order.
type Grid struct {
	Name   string // the worksheet's, "" in a file of plain text
	Rows   []Row
	Merged []Area
	// What the sheet hides from whoever looks at it: itself, rows by number, and
	// columns. It is read like everything else.
	Hidden        bool
	HiddenRows    []int
	HiddenColumns []Span
	// Beside are the hidden worksheets that were not read with this one.
	Beside []string
	// Encoding is how the text was read where it is not UTF-8.
	Encoding string
	// Aligned says that the cells of a text were told apart by the spaces
	// between them.
	Aligned bool
}

// hidden gives the merged area in which a cell disappears: any of its cells
// but the first.
func (g Grid) hidden(column, row int) (Area, bool) {
	for _, a := range g.Merged {
		inside := column >= a.Left && column <= a.Right && row >= a.Top && row <= a.Bottom
		if inside && (column != a.Left || row != a.Top) {
			return a, true
		}
	}
	return Area{}, false
}

// CellName names a cell as a spreadsheet does: B7.
func CellName(column, row int) string { return ColumnName(column) + strconv.Itoa(row) }

// ColumnName gives the letters of a column: A, Z, AA.
func ColumnName(column int) string {
	var letters []byte
	for ; column > 0; column = (column - 1) / 26 {
		letters = append(letters, byte('A'+(column-1)%26))
	}
	slices.Reverse(letters)
	return string(letters)
}

// LastColumn is the last column that spreadsheets have, XFD.
const LastColumn = 16384

// LastRow is the last row that spreadsheets have.
const LastRow = 1_048_576

// ColumnNumber reads the letters of a column, in capitals. It reports false
// for anything else, and beyond the last column.
func ColumnNumber(letters string) (int, bool) {
	n := 0
	for _, c := range []byte(letters) {
		if c < 'A' || c > 'Z' || n > LastColumn {
			return 0, false
		}
		n = 26*n + int(c-'A') + 1
	}
	return n, n >= 1 && n <= LastColumn
}
