package xlsx

import (
	"errors"
	"strconv"
	"strings"

	"boxbook/report/display"

	"github.com/xuri/excelize/v2"
)

// grid is a sheet's cells before they are written: the library writes a sheet
// fastest from its first row to its last, with each formula's value beside it.
type grid struct {
	rows    []gridRow    // from row 1
	columns []gridColumn // from column A
	merged  [][2]string
	// widest is the last column of any row.
	widest int
}

// gridColumn is how a column stands: its width in characters, 0 for the usual,
// and whether it is folded away.
type gridColumn struct {
	width  float64
	folded bool
}

// gridRow is one row of cells, from column A.
type gridRow struct {
	height float64 // points, 0 for the usual
	cells  []gridCell
}

// gridCell is a cell: its look, and a typed value or a formula with what it
// comes to. The zero value is no cell.
type gridCell struct {
	style   int // of the file, 0 for none
	formula string
	value   Value
}

// row gives a row to write to.
func (g *grid) row(row int) *gridRow {
	for len(g.rows) < row {
		g.rows = append(g.rows, gridRow{})
	}
	return &g.rows[row-1]
}

// cell gives a cell to write to.
func (g *grid) cell(column, row int) *gridCell {
	r := g.row(row)
	if len(r.cells) < column {
		if cap(r.cells) < column {
			grown := make([]gridCell, len(r.cells), max(column, g.widest))
			copy(grown, r.cells)
			r.cells = grown
		}
		r.cells = r.cells[:column]
		g.widest = max(g.widest, column)
	}
	return &r.cells[column-1]
}

// column gives a column to set.
func (g *grid) column(column int) *gridColumn {
	for len(g.columns) < column {
		g.columns = append(g.columns, gridColumn{})
	}
	return &g.columns[column-1]
}

// setColumns tells the library of the columns. It puts the column that it was
// told of last in front, and they must stand in order: so the last comes first.
func (g *grid) setColumns(file *excelize.File, sheet string) error {
	for i := len(g.columns) - 1; i >= 0; i-- {
		c, name := g.columns[i], ColumnName(i+1)
		var failures []error
		if c.folded {
			failures = append(failures, file.SetColOutlineLevel(sheet, name, 1), file.SetColVisible(sheet, name, false))
		}
		if c.width > 0 {
			failures = append(failures, file.SetColWidth(sheet, name, name, c.width))
		}
		if err := errors.Join(failures...); err != nil {
			return err
		}
	}
	return nil
}

// setSizes tells the library of the sizes of rows and columns before they are
// written, for what it places among them.
func (g *grid) setSizes(file *excelize.File, sheet string) error {
	for i, r := range g.rows {
		if r.height > 0 {
			if err := file.SetRowHeight(sheet, i+1, r.height); err != nil {
				return err
			}
		}
	}
	return g.setColumns(file, sheet)
}

// stream opens the sheet for its cells, rows of them, columns first; nothing else
// can be changed on it afterwards.
func (g *grid) stream(file *excelize.File, sheet string) (*excelize.StreamWriter, error) {
	if err := g.setColumns(file, sheet); err != nil {
		return nil, err
	}
	return file.NewStreamWriter(sheet)
}

// write hands the cells to the library. It tells of every row that is through.
func (g *grid) write(out *excelize.StreamWriter, tell func()) error {
	values := make([]any, g.widest)
	cells := make([]excelize.Cell, g.widest)
	for i, r := range g.rows {
		tell()
		if len(r.cells) == 0 && r.height == 0 {
			continue
		}
		for k, c := range r.cells {
			values[k] = nil
			if c == (gridCell{}) {
				continue
			}
			cells[k] = excelize.Cell{StyleID: c.style, Formula: seenLines(c.formula), Value: c.value.cell(c.formula != "")}
			values[k] = &cells[k]
		}
		if err := out.SetRow("A"+strconv.Itoa(i+1), values[:len(r.cells)], excelize.RowOpts{Height: r.height}); err != nil {
			return err
		}
	}
	for _, m := range g.merged {
		if err := out.MergeCell(m[0], m[1]); err != nil {
			return err
		}
	}
	return nil
}

// cell is the value as the library takes it: nothing for an empty cell, an empty
// text for a formula that comes to none.
func (v Value) cell(formula bool) any {
	switch {
	case v.Numeric:
		return v.Number
	case v.Text != "" || formula:
		return seenLines(v.Text)
	}
	return nil
}

// seenLines is a text of one line or several without what is not seen in it.
func seenLines(text string) string {
	if !strings.ContainsFunc(text, func(r rune) bool { return r != '\n' && !display.Seen(r) }) {
		return text
	}
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		lines[i] = display.OneLine(line)
	}
	return strings.Join(lines, "\n")
}
