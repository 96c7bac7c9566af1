package xlsx

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// Column is one column of a table of rows R. Cells are typed values, or
// formulas where Formula is set; Value is then what the formula comes to.
//
// In a formula {key} is the cell of that column in the same row, {key:key} the
// cells of the same row from one column to another, and {Table.key} the whole
// column of a table anywhere in the workbook.
type Column[R any] struct {
	Key, Title string
	Width      float64
	Look       Look
	Folded     bool // a working column, folded away at the right
	blank      bool // no column of this table: another table of the sheet has it
	Formula    string
	Value      func(R) Value
	// FormulaOf stands for Formula where rows differ; "" is a typed cell.
	FormulaOf func(R) string
	// LookOf stands for Look in the body where rows differ, such as by their currency.
	LookOf func(R) Look
}

// Placed is a table's place on its sheet.
type Placed struct {
	Name    string
	Sheet   string
	Head    int // row of the headings, from 1
	Rows    int
	Columns map[string]int // by key, from 1
}

// First is the first row of the body; a table without rows has one empty
// row, so that formulas over it have something to look at.
func (p Placed) First() int { return p.Head + 1 }

// Last is the last row of the body.
func (p Placed) Last() int { return p.Head + max(p.Rows, 1) }

// Place lays a table out from column A.
func Place[R any](name, sheet string, head, rows int, columns []Column[R]) Placed {
	p := Placed{Name: name, Sheet: sheet, Head: head, Rows: rows, Columns: map[string]int{}}
	for i, c := range columns {
		p.Columns[c.Key] = i + 1
	}
	return p
}

// Span is the body of one or more columns, such as $A$2:$C$9.
func (p Placed) Span(from, to string) string {
	return fmt.Sprintf("$%s$%d:$%s$%d", ColumnName(p.Columns[from]), p.First(), ColumnName(p.Columns[to]), p.Last())
}

// Ref is the body of one or more columns as another sheet's formula names it.
func (p Placed) Ref(from, to string) string { return QuotedSheet(p.Sheet) + "!" + p.Span(from, to) }

// HeadRef is a column's heading likewise.
func (p Placed) HeadRef(key string) string {
	return QuotedSheet(p.Sheet) + "!" + Dollars(p.Columns[key], p.Head, 0, 0)
}

// RowRef is the cells from one column to another in one row, likewise; one cell
// where the second key is left out.
func (p Placed) RowRef(row int, from, to string) string {
	return QuotedSheet(p.Sheet) + "!" + Dollars(p.Columns[from], row, p.Columns[to], row)
}

// Area is the body of one or more columns without dollars, such as A2:C9.
func (p Placed) Area(from, to string) string { return strings.ReplaceAll(p.Span(from, to), "$", "") }

// FillTable writes a table: headings, cells, looks, and rows as high as their
// longest text needs.
func FillTable[R any](b *Book, p Placed, columns []Column[R], rows []R) {
	lines := 1
	for i, c := range columns {
		if c.blank {
			continue
		}
		b.Text(i+1, p.Head, c.Title, c.Look.Heading())
		lines = max(lines, c.Lines(c.Title, true))
	}
	b.Heights(p.Head, p.Head, lines)
	if len(rows) == 0 {
		b.Text(1, p.First(), b.Nothing, LookNote)
	}
	styles, templates := make([]int, len(columns)), make([]*template, len(columns))
	for i, c := range columns {
		styles[i] = b.styleOf(c.Look)
		if c.Formula != "" && c.FormulaOf == nil {
			templates[i] = b.template(c.Formula, p)
		}
	}
	wraps := slices.ContainsFunc(columns, func(c Column[R]) bool { return c.Look.Wrap })
	for n, r := range rows {
		row := p.First() + n
		lines := 1
		for i, c := range columns {
			if c.blank {
				continue
			}
			v := c.Value(r)
			lines = max(lines, c.Lines(v.Text, c.Look.Wrap))
			cell := b.grid.cell(i+1, row)
			cell.value, cell.style = v, styles[i]
			if c.LookOf != nil {
				cell.style = b.styleOf(c.LookOf(r))
			}
			if templates[i] != nil {
				cell.formula = templates[i].at(row)
			} else if c.FormulaOf != nil {
				if formula := c.FormulaOf(r); formula != "" {
					cell.formula = b.Expand(formula, p, row)
				}
			}
		}
		if wraps {
			b.Heights(row, row, lines)
		}
	}
}

// Lines is how many lines a text takes in the column, a character a unit of
// width: words move to the next line whole, those wider than the column go on.
func (c Column[R]) Lines(text string, wrapped bool) int {
	if !wrapped || c.Folded {
		return 1
	}
	lines, used := 1, 0.0
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		size := float64(utf8.RuneCountInString(word))
		if used > 0 && used+size > c.Width-float64(c.Look.Indent) {
			lines, used = lines+1, 0
		}
		used += size + 1
		for used > c.Width+1 {
			lines, used = lines+1, used-c.Width
		}
	}
	return lines
}

// LineHeight is the height of a row of one line, in points.
const LineHeight = 15

// Heights makes rows so many lines high.
func (b *Book) Heights(from, to, lines int) {
	for row := from; row <= to; row++ {
		b.Height(row, LineHeight*float64(lines))
	}
}

// Widths sets the columns of a sheet and folds the working ones away.
func Widths[R any](b *Book, columns []Column[R]) {
	for i, c := range columns {
		b.Width(i+1, i+1, c.Width)
		if c.Folded {
			b.Fold(i + 1)
		}
	}
}

// ProseDensity is how many characters of running text a unit of width holds at
// the least: letters are narrower than the digits that it is counted in.
const ProseDensity = 1.1

// TextLines is how many lines a text takes that is so wide; a line feed starts
// a new one.
func TextLines(words string, width float64) int {
	lines := 0
	for _, part := range strings.Split(words, "\n") {
		lines += Column[int]{Width: width}.Lines(part, true)
	}
	return lines
}

// FoldedAway makes columns working ones.
func FoldedAway[R any](columns []Column[R]) []Column[R] {
	for i := range columns {
		columns[i].Folded = true
		columns[i].Width = 11
		columns[i].Look = columns[i].Look.Working()
	}
	return columns
}

// Blank is a column that only another table of the sheet has.
func Blank[R any](key string) Column[R] { return Column[R]{Key: key, Width: 12.5, blank: true} }

// Dollars is a fixed area, or a fixed cell where its end is left out.
func Dollars(fromColumn, fromRow, toColumn, toRow int) string {
	from := "$" + ColumnName(fromColumn) + "$" + strconv.Itoa(fromRow)
	if toColumn == 0 {
		return from
	}
	return from + ":$" + ColumnName(toColumn) + "$" + strconv.Itoa(toRow)
}
