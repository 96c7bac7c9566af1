package workbook

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

// docTable is where a table of a document stands.
type docTable struct {
	table *report.Table
	head  int
	first float64 // how wide its first column is
	at    []int   // the first column of each of the table's columns
}

// docColumns is how many columns of the grid a document needs.
func docColumns(doc report.Document, g grid) int {
	columns := g.least
	for _, section := range doc.Sections {
		for _, block := range section.Blocks {
			if t, ok := block.(*report.Table); ok {
				at := docGrid(t, g)
				columns = max(columns, at[len(at)-1]-1)
			}
		}
	}
	return columns
}

// docGrid gives the first column of each of a table's columns, and the one
// after the last: what needs room takes two of the narrow columns, and a text
// at the end of a row all that are left.
func docGrid(t *report.Table, g grid) []int {
	at, next := make([]int, 0, len(t.Columns)+1), 1
	for i, c := range t.Columns {
		at = append(at, next)
		next++
		if i > 0 && (c.Flexible || longest(t, i) > docOther) {
			next++
		}
		if i == len(t.Columns)-1 && c.Flexible {
			next = max(next, g.least+1)
		}
	}
	return append(at, next)
}

// longest is how many characters the longest cell of a column has.
func longest(t *report.Table, i int) float64 {
	most := 0
	for _, row := range t.Rows {
		if i < len(row) {
			most = max(most, utf8.RuneCountInString(row[i].String()))
		}
	}
	return float64(most)
}

// table writes a table and notes where it is.
func (w *docWriter) table(t *report.Table) {
	if t.Title != "" {
		if len(w.tables) > 0 {
			w.row++
		}
		w.heading(t.Title, 11)
	}
	d := docTable{table: t, head: w.row, at: docGrid(t, w.grid), first: w.grid.first}
	w.tableHead(d)
	for _, row := range t.Rows {
		w.repeatHead(d, row)
		w.tableRow(d, row, false)
	}
	w.tables[t] = d
	for _, row := range t.Footer {
		w.tableRow(d, row, true)
	}
	w.gap()
}

// repeatHead writes the headings again where the printed page ends before this
// row.
func (w *docWriter) repeatHead(d docTable, cells []report.Cell) {
	if w.pages.Fits(w.row, xlsx.LineHeight*float64(d.lines(cells))) {
		return
	}
	w.newPage()
	w.tableHead(d)
}

// tableHead writes the headings of a table.
func (w *docWriter) tableHead(d docTable) {
	for i, c := range d.table.Columns {
		l := xlsx.Look{Head: true, Bold: true, Wrap: true, Align: alignment(c.Align), Indent: stepIn(i, c.Align)}
		w.b.Text(d.at[i], w.row, c.Title, l)
		w.b.Merge(d.at[i], w.row, d.at[i+1]-1, l)
	}
	w.b.Heights(w.row, w.row, d.headLines())
	w.row++
}

// headLines is how many lines the headings take.
func (d docTable) headLines() int {
	lines := 1
	for i, c := range d.table.Columns {
		lines = max(lines, xlsx.TextLines(c.Title, docOther*float64(d.at[i+1]-d.at[i])+0.5))
	}
	return lines
}

// width is how wide a column of the table is.
func (d docTable) width(i int) float64 {
	if i == 0 {
		return d.first
	}
	return docOther * float64(d.at[i+1]-d.at[i])
}

// wraps reports whether a cell's text goes on in another line.
func (d docTable) wraps(i int, cell report.Cell) bool {
	if _, numeric := cell.Number(); numeric {
		return false
	}
	return d.table.Columns[i].Flexible && cell.String() != "" || float64(utf8.RuneCountInString(cell.String())) > d.width(i)
}

// proseWidth is from when on a column is wide enough for texts to be reckoned as running ones.
const proseWidth = 60

// lines is how many lines a row takes.
func (d docTable) lines(cells []report.Cell) int {
	lines := 1
	for i, cell := range cells {
		width := d.width(i)
		if width > proseWidth {
			width *= xlsx.ProseDensity
		}
		lines = max(lines, xlsx.Column[int]{Width: width}.Lines(cell.String(), d.wraps(i, cell)))
	}
	return lines
}

func (w *docWriter) tableRow(d docTable, cells []report.Cell, foot bool) {
	for i, c := range d.table.Columns {
		cell := report.Empty()
		if i < len(cells) {
			cell = cells[i]
		}
		l := cellLook(cell, c.Align)
		l.Indent = stepIn(i, c.Align)
		l.Bold, l.Wrap = l.Bold || foot, d.wraps(i, cell)
		if _, numeric := cell.Number(); numeric {
			l = l.Stat() // worked out by boxbook, and it looks it
		}
		w.b.Put(d.at[i], w.row, cellValue(cell), l)
		w.b.Merge(d.at[i], w.row, d.at[i+1]-1, l)
	}
	w.b.Heights(w.row, w.row, d.lines(cells))
	w.row++
}

// cellValue is a document's cell as a typed value, unrounded.
func cellValue(c report.Cell) xlsx.Value {
	number, numeric := c.Number()
	switch {
	case !numeric:
		return xlsx.Text(c.String() + c.Mark)
	case !number.Known():
		return xlsx.Value{}
	case math.IsInf(number.Float64(), 0):
		return xlsx.Text(c.String())
	}
	return xlsx.Value{Number: number.Float64(), Numeric: true}
}

// cellLook shows a document's cell as the screen does: with as many decimals,
// its sign and its mark.
func cellLook(c report.Cell, align report.Align) xlsx.Look {
	l := xlsx.Look{Align: alignment(align), Line: true}
	switch c.Tone {
	case report.Good, report.Bad, report.Strong:
		l.Bold = true
	case report.Faint:
		l.Grey = true
	case report.Plain:
	}
	if _, numeric := c.Number(); !numeric {
		return l
	}
	l.Format = numberFormat(c)
	return l
}

// numberFormat shows a number with its decimals, its sign and its mark, also
// where it follows an edit; what rounds to 0 has no sign.
func numberFormat(c report.Cell) string {
	decimals, signed := c.Places()
	n, _ := c.Number()
	plain, mark := "0", ""
	if decimals > 0 {
		plain += "." + strings.Repeat("0", decimals)
	}
	if c.Mark != "" {
		mark = `"` + c.Mark + `"`
	}
	switch {
	case c.IsChance():
		return lookChance
	case roundsAway(n.Float64(), decimals):
		return bare(plain + mark)
	case signed:
		return fmt.Sprintf("+%[1]s%[2]s;-%[1]s%[2]s;%[1]s%[2]s", plain, mark)
	case mark != "":
		return fmt.Sprintf("%[1]s%[2]s;-%[1]s%[2]s", plain, mark)
	}
	return plain
}

// stepIn keeps a text off the number at its left.
func stepIn(column int, align report.Align) int {
	if column > 0 && align == report.Left {
		return 1
	}
	return 0
}

func alignment(a report.Align) string {
	switch a {
	case report.Right:
		return "right"
	case report.Centre:
		return "center"
	default:
		return "left"
	}
}
