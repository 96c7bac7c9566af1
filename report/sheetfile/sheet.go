package sheetfile

import (
	"cmp"
	"encoding/xml"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"boxbook/season"
	"boxbook/season/sheetimport"
)

// sharedTexts reads the texts that cells share, by number.
func (w *workbook) sharedTexts(part string) ([]string, error) {
	var texts []string
	err := w.read(part, func(x *elements, el xml.StartElement) error {
		if el.Name.Local != "si" {
			return nil
		}
		text, err := x.text()
		texts = append(texts, text)
		return err
	})
	return texts, err
}

// readSheet reads the cells of a sheet, and which of them were merged.
func (w *workbook) readSheet(chosen worksheet) (sheetimport.Grid, error) {
	s := &sheetReader{w: w, grid: sheetimport.Grid{Name: chosen.name, Hidden: chosen.hidden}}
	if w.parts[partKey(chosen.part)] == nil {
		return s.grid, w.refuse("is a damaged workbook: the sheet %q is not in it", shortened(chosen.name))
	}
	err := w.read(chosen.part, func(x *elements, el xml.StartElement) error {
		switch el.Name.Local {
		case "col":
			s.hiddenColumns(el)
		case "sheetData":
			return s.rows(x)
		case "mergeCell":
			return s.merged(attribute(el, "ref"))
		}
		return nil
	})
	return s.grid, err
}

// sheetReader gathers one sheet.
type sheetReader struct {
	w    *workbook
	grid sheetimport.Grid
	row  int // the number of the row being read
}

// count holds the sheets that are read to their number of cells.
func (s *sheetReader) count() error {
	if s.w.seen++; s.w.seen > maxCells {
		return tooManyCells(s.w.name)
	}
	return nil
}

// rows reads everything up to the end of sheetData.
func (s *sheetReader) rows(x *elements) error {
	for {
		token, err := x.next()
		if err != nil {
			return unended(err)
		}
		switch el := token.(type) {
		case xml.EndElement:
			return nil
		case xml.StartElement:
			if el.Name.Local != "row" {
				if err := x.skip(); err != nil {
					return err
				}
				continue
			}
			if err := s.cells(x, el); err != nil {
				return err
			}
		}
	}
}

// unended turns the end of a part inside an element into damage.
func unended(err error) error {
	if errors.Is(err, io.EOF) {
		return io.ErrUnexpectedEOF
	}
	return err
}

// cells reads one row.
func (s *sheetReader) cells(x *elements, el xml.StartElement) error {
	if err := s.count(); err != nil {
		return err
	}
	number := s.row + 1
	if text := attribute(el, "r"); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < number {
			return s.w.refuse("is a damaged workbook: its rows are out of order")
		}
		number = n
	}
	if number > maxRow {
		return s.w.refuse("is a damaged workbook: it has a row beyond the last one")
	}
	s.row = number
	row := sheetimport.Row{Number: number}
	hidden := truth(attribute(el, "hidden"))
	column := 0
	for {
		token, err := x.next()
		if err != nil {
			return unended(err)
		}
		switch el := token.(type) {
		case xml.StartElement:
			if el.Name.Local != "c" {
				if err := x.skip(); err != nil {
					return err
				}
				continue
			}
			cell, err := s.cell(x, el, column)
			if err != nil {
				return err
			}
			if column = cell.Column; cell.Kind != sheetimport.Empty {
				row.Cells = append(row.Cells, cell)
			}
		case xml.EndElement:
			if hidden && len(row.Cells) > 0 {
				s.grid.HiddenRows = append(s.grid.HiddenRows, number)
			}
			return s.keep(row)
		}
	}
}

// hiddenColumns notes columns that the sheet hides.
func (s *sheetReader) hiddenColumns(el xml.StartElement) {
	from, err := strconv.Atoi(attribute(el, "min"))
	to, errTo := strconv.Atoi(attribute(el, "max"))
	if truth(attribute(el, "hidden")) && err == nil && errTo == nil && from >= 1 && to >= from && len(s.grid.HiddenColumns) < maxHidden {
		s.grid.HiddenColumns = append(s.grid.HiddenColumns, sheetimport.Span{From: from, To: to})
	}
}

// keep adds a row that holds something.
func (s *sheetReader) keep(row sheetimport.Row) error {
	slices.SortStableFunc(row.Cells, func(a, b sheetimport.Cell) int { return cmp.Compare(a.Column, b.Column) })
	for i := 1; i < len(row.Cells); i++ {
		if row.Cells[i].Column == row.Cells[i-1].Column {
			return s.w.refuse("is a damaged workbook: it has the cell %s twice", sheetimport.CellName(row.Cells[i].Column, row.Number))
		}
	}
	if len(row.Cells) > 0 {
		s.grid.Rows = append(s.grid.Rows, row)
	}
	return nil
}

