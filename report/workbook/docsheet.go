package workbook

import (
	"slices"

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
	grid    grid
	pages   *xlsx.Pager
	tables  map[*report.Table]docTable // where those on the sheet stand
}

// grid is that of a document: how wide its first column is, and how many there are at
// least. The others are as wide as docOther.
type grid struct {
	first float64
	least int
}

const docOther = 11.5

// usualGrid is that of most documents.
var usualGrid = grid{34, 10}

// newDocWriter sets the columns of the sheet being written.
func newDocWriter(b *xlsx.Book, doc report.Document, firstRow int, g grid) *docWriter {
	w := &docWriter{b: b, row: firstRow, columns: docColumns(doc, g), grid: g, tables: map[*report.Table]docTable{}}
	b.Width(1, 1, g.first)
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
	w.gap()
}

// document writes all sections, and the caution at the foot.
func (w *docWriter) document(doc report.Document) {
	for _, section := range doc.Sections {
		w.section(section)
	}
	if doc.Caution != "" {
		w.text(doc.Caution, xlsx.Look{Align: "left", Wrap: true})
		w.gap()
	}
}

func (w *docWriter) section(section report.Section) {
	if len(section.Parts) > 0 {
		w.sideBySide(section.Parts[0], section.Parts[1])
		w.gap()
		return
	}
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
	w.gap()
}

// gapTall is how high what sets parts of a page apart is, in points.
const gapTall = 7

// gap sets what follows apart.
func (w *docWriter) gap() {
	w.b.Height(w.row, gapTall)
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
				sum += gapTall
			}
		}
		sum += gapTall
	}
	if doc.Caution != "" {
		sum += w.textTall(1, doc.Caution) + gapTall
	}
	return sum
}

func (w *docWriter) tableTall(t *report.Table, before float64) float64 {
	d := docTable{table: t, at: docGrid(t, w.grid), first: w.grid.first}
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

func (w *docWriter) heading(text string, size float64) {
	w.b.Text(1, w.row, text, xlsx.Look{Bold: true, Size: size, Align: "left"})
	w.b.Heights(w.row, w.row, 1)
	if size > 12 {
		w.b.Height(w.row, sectionHead)
	}
	w.row++
}

// text writes a paragraph over the whole width.
func (w *docWriter) text(said string, l xlsx.Look) { w.spread(1, said, l) }

// spread writes a text from a column to the last one, as high as it needs.
func (w *docWriter) spread(from int, words string, l xlsx.Look) {
	w.b.Across(from, w.row, w.columns, w.width(from), words, l)
	w.row++
}

// width is how wide the page is from a column on.
func (w *docWriter) width(from int) float64 {
	width := docOther * float64(w.columns-max(from-1, 1))
	if from == 1 {
		width += w.grid.first
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

// sideBySide writes two sections of notes beside each other, each over half of the page.
func (w *docWriter) sideBySide(left, right report.Section) {
	half := 1 + (w.columns-1)/2
	sides := []struct {
		from, to, indent int
		width            float64
		section          report.Section
	}{{1, half, 0, w.width(1) - w.width(half+1), left}, {half + 1, w.columns, 1, w.width(half+1) - 1, right}}
	w.room(sectionHead + xlsx.LineHeight)
	for _, side := range sides {
		w.b.Text(side.from, w.row, side.section.Heading, xlsx.Look{Bold: true, Size: 13, Align: "left", Indent: side.indent})
	}
	w.b.Height(w.row, sectionHead)
	w.row++
	for i := 0; ; i++ {
		lines := 0
		for _, side := range sides {
			notes := notesIn(side.section)
			if i >= len(notes) {
				continue
			}
			l := xlsx.Look{Italic: true, Grey: true, Align: "left", Wrap: true, Indent: side.indent}
			said := noteWords(notes[i])
			w.b.Across(side.from, w.row, side.to, side.width, said, l)
			lines = max(lines, xlsx.TextLines(said, side.width*xlsx.ProseDensity))
		}
		if lines == 0 {
			return
		}
		w.b.Heights(w.row, w.row, lines)
		w.row++
	}
}

// notesIn are all notes of a section.
func notesIn(section report.Section) []report.Note {
	var notes []report.Note
	for _, block := range section.Blocks {
		if of, ok := block.(*report.Notes); ok {
			notes = append(notes, of.Items...)
		}
	}
	return notes
}

// facts writes labels with their values beside them.
func (w *docWriter) facts(facts *report.Facts) {
	for _, f := range facts.Items {
		w.b.Text(1, w.row, f.Label, xlsx.Look{Align: "left", Bold: true})
		l := cellLook(f.Value, report.Left)
		if _, numeric := f.Value.Number(); numeric {
			w.b.Put(2, w.row, cellValue(f.Value), l.Stat())
			w.b.Heights(w.row, w.row, 1)
			w.row++
			continue
		}
		l.Wrap, l.Line = true, false
		w.spread(2, f.Value.String(), l)
	}
}
