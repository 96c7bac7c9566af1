package workbook

import (
	"fmt"
	"io"
	"sort"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// book is a workbook being written. The first error stays and is told at the
// end, so that the sheets read as what they are.
type book struct {
	file   *excelize.File
	sheet  string // the sheet being written
	tables map[string]placed
	// templates are formulas taken apart, by table.
	templates map[templateKey]template
	sheets    []string
	styles    map[look]int
	caches    map[string]map[cellAt]value // by sheet and cell: what formulas come to
	extent    map[string]*extent          // how far each sheet goes
	charts    []chartValues               // by number of the chart
	err       error
}

// cellAt is a cell by its column and row, from 1.
type cellAt struct{ column, row int32 }

// extent is how far a sheet goes.
type extent struct{ column, row int }

func newBook() *book {
	return &book{
		file: excelize.NewFile(), tables: map[string]placed{}, templates: map[templateKey]template{}, styles: map[look]int{},
		caches: map[string]map[cellAt]value{}, extent: map[string]*extent{},
	}
}

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
	b.caches[s.name], b.extent[s.name] = map[cellAt]value{}, &extent{}
	for _, p := range s.tables {
		b.tables[p.name] = p
	}
}

func (b *book) at(column, row int) string { return columnName(column) + strconv.Itoa(row) }

// reach is at for a cell that is written.
func (b *book) reach(column, row int) string {
	e := b.extent[b.sheet]
	e.row, e.column = max(e.row, row), max(e.column, column)
	return b.at(column, row)
}

// text writes a plain text, whatever it begins with: never a formula.
func (b *book) text(column, row int, s string, l look) { b.put(column, row, text(s), l) }

// put writes a typed value.
func (b *book) put(column, row int, v value, l look) {
	cell := b.bare(column, row, v)
	b.style(cell, cell, l)
}

// bare writes a typed value in whatever look the cell has.
func (b *book) bare(column, row int, v value) string {
	cell := b.reach(column, row)
	switch {
	case v.numeric:
		b.fail(b.file.SetCellFloat(b.sheet, cell, v.number, -1, 64))
	case v.text != "":
		b.fail(b.file.SetCellStr(b.sheet, cell, v.text))
	}
	return cell
}

// formula writes a formula and what it comes to.
func (b *book) formula(column, row int, formula string, v value, l look) {
	cell := b.bareFormula(column, row, formula, v)
	b.style(cell, cell, l)
}

// bareFormula writes a formula in whatever look the cell has.
func (b *book) bareFormula(column, row int, formula string, v value) string {
	cell := b.reach(column, row)
	b.fail(b.file.SetCellFormula(b.sheet, cell, formula))
	b.caches[b.sheet][cellAt{int32(column), int32(row)}] = v
	return cell
}

func (b *book) style(from, to string, l look) {
	id, ok := b.styles[l]
	if !ok {
		var err error
		id, err = b.file.NewStyle(l.style())
		b.fail(err)
		b.styles[l] = id
	}
	b.fail(b.file.SetCellStyle(b.sheet, from, to, id))
}

// conditional lays conditional formats over an area.
func (b *book) conditional(area string, rules ...excelize.ConditionalFormatOptions) {
	b.fail(b.file.SetConditionalFormat(b.sheet, area, rules))
}

// dressed is a conditional format: a formula and what cells look like for
// which it holds.
func (b *book) dressed(formula string, style *excelize.Style) excelize.ConditionalFormatOptions {
	id, err := b.file.NewConditionalStyle(style)
	b.fail(err)
	return excelize.ConditionalFormatOptions{Type: "formula", Criteria: formula, Format: &id}
}

// choice lets only these words be typed into an area.
func (b *book) choice(area, message string, words ...string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	b.fail(v.SetDropList(words))
	v.SetError(excelize.DataValidationErrorStyleStop, "not known", message)
	b.fail(b.file.AddDataValidation(b.sheet, v))
}

// listed lets only the words of another table's column be typed into an area.
func (b *book) listed(area, message string, p placed, key string) {
	v := excelize.NewDataValidation(true)
	v.SetSqref(area)
	v.SetSqrefDropList(p.sheet + "!" + p.span(key, key))
	v.SetError(excelize.DataValidationErrorStyleStop, "not known", message)
	b.fail(b.file.AddDataValidation(b.sheet, v))
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
	b.file.SetZipWriter(func(out io.Writer) excelize.ZipWriter { return newPacker(out, b.parts(), b.charts) })
	return b.file.Write(w)
}

// parts says which part of the file holds which formulas' values.
func (b *book) parts() map[string]map[cellAt]value {
	parts := map[string]map[cellAt]value{}
	for i, name := range b.sheets {
		parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)] = b.caches[name]
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
