package sheetimport

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"boxbook/report/display"
)

// turned gives a grid with its rows as columns: a sheet with a row a judge is
// then one with a column a judge.
func (g Grid) turned() Grid {
	columns := map[int][]Cell{}
	for _, row := range g.Rows {
		for _, c := range row.Cells {
			at := c.Column
			c.Column = row.Number
			columns[at] = append(columns[at], c)
		}
	}
	out := Grid{Name: g.Name}
	for column, cells := range columns {
		out.Rows = append(out.Rows, Row{column, cells})
	}
	slices.SortFunc(out.Rows, func(a, b Row) int { return a.Number - b.Number })
	for _, a := range g.Merged {
		out.Merged = append(out.Merged, Area{Left: a.Top, Top: a.Left, Right: a.Bottom, Bottom: a.Right})
	}
	return out
}

// cellName names a cell as the file has it, however the sheet was turned.
func (s *sheet) cellName(column, row int) string {
	if s.isTurned {
		column, row = row, column
	}
	return CellName(column, row)
}

// areaName names an area as the file has it.
func (s *sheet) areaName(a Area) string {
	return s.cellName(a.Left, a.Top) + ":" + s.cellName(a.Right, a.Bottom)
}

// columnName and rowName say a column or a row as the file has it: "column D",
// or of a sheet that was turned "row 4".
func (s *sheet) columnName(column int) string {
	if s.isTurned {
		return fmt.Sprint("row ", column)
	}
	return "column " + ColumnName(column)
}

func (s *sheet) rowName(row int) string {
	if s.isTurned {
		return "column " + ColumnName(row)
	}
	return fmt.Sprint("row ", row)
}

// columnsWord and rowsWord are the words before a list of them.
func (s *sheet) columnsWord(n int) string {
	if s.isTurned {
		return display.Plural(n, "row", "rows")
	}
	return display.Plural(n, "column", "columns")
}

func (s *sheet) rowsWord(n int) string {
	if s.isTurned {
		return display.Plural(n, "column", "columns")
	}
	return display.Plural(n, "row", "rows")
}

// bare is a column or row without its word: "D", "4".
func bare(name string) string {
	_, rest, _ := strings.Cut(name, " ")
	return rest
}

// tellHidden says what the sheet hides, since whoever looks at it does not see
// what is read.
func (s *sheet) tellHidden() {
	if s.Hidden {
		s.note("", "the worksheet is hidden")
	}
	if n := len(s.Beside); n > 0 {
		names := make([]string, n)
		for i, name := range s.Beside {
			names[i] = quoted(name)
		}
		s.note("", "not read: hidden %s %s", display.Plural(n, "worksheet", "worksheets"), listed(names))
	}
	var columns []string
	for _, column := range s.columnsHolding() {
		if slices.ContainsFunc(s.HiddenColumns, func(span Span) bool { return span.From <= column && column <= span.To }) {
			columns = append(columns, ColumnName(column))
		}
	}
	if n := len(columns); n > 0 {
		s.note("", "hidden in the sheet: %s %s", display.Plural(n, "column", "columns"), listed(columns))
	}
	var rows []string
	for _, row := range s.HiddenRows {
		rows = append(rows, fmt.Sprint(row))
	}
	if n := len(rows); n > 0 {
		s.note("", "hidden in the sheet: %s %s", display.Plural(n, "row", "rows"), listed(rows))
	}
}

// columnsHolding lists the columns that hold anything, in order.
func (s *sheet) columnsHolding() []int {
	if len(s.HiddenColumns) == 0 {
		return nil
	}
	held := map[int]bool{}
	for _, row := range s.Rows {
		for _, c := range row.Cells {
			held[c.Column] = true
		}
	}
	return slices.Sorted(maps.Keys(held))
}

// tellText says how a text was read where that is not plain.
func (s *sheet) tellText() {
	if s.Encoding != "" {
		s.note("", "the text is not in UTF-8; it is read as %s", s.Encoding)
	}
	if s.Aligned {
		s.note("", "the columns are told apart by the spaces between them; cells are named as in a sheet, A1 the first")
	}
}