// cell reads one cell; before is the column of the one before it.
func (s *sheetReader) cell(x *elements, el xml.StartElement, before int) (sheetimport.Cell, error) {
	cell := sheetimport.Cell{Column: before + 1}
	if err := s.count(); err != nil {
		return cell, err
	}
	if name := attribute(el, "r"); name != "" {
		column, row, ok := cellPlace(name)
		if !ok || row != s.row {
			return cell, s.w.refuse("is a damaged workbook: a cell of row %d is called %q", s.row, shortened(name))
		}
		cell.Column = column
	}
	if cell.Column > sheetimport.LastColumn {
		return cell, s.w.refuse("is a damaged workbook: row %d has more cells than a sheet has columns", s.row)
	}
	value, valued, err := s.content(x, &cell)
	if err != nil {
		return cell, err
	}
	s.typed(&cell, attribute(el, "t"), attribute(el, "s"), value, valued)
	return cell, nil
}

// content reads what stands inside a cell. valued says that there is a value;
// the text of a formula is passed over.
func (s *sheetReader) content(x *elements, cell *sheetimport.Cell) (value string, valued bool, err error) {
	for {
		token, err := x.next()
		if err != nil {
			return "", false, unended(err)
		}
		switch el := token.(type) {
		case xml.EndElement:
			return value, valued, nil
		case xml.StartElement:
			switch el.Name.Local {
			case "v":
				valued = true
				value, err = x.plain()
			case "is":
				valued = true
				value, err = x.text()
			case "f":
				cell.Formula = true
				err = x.skip()
			default:
				err = x.skip()
			}
			if err != nil {
				return "", false, unended(err)
			}
		}
	}
}

// typed gives a cell its kind and its text. The types are those of ECMA-376,
// part 1, 18.18.11.
func (s *sheetReader) typed(cell *sheetimport.Cell, kind, style, value string, valued bool) {
	set := func(k sheetimport.Kind, text string) {
		if text != "" {
			cell.Kind, cell.Text = k, text
		}
	}
	if cell.Formula && (!valued || (value == "" && kind != "str")) {
		cell.Kind = sheetimport.Unsolved
		return
	}
	switch kind {
	case "s":
		if !valued {
			return
		}
		if n, err := strconv.Atoi(value); err == nil && n >= 0 && n < len(s.w.texts) {
			set(sheetimport.Text, s.w.texts[n])
			return
		}
		set(sheetimport.Failure, "a text that the workbook does not have")
	case "str", "inlineStr":
		set(sheetimport.Text, value)
	case "b":
		set(sheetimport.Truth, map[bool]string{true: "TRUE", false: "FALSE"}[truth(value)])
	case "e":
		set(sheetimport.Failure, value)
	case "d":
		day, _, _ := strings.Cut(value, "T")
		set(sheetimport.Date, day)
	default:
		s.number(cell, style, value)
	}
	if cell.Kind == sheetimport.Empty {
		cell.Formula = false
	}
}

// number gives a number its shortest text: what a program keeps as
// 8.6999999999999993 was typed as 8.7.
func (s *sheetReader) number(cell *sheetimport.Cell, style, value string) {
	if value == "" {
		return
	}
	n, err := strconv.ParseFloat(value, 64)
	if err != nil {
		cell.Kind, cell.Text = sheetimport.Text, value
		return
	}
	cell.Kind, cell.Text = sheetimport.Number, strconv.FormatFloat(n, 'g', -1, 64)
	if n > -1e15 && n < 1e15 {
		cell.Text = strconv.FormatFloat(n, 'f', -1, 64)
	}
	if i, err := strconv.Atoi(style); err == nil && i >= 0 && i < len(s.w.dates) && s.w.dates[i] {
		cell.Kind = sheetimport.Date
		if date, ok := s.w.day(n); ok {
			cell.Text = date.String()
		}
	}
}

const (
	// firstAgreed is 1900-03-01: spreadsheet programs disagree about the days
	// before it, some having a 29th of February 1900.
	firstAgreed = 61
	// epoch is 1970-01-01 as a spreadsheet counts days.
	epoch = 25569
	// years1904 is 1904-01-01, from which some workbooks count.
	years1904 = 1462
	// lastDay is 9999-12-31.
	lastDay = 2958465
)

// day is a number as a date; false where it is none that programs agree on.
func (w *workbook) day(n float64) (season.Date, bool) {
	if w.date1904 {
		n += years1904
	}
	if !(n >= firstAgreed && n < lastDay+1) {
		return 0, false
	}
	return season.Date(int(n) - epoch), true
}

// merged notes an area of cells that were merged.
func (s *sheetReader) merged(ref string) error {
	from, to, found := strings.Cut(ref, ":")
	left, top, ok := cellPlace(from)
	right, bottom, too := cellPlace(to)
	switch {
	case !found || !ok || !too:
		return s.w.refuse("is a damaged workbook: %q names no merged cells", shortened(ref))
	case len(s.grid.Merged) == maxMerged:
		return s.w.refuse("has more than %d merged areas, far more than a score sheet", maxMerged)
	}
	s.grid.Merged = append(s.grid.Merged, sheetimport.Area{
		Left: min(left, right), Top: min(top, bottom), Right: max(left, right), Bottom: max(top, bottom),
	})
	return nil
}

// cellPlace reads a cell's name: B7.
func cellPlace(name string) (column, row int, ok bool) {
	letters := strings.TrimRight(name, "0123456789")
	column, ok = sheetimport.ColumnNumber(letters)
	row, err := strconv.Atoi(name[len(letters):])
	return column, row, ok && err == nil && row >= 1 && row <= maxRow
}
