package xlsx

import (
	"errors"
	"fmt"
	"io"
	"sort"
	"strconv"
	"sync"

	"github.com/xuri/excelize/v2"
)

// Book is a workbook being written. The first error stays and is told at the
// end, so that the sheets read as what they are.
type Book struct {
	file  *excelize.File
	sheet string // the sheet being written
	grid  *grid  // its cells
	// Tables are those of all sheets, by name.
	Tables map[string]Placed
	// Nothing stands in the first row of a table without rows.
	Nothing string
	// templates are formulas taken apart, by table.
	templates map[templateKey]*template
	sheets    []string
	styles    map[Look]int
	grids     map[string]*grid // by sheet
	charts    []ChartValues    // by number of the chart
	sparks    map[string][]sparkline
	ends      map[string]int // of sheets that are not printed to their last row
	// told hears how many rows of sheets are written; it may be nil.
	told func(done, total int)
	err  error
}

// NewBook begins a workbook; told hears how many rows of sheets are written, and
// may be nil.
func NewBook(told func(done, total int)) *Book {
	return &Book{
		told: told,
		file: excelize.NewFile(), Tables: map[string]Placed{}, templates: map[templateKey]*template{}, styles: map[Look]int{},
		grids: map[string]*grid{}, sparks: map[string][]sparkline{}, ends: map[string]int{},
	}
}

// Close lets go of the library's file.
func (b *Book) Close() { _ = b.file.Close() }

// fail keeps the first error.
func (b *Book) fail(err error) {
	if b.err == nil && err != nil {
		b.err = err
	}
}

// Add makes the sheet and notes where its tables are.
func (b *Book) Add(s Sheet) {
	if len(b.sheets) == 0 {
		b.fail(b.file.SetSheetName("Sheet1", s.Name))
	} else {
		_, err := b.file.NewSheet(s.Name)
		b.fail(err)
	}
	b.sheets = append(b.sheets, s.Name)
	b.grids[s.Name] = &grid{}
	for _, p := range s.Tables {
		b.Tables[p.Name] = p
	}
}

// At names a cell, such as B12.
func At(column, row int) string { return ColumnName(column) + strconv.Itoa(row) }

// Turn goes to a sheet to write on it.
func (b *Book) Turn(sheet string) { b.sheet, b.grid = sheet, b.grids[sheet] }

// EndPrint says that what is written from here on stands beneath what is printed.
func (b *Book) EndPrint() { b.ends[b.sheet] = len(b.grid.rows) }

// Text writes a plain text, whatever it begins with: never a formula.
func (b *Book) Text(column, row int, s string, l Look) { b.Put(column, row, Text(s), l) }

// Put writes a typed value.
func (b *Book) Put(column, row int, v Value, l Look) {
	c := b.grid.cell(column, row)
	c.value, c.style = v, b.styleOf(l)
}

// Formula writes a formula and what it comes to.
func (b *Book) Formula(column, row int, formula string, v Value, l Look) {
	c := b.grid.cell(column, row)
	c.formula, c.value, c.style = formula, v, b.styleOf(l)
}

// styleOf is the number of a look's style in the file.
func (b *Book) styleOf(l Look) int {
	id, ok := b.styles[l]
	if !ok {
		var err error
		id, err = b.file.NewStyle(l.style())
		b.fail(err)
		b.styles[l] = id
	}
	return id
}

// Merge makes one cell of a row's cells, with one look.
func (b *Book) Merge(from, row, to int, l Look) {
	if to <= from {
		return
	}
	style := b.styleOf(l)
	for column := from; column <= to; column++ {
		b.grid.cell(column, row).style = style
	}
	b.grid.merged = append(b.grid.merged, [2]string{At(from, row), At(to, row)})
}

// Across writes a text over a row's cells, which are so wide together, and makes
// the row as high as it needs.
func (b *Book) Across(from, row, to int, width float64, words string, l Look) {
	b.Text(from, row, words, l)
	b.Merge(from, row, to, l)
	b.Heights(row, row, TextLines(words, width*ProseDensity))
}

