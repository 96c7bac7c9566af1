package workbook

import (
	"errors"
	"fmt"
	"io"
	"sort"
	"strconv"
	"strings"
	"sync"

	"github.com/xuri/excelize/v2"
)

// book is a workbook being written. The first error stays and is told at the
// end, so that the sheets read as what they are.
type book struct {
	file   *excelize.File
	sheet  string // the sheet being written
	grid   *grid  // its cells
	tables map[string]placed
	// templates are formulas taken apart, by table.
	templates map[templateKey]*template
	sheets    []string
	styles    map[look]int
	grids     map[string]*grid // by sheet
	charts    []chartValues    // by number of the chart
	sparks    map[string][]sparkline
	// told hears how many rows of sheets are written; it may be nil.
	told func(done, total int)
	err  error
}

// newBook begins a workbook; told hears how many rows of sheets are written, and
// may be nil.
func newBook(told func(done, total int)) *book {
	return &book{
		told: told,
		file: excelize.NewFile(), tables: map[string]placed{}, templates: map[templateKey]*template{}, styles: map[look]int{},
		grids: map[string]*grid{}, sparks: map[string][]sparkline{},
	}
}

// close lets go of the library's file.
func (b *book) close() { _ = b.file.Close() }

// fail keeps the first error.
func (b *book) fail(err error) {
	if b.err == nil && err != nil {
		b.err = err
	}
}

// add makes the sheet and notes where its tables are.
func (b *book) add(s sheet) {
	if len(b.sheets) == 0 {
		b.fail(b.file.SetSheetName("Sheet1", s.name))
	} else {
		_, err := b.file.NewSheet(s.name)
		b.fail(err)
	}
	b.sheets = append(b.sheets, s.name)
	b.grids[s.name] = &grid{}
	for _, p := range s.tables {
		b.tables[p.name] = p
	}
}

func (b *book) at(column, row int) string { return columnName(column) + strconv.Itoa(row) }

// turn goes to a sheet to write on it.
func (b *book) turn(sheet string) { b.sheet, b.grid = sheet, b.grids[sheet] }

// text writes a plain text, whatever it begins with: never a formula.
func (b *book) text(column, row int, s string, l look) { b.put(column, row, text(s), l) }

// put writes a typed value.
func (b *book) put(column, row int, v value, l look) {
	c := b.grid.cell(column, row)
	c.value, c.style = v, b.styleOf(l)
}

// formula writes a formula and what it comes to.
func (b *book) formula(column, row int, formula string, v value, l look) {
	c := b.grid.cell(column, row)
	c.formula, c.value, c.style = formula, v, b.styleOf(l)
}

// styleOf is the number of a look's style in the file.
func (b *book) styleOf(l look) int {
	id, ok := b.styles[l]
	if !ok {
		var err error
		id, err = b.file.NewStyle(l.style())
		b.fail(err)
		b.styles[l] = id
	}
	return id
}

// merge makes one cell of a row's cells, with one look.
func (b *book) merge(from, row, to int, l look) {
	if to <= from {
		return
	}
	style := b.styleOf(l)
	for column := from; column <= to; column++ {
		b.grid.cell(column, row).style = style
	}
	b.grid.merged = append(b.grid.merged, [2]string{b.at(from, row), b.at(to, row)})
}

// across writes a text over a row's cells, which are so wide together, and makes
// the row as high as it needs.
func (b *book) across(from, row, to int, width float64, words string, l look) {
	b.text(from, row, words, l)
	b.merge(from, row, to, l)
	b.heights(row, row, textLines(words, width*proseDensity))
}

// titleLine writes a page's title over the page's width, in letters of that
// size.
func (b *book) titleLine(row, to int, width float64, words string, size float64) {
	l := look{bold: true, size: size, align: "left", wrap: true}
	b.text(1, row, words, l)
	b.merge(1, row, to, l)
	b.height(row, (1.5*size+1)*float64(textLines(words, width*usualSize/size)))
}

// height sets how high a row is, in points.
func (b *book) height(row int, points float64) { b.grid.row(row).height = points }

// width sets how wide columns are, in characters.
func (b *book) width(from, to int, characters float64) {
	for column := from; column <= to; column++ {
		b.grid.column(column).width = characters
	}
}

// fold hides a working column, so that a reader can unfold it.
func (b *book) fold(column int) { b.grid.column(column).folded = true }

// addChart lays a chart over the sheet. The library counts where it ends by the
// sizes of rows and columns.
func (b *book) addChart(sheet, at string, chart *excelize.Chart) {
	b.fail(b.grids[sheet].setSizes(b.file, sheet))
	b.fail(b.file.AddChart(sheet, at, chart))
}

// write packs the workbook.
func (b *book) write(w io.Writer) error {
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
func (b *book) writeGrids() error {
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

// sparkParts says which part of the file holds which lines in cells.
func (b *book) sparkParts() map[string][]sparkline {
	parts := map[string][]sparkline{}
	for i, name := range b.sheets {
		parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = b.sparks[name]
	}
	return parts
}

// quoted is a text inside a formula; a formula's own texts have at most 255
// characters. Braces are kept from being read as references.
func quoted(s string) string {
	return `"` + strings.ReplaceAll(strings.ReplaceAll(s, `"`, `""`), "{", brace) + `"`
}

// brace stands for { until references are put in; no ledger can hold it.
const brace = "\x01"

// columnNames are the letters of the columns that sheets have.
var columnNames = func() (names [100]string) {
	for i := range names {
		names[i] = lettersOf(i)
	}
	return names
}()

// columnName gives the letters of a column counted from 1.
func columnName(column int) string {
	if column < len(columnNames) {
		return columnNames[column]
	}
	return lettersOf(column)
}

func lettersOf(column int) string {
	name, _ := excelize.ColumnNumberToName(column) // fails only beyond 16384 columns
	return name
}
