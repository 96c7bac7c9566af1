package stats

import (
	"fmt"
	"math"
)

// Cell is one value of a two-way table, at a row and a column counted from 0.
type Cell struct {
	Row, Column int
	Value       float64
}

// Table is a two-way table with gaps: the cells that have a value, in any
// order, at most one for each place.
type Table struct {
	Rows, Columns int
	Cells         []Cell
}

// Part is a connected part of a table: the rows and columns that are compared
// with each other through shared cells, and the table they form. Rows and
// Columns hold the numbers they have in the whole table, rising; CellIndex says
// which cell of the whole table each cell of Table is.
type Part struct {
	Rows, Columns, CellIndex []int
	Table                    Table
}

// check refuses indices outside the table, two values in one place, and values
// out of range.
func (t Table) check() error {
	if t.Rows < 0 || t.Columns < 0 {
		return fmt.Errorf("%w: a table of %d by %d", ErrShape, t.Rows, t.Columns)
	}
	if t.Rows > largestCount || t.Columns > largestCount {
		return fmt.Errorf("%w: a table of %d by %d", ErrRange, t.Rows, t.Columns)
	}
	seen := t.newPlaces()
	for _, c := range t.Cells {
		if c.Row < 0 || c.Row >= t.Rows || c.Column < 0 || c.Column >= t.Columns {
			return fmt.Errorf("%w: cell %d, %d outside the table", ErrShape, c.Row, c.Column)
		}
		if !seen.enter(c.Row, c.Column) {
			return fmt.Errorf("%w: two values in cell %d, %d", ErrShape, c.Row, c.Column)
		}
		if !(math.Abs(c.Value) <= largest) {
			return fmt.Errorf("%w: %g", ErrRange, c.Value)
		}
	}
	return nil
}

// places are those of a table that have a value: one after the other, unless the
// table is mostly gaps.
type places struct {
	columns int
	dense   []bool
	sparse  map[[2]int]bool
}

func (t Table) newPlaces() places {
	const gaps, few = 16, 1024 // places a cell, and places however few cells there are
	if t.Columns > 0 && t.Rows <= max(few, gaps*len(t.Cells))/t.Columns {
		return places{columns: t.Columns, dense: make([]bool, t.Rows*t.Columns)}
	}
	return places{sparse: make(map[[2]int]bool, len(t.Cells))}
}

// enter notes a place and reports whether it is new.
func (p places) enter(row, column int) bool {
	if p.sparse != nil {
		at := [2]int{row, column}
		known := p.sparse[at]
		p.sparse[at] = true
		return !known
	}
	at := &p.dense[row*p.columns+column]
	known := *at
	*at = true
	return !known
}

// values lists the cells' values in their order.
func (t Table) values() []float64 {
	v := make([]float64, len(t.Cells))
	for i, c := range t.Cells {
		v[i] = c.Value
	}
	return v
}

// byRow lists the indices of the cells of each row.
func (t Table) byRow() [][]int {
	return lines(t.Rows, t.Cells, func(c Cell) int { return c.Row })
}

// byColumn lists the indices of the cells of each column.
func (t Table) byColumn() [][]int {
	return lines(t.Columns, t.Cells, func(c Cell) int { return c.Column })
}

// lines lists the indices of the cells by a number of theirs, all in one list.
func lines(n int, cells []Cell, of func(Cell) int) [][]int {
	ends := make([]int, n+1)
	for _, c := range cells {
		ends[of(c)+1]++
	}
	for i := range n {
		ends[i+1] += ends[i]
	}
	all, out := make([]int, len(cells)), make([][]int, n)
	for i := range out {
		out[i] = all[ends[i]:ends[i]:ends[i+1]]
	}
	for i, c := range cells {
		out[of(c)] = append(out[of(c)], i)
	}
	return out
}

// Parts splits the table into its connected parts: two columns belong together
// when they share a row, directly or through a chain. Effects of different parts
// cannot be compared. Rows and columns without a value are in no part. Parts are
// in the order of their first row. It fails with ErrShape and ErrRange for a
// table that is none. [derived].
func (t Table) Parts() ([]Part, error) {
	if err := t.check(); err != nil {
		return nil, err
	}
	root := t.roots()
	var parts []Part
	number := map[int]int{}
	newRow, newColumn := make([]int, t.Rows), make([]int, t.Columns)
	for r, cells := range t.byRow() {
		if len(cells) == 0 {
			continue
		}
		k, ok := number[root[r]]
		if !ok {
			k = len(parts)
			number[root[r]] = k
			parts = append(parts, Part{})
		}
		newRow[r] = len(parts[k].Rows)
		parts[k].Rows = append(parts[k].Rows, r)
	}
	for c, cells := range t.byColumn() {
		if len(cells) > 0 {
			k := number[root[t.Rows+c]]
			newColumn[c] = len(parts[k].Columns)
			parts[k].Columns = append(parts[k].Columns, c)
		}
	}
	for i, c := range t.Cells {
		p := &parts[number[root[c.Row]]]
		p.CellIndex = append(p.CellIndex, i)
		p.Table.Cells = append(p.Table.Cells, Cell{newRow[c.Row], newColumn[c.Column], c.Value})
	}
	for k := range parts {
		parts[k].Table.Rows, parts[k].Table.Columns = len(parts[k].Rows), len(parts[k].Columns)
	}
	return parts, nil
}

// roots names, for each row and then each column, one member of its part.
func (t Table) roots() []int {
	parent := make([]int, t.Rows+t.Columns)
	for i := range parent {
		parent[i] = i
	}
	find := func(i int) int {
		for parent[i] != i {
			parent[i] = parent[parent[i]]
			i = parent[i]
		}
		return i
	}
	for _, c := range t.Cells {
		parent[find(t.Rows+c.Column)] = find(c.Row)
	}
	for i := range parent {
		parent[i] = find(i)
	}
	return parent
}

// connected refuses a table with an empty row or column or more than one part.
func (t Table) connected() error {
	root := t.roots()
	for _, r := range root {
		if r != root[0] {
			return ErrDisconnected
		}
	}
	return nil
}