// TitleLine writes a page's title over the page's width, in letters of that
// size.
func (b *Book) TitleLine(row, to int, width float64, words string, size float64) {
	l := Look{Bold: true, Size: size, Align: "left", Wrap: true}
	b.Text(1, row, words, l)
	b.Merge(1, row, to, l)
	b.Height(row, (1.5*size+1)*float64(TextLines(words, width*usualSize/size)))
}

// tallest is how high a row may be, in points (the limits of Excel,
// Microsoft).
const tallest = 409

// Height sets how high a row is, in points. Where a text needs more than a row may
// have it stands whole in its cell, and the row shows its beginning.
func (b *Book) Height(row int, points float64) { b.grid.row(row).height = min(points, tallest) }

// Width sets how wide columns are, in characters.
func (b *Book) Width(from, to int, characters float64) {
	for column := from; column <= to; column++ {
		b.grid.column(column).width = characters
	}
}

// Fold hides a working column, so that a reader can unfold it.
func (b *Book) Fold(column int) { b.grid.column(column).folded = true }

// addChart lays a chart over the sheet. The library counts where it ends by the
// sizes of rows and columns.
func (b *Book) addChart(sheet, at string, chart *excelize.Chart) {
	b.fail(b.grids[sheet].setSizes(b.file, sheet))
	b.fail(b.file.AddChart(sheet, at, chart))
}

// Write packs the workbook.
func (b *Book) Write(w io.Writer) error {
	if b.err != nil {
		return b.err
	}
	b.file.SetActiveSheet(0)
	// The library keeps these in the order of a map.
	types := b.file.ContentTypes.Defaults
	sort.Slice(types, func(i, j int) bool { return types[i].Extension < types[j].Extension })
	if err := b.writeGrids(); err != nil {
		return err
	}
	b.file.SetZipWriter(func(out io.Writer) excelize.ZipWriter { return newPacker(out, b.sparkParts(), b.charts) })
	return b.file.Write(w)
}

// writeGrids writes the sheets' cells side by side: a sheet's rows touch nothing
// but its own stream.
func (b *Book) writeGrids() error {
	streams, failures := make([]*excelize.StreamWriter, len(b.sheets)), make([]error, len(b.sheets))
	rows := 0
	for i, name := range b.sheets {
		if streams[i], failures[i] = b.grids[name].stream(b.file, name); failures[i] != nil {
			return failures[i]
		}
		rows += len(b.grids[name].rows)
	}
	var done progressed
	var all sync.WaitGroup
	for i, name := range b.sheets {
		all.Go(func() {
			failures[i] = b.grids[name].write(streams[i], func() { done.one(b.told, rows) })
		})
	}
	all.Wait()
	if err := errors.Join(failures...); err != nil {
		return err
	}
	for _, s := range streams {
		if err := s.Flush(); err != nil {
			return err
		}
	}
	return nil
}

// progressed counts rows of sheets that are written side by side.
type progressed struct {
	mutex sync.Mutex
	rows  int
}

// one more row is through.
func (p *progressed) one(told func(done, total int), total int) {
	if told == nil {
		return
	}
	p.mutex.Lock()
	defer p.mutex.Unlock()
	p.rows++
	told(p.rows, total)
}

// Spark draws small columns in a cell, of the values of an area.
func (b *Book) Spark(sheet, at, area string) {
	b.sparks[sheet] = append(b.sparks[sheet], sparkline{at: at, area: area})
}

// sparkParts says which part of the file holds which sparklines.
func (b *Book) sparkParts() map[string][]sparkline {
	parts := map[string][]sparkline{}
	for i, name := range b.sheets {
		parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = b.sparks[name]
	}
	return parts
}

// columnNames are the letters of the columns that sheets have.
var columnNames = func() (names [100]string) {
	for i := range names {
		names[i] = lettersOf(i)
	}
	return names
}()

// ColumnName gives the letters of a column counted from 1.
func ColumnName(column int) string {
	if column < len(columnNames) {
		return columnNames[column]
	}
	return lettersOf(column)
}

func lettersOf(column int) string {
	name, _ := excelize.ColumnNumberToName(column) // fails only beyond 16384 columns
	return name
}
