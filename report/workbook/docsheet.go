package workbook

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

// docWriter writes sections of tables and sentences on a sheet, so that words and
// numbers are those of the screen. Tables and texts share one grid of columns: a
// wide first one and narrow ones after it.
type docWriter struct {
	b       *xlsx.Book
	row     int // the next free row
	columns int
	pages   *xlsx.Pager
	tables  map[*report.Table]docTable // where those on the sheet stand
	// sums turn cells of tables into formulas over others of them. Without any, all
	// numbers are worked out by boxbook, and look it.
	sums map[*report.Table]tableSums
}

// tableSums gives the formula of a cell of a table, "" for one that has none: of
// a body's row where foot is body, else of that row of the footer.
type tableSums func(d docTable, column, row, foot int) string

// body is no row of a footer.
const body = -1

// docTable is where a table of a document stands.
type docTable struct {
	table *report.Table
	head  int
	rows  int   // of the body on the sheet, headings that stand there again included
	at    []int // the first column of each of the table's columns
}

// The widths of a document's grid.
const (
	docFirst = 34
	docOther = 11.5
	docLeast = 10 // columns
)

// docColumns is how many columns of the grid a document needs.
func docColumns(doc report.Document) int {
	columns := docLeast
	for _, section := range doc.Sections {
		for _, block := range section.Blocks {
			if t, ok := block.(*report.Table); ok {
				at := docGrid(t)
				columns = max(columns, at[len(at)-1]-1)
			}
		}
	}
	return columns
}

