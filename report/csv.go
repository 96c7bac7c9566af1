package report

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"

	"boxbook/report/display"
)

// WriteCSV writes one table as comma-separated values, numbers unrounded and
// amounts of money with all their decimals: the document's main one. Headings, head, sentences, notes, totals and the marks
// behind values are not in it. A document without a table is written as its facts,
// one that has none of those either as its sentences, a row each. A caution is a
// last column of that name, said in the first row; where the table has no row, a
// row has it alone.
// Text that a spreadsheet would run as a formula gets an apostrophe in front.
func WriteCSV(w io.Writer, d Document) error {
	table := d.mainTable()
	if d.Caution != "" {
		table = cautionedTable(table, d.Caution)
	}
	out := csv.NewWriter(w)
	if len(table.Columns) > 0 {
		if err := writeRows(out, table); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// RowCount is how many rows WriteCSV writes beneath the headings of a document that
// has no caution.
func (d Document) RowCount() int { return len(d.mainTable().Rows) }

func writeRows(out *csv.Writer, t *Table) error {
	record := make([]string, len(t.Columns))
	for i, column := range t.Columns {
		record[i] = Harmless(column.Title)
	}
	if err := out.Write(record); err != nil {
		return err
	}
	for _, cells := range t.Rows {
		for i := range record {
			record[i] = ""
			if i < len(cells) {
				record[i] = csvCell(cells[i])
			}
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	return nil
}

// mainTable is the table that a program reads: the document's own choice, else
// its first, else its facts or its sentences as one.
func (d Document) mainTable() *Table {
	if d.Main != nil {
		return d.Main
	}
	facts, said := &Table{Columns: []Column{{Title: "label"}, {Title: "value"}}}, &Table{Columns: []Column{{Title: "text"}}}
	for _, section := range flat(d.Sections) {
		for _, block := range section.Blocks {
			switch b := block.(type) {
			case *Table:
				if len(b.Columns) > 0 {
					return b
				}
			case *Facts:
				facts.Rows = append(facts.Rows, factRows(b)...)
			case *Paragraph:
				said.Rows = append(said.Rows, []Cell{Text(b.Text)})
			}
		}
	}
	switch {
	case len(facts.Rows) > 0:
		return facts
	case len(said.Rows) > 0:
		return said
	default:
		return &Table{}
	}
}

func factRows(f *Facts) [][]Cell {
	var rows [][]Cell
	for _, fact := range f.Items {
		rows = append(rows, []Cell{Text(fact.Label), fact.Value})
	}
	return rows
}

// cautionedTable is a table with a caution in a last column.
func cautionedTable(t *Table, caution string) *Table {
	width := len(t.Columns)
	with := &Table{Columns: append(t.Columns[:width:width], Column{Title: cautionKey}), Rows: append([][]Cell{}, t.Rows...)}
	if len(with.Rows) == 0 {
		with.Rows = [][]Cell{nil}
	}
	first := make([]Cell, width+1)
	copy(first[:width], with.Rows[0])
	first[width] = Text(caution)
	with.Rows[0] = first
	return with
}

// csvCell is a number in full, or text made harmless; the mark behind a value
// would make text of it, and stands in a column of its own.
func csvCell(c Cell) string {
	if number, ok := c.Number(); ok {
		if !number.Known() {
			return ""
		}
		if c.inFull {
			return number.Text(c.decimals)
		}
		return strconv.FormatFloat(number.Float64(), 'f', -1, 64)
	}
	return Harmless(display.OneLine(c.String()))
}

// Harmless puts an apostrophe before text that a spreadsheet would run as a
// formula: text that begins with =, +, -, @, a tab or a carriage return, a
// plain number apart.
func Harmless(text string) string {
	if text == "" || !strings.ContainsRune("=+-@\t\r", rune(text[0])) {
		return text
	}
	if _, err := strconv.ParseFloat(text, 64); err == nil {
		return text
	}
	return "'" + text
}