// docGrid gives the first column of each of a table's columns, and the one
// after the last: what needs room takes two of the narrow columns, and a text
// at the end of a row all that are left.
func docGrid(t *report.Table) []int {
	at, next := make([]int, 0, len(t.Columns)+1), 1
	for i, c := range t.Columns {
		at = append(at, next)
		next++
		if i > 0 && (c.Flexible || longest(t, i) > docOther) {
			next++
		}
		if i == len(t.Columns)-1 && c.Flexible {
			next = max(next, docLeast+1)
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

// newDocWriter sets the columns of the sheet being written.
func newDocWriter(b *xlsx.Book, doc report.Document, firstRow int) *docWriter {
	w := &docWriter{b: b, row: firstRow, columns: docColumns(doc), tables: map[*report.Table]docTable{}}
	b.Width(1, 1, docFirst)
	b.Width(2, w.columns, docOther)
	w.pages = xlsx.NewPager(b, w.columns, 1)
	return w
}

// title writes what the page is about and as of when.
func (w *docWriter) title(title, subtitle string) {
	w.b.TitleLine(w.row, w.columns, w.width(1), title, 16)
	w.row++
	if subtitle != "" {
		w.text(subtitle, xlsx.Look{Grey: true, Align: "left", Wrap: true})
	}
	w.row++
}

// document writes all sections, and the caution at the foot.
func (w *docWriter) document(doc report.Document) {
	for _, section := range doc.Sections {
		w.section(section)
	}
	if doc.Caution != "" {
		w.text(doc.Caution, xlsx.Look{Align: "left", Wrap: true})
		w.row++
	}
}

func (w *docWriter) section(section report.Section) {
	if section.Heading != "" {
		w.room(sectionHead + w.tall(section.Blocks[:min(1, len(section.Blocks))], sectionHead))
		w.heading(section.Heading, 13)
	}
	for i, block := range section.Blocks {
		if i > 0 || section.Heading == "" {
			w.keep(block)
		}
		switch block := block.(type) {
		case *report.Paragraph:
			w.text(block.Text, xlsx.Look{Align: "left", Wrap: true})
		case *report.Notes:
			w.notes(block)
		case *report.Facts:
			w.facts(block)
		case *report.Table:
			w.table(block)
		case *report.Series:
			continue // drawn as a chart where it is wanted
		}
	}
	w.row++
}

// newPage lets a printed page begin here.
func (w *docWriter) newPage() { w.pages.Begin(w.row) }

// room lets a printed page begin here where so many points do not fit on this
// one.
func (w *docWriter) room(points float64) {
	if !w.pages.Fits(w.row, points) {
		w.newPage()
	}
}

// keep lets a printed page begin at a table or at facts where they do not fit
// on this one.
func (w *docWriter) keep(block report.Block) {
	switch block.(type) {
	case *report.Table, *report.Facts:
		w.room(w.tall([]report.Block{block}, 0))
	}
}

// tall is how high the rows of blocks are that stay together, in points: a table
// or facts as a whole where a page has room for that and what stands before
// them, else their first rows; of other blocks the first row.
func (w *docWriter) tall(blocks []report.Block, before float64) float64 {
	sum := 0.0
	for _, block := range blocks {
		switch block := block.(type) {
		case *report.Paragraph:
			sum += w.textTall(1, block.Text)
		case *report.Notes:
			if len(block.Items) > 0 {
				sum += w.textTall(1, noteWords(block.Items[0]))
			}
		case *report.Facts:
			var rows []float64
			for _, f := range block.Items {
				rows = append(rows, w.textTall(2, f.Value.String()))
			}
			sum += w.together(0, rows, before)
		case *report.Table:
			sum += w.tableTall(block, before)
		}
	}
	return sum
}

// documentTall is how high a document is at the least.
func (w *docWriter) documentTall(doc report.Document) float64 {
	sum := 0.0
	for _, section := range doc.Sections {
		if section.Heading != "" {
			sum += sectionHead
		}
		for _, block := range section.Blocks {
			if notes, ok := block.(*report.Notes); ok {
				for _, n := range notes.Items {
					sum += w.textTall(1, noteWords(n))
				}
				continue
			}
			sum += w.tall([]report.Block{block}, 0)
			if _, ok := block.(*report.Table); ok {
				sum += xlsx.LineHeight
			}
		}
		sum += xlsx.LineHeight
	}
	if doc.Caution != "" {
		sum += w.textTall(1, doc.Caution) + xlsx.LineHeight
	}
	return sum
}

func (w *docWriter) tableTall(t *report.Table, before float64) float64 {
	d := docTable{table: t, at: docGrid(t)}
	head := xlsx.LineHeight * float64(d.headLines())
	if t.Title != "" {
		head += 2 * xlsx.LineHeight
	}
	var rows []float64
	for _, cells := range slices.Concat(t.Rows, t.Footer) {
		rows = append(rows, xlsx.LineHeight*float64(d.lines(cells)))
	}
	return w.together(head, rows, before)
}

// together is how high a heading and its rows are, or those of the first rows
// that no page ends between.
func (w *docWriter) together(head float64, rows []float64, before float64) float64 {
	whole, first := head, head
	for i, r := range rows {
		whole += r
		if i < xlsx.LeastRows {
			first += r
		}
	}
	if w.pages.OnePage(before + whole) {
		return whole
	}
	return first
}

func (w *docWriter) textTall(from int, words string) float64 {
	return xlsx.LineHeight * float64(xlsx.TextLines(words, w.width(from)*xlsx.ProseDensity))
}

// sectionHead is the height of a section's heading, in points.
const sectionHead = 20

func (w *docWriter) heading(words string, size float64) {
	w.b.Text(1, w.row, words, xlsx.Look{Bold: true, Size: size, Align: "left"})
	w.b.Heights(w.row, w.row, 1)
	if size > 12 {
		w.b.Height(w.row, sectionHead)
	}
	w.row++
}

// text writes a paragraph over the whole width.
func (w *docWriter) text(words string, l xlsx.Look) { w.spread(1, words, l) }

// spread writes a text from a column to the last one, as high as it needs.
func (w *docWriter) spread(from int, words string, l xlsx.Look) {
	w.b.Across(from, w.row, w.columns, w.width(from), words, l)
	w.row++
}

// width is how wide the page is from a column on.
func (w *docWriter) width(from int) float64 {
	width := docOther * float64(w.columns-max(from-1, 1))
	if from == 1 {
		width += docFirst
	}
	return width
}

func (w *docWriter) notes(notes *report.Notes) {
	for _, n := range notes.Items {
		w.text(noteWords(n), xlsx.Look{Italic: true, Grey: true, Align: "left", Wrap: true})
	}
}

func noteWords(n report.Note) string {
	if n.Mark != "" {
		return n.Mark + " " + n.Text
	}
	return n.Text
}

// facts writes labels with their values beside them.
func (w *docWriter) facts(facts *report.Facts) {
	for _, f := range facts.Items {
		w.b.Text(1, w.row, f.Label, xlsx.Look{Align: "left", Bold: true})
		l := cellLook(f.Value, report.Left)
		if _, numeric := f.Value.Number(); numeric {
			w.b.Put(2, w.row, cellValue(f.Value), w.numberLook(l))
			w.b.Heights(w.row, w.row, 1)
			w.row++
			continue
		}
		l.Wrap, l.Line = true, false
		w.spread(2, f.Value.String(), l)
	}
}

// table writes a table and notes where it is.
func (w *docWriter) table(t *report.Table) {
	if t.Title != "" {
		if len(w.tables) > 0 {
			w.row++
		}
		w.heading(t.Title, 11)
	}
	d := docTable{table: t, head: w.row, at: docGrid(t)}
	w.tableHead(d)
	for _, row := range t.Rows {
		w.repeatHead(d, row)
		d.rows = w.row - d.head
		w.tableRow(d, row, body)
	}
	d.rows = w.row - d.head - 1
	w.tables[t] = d
	for i, row := range t.Footer {
		w.tableRow(d, row, i)
	}
	w.row++
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
		return docFirst
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

// lines is how many lines a row takes.
func (d docTable) lines(cells []report.Cell) int {
	lines := 1
	for i, cell := range cells {
		lines = max(lines, xlsx.Column[int]{Width: d.width(i)}.Lines(cell.String(), d.wraps(i, cell)))
	}
	return lines
}

func (w *docWriter) tableRow(d docTable, cells []report.Cell, foot int) {
	for i, c := range d.table.Columns {
		cell := report.Empty()
		if i < len(cells) {
			cell = cells[i]
		}
		l := cellLook(cell, c.Align)
		l.Indent = stepIn(i, c.Align)
		l.Bold, l.Wrap = l.Bold || foot != body, d.wraps(i, cell)
		if formula := w.sum(d, i, cell, foot); formula != "" {
			w.b.Formula(d.at[i], w.row, formula, cellValue(cell), l.Live())
		} else {
			if _, numeric := cell.Number(); numeric {
				l = w.numberLook(l)
			}
			w.b.Put(d.at[i], w.row, cellValue(cell), l)
		}
		w.b.Merge(d.at[i], w.row, d.at[i+1]-1, l)
	}
	w.b.Heights(w.row, w.row, d.lines(cells))
	w.row++
}

// sum is the formula of a cell that adds up others of its table, "" for one that
// does not.
func (w *docWriter) sum(d docTable, column int, cell report.Cell, foot int) string {
	sums := w.sums[d.table]
	if number, numeric := cell.Number(); sums == nil || !numeric || !number.Known() || d.rows == 0 {
		return ""
	}
	return sums(d, column, w.row, foot)
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
	_, fraction, _ := strings.Cut(c.String(), ".")
	l.Format = "0"
	if fraction != "" {
		l.Format += "." + strings.Repeat("0", len(fraction))
	}
	plain := l.Format
	if strings.HasPrefix(c.String(), "+") {
		l.Format = fmt.Sprintf("+%[1]s;-%[1]s;%[1]s", plain)
	}
	if c.Mark != "" {
		l.Format = fmt.Sprintf(`%[1]s"%[2]s";-%[1]s"%[2]s"`, plain, c.Mark)
	}
	return l
}

// numberLook is the look of a number that no cell's formula gives.
func (w *docWriter) numberLook(l xlsx.Look) xlsx.Look {
	if w.sums != nil {
		return l
	}
	return l.Stat()
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
