package report

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes the document's tables as comma-separated values, and its
// facts as tables of label and value, an empty line between them, numbers
// unrounded. Text that a spreadsheet would run as
// a formula gets an apostrophe in front. Sentences and notes are left out: they
// are for people.
func WriteCSV(w io.Writer, d Document) error {
	out := csv.NewWriter(w)
	first := true
	for _, section := range d.Sections {
		for _, block := range section.Blocks {
			table := csvTable(block)
			if table == nil || len(table.Columns) == 0 {
				continue
			}
			if !first {
				out.Flush()
				if _, err := io.WriteString(w, "\n"); err != nil {
					return err
				}
			}
			first = false
			if err := writeCSVTable(out, table); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

// csvTable is a block as a table; nil for what is for people alone.
func csvTable(block Block) *Table {
	switch b := block.(type) {
	case *Table:
		return b
	case *Facts:
		if len(b.Items) == 0 {
			return nil
		}
		t := &Table{Columns: []Column{{Title: "label"}, {Title: "value"}}}
		for _, fact := range b.Items {
			t.Rows = append(t.Rows, []Cell{Text(fact.Label), fact.Value})
		}
		return t
	default:
		return nil
	}
}

func writeCSVTable(out *csv.Writer, t *Table) error {
	titles := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		titles[i] = Harmless(c.Title)
	}
	if err := out.Write(titles); err != nil {
		return err
	}
	for _, row := range t.Rows {
		record := make([]string, len(row))
		for i, cell := range row {
			record[i] = csvCell(cell)
		}
		if err := out.Write(record); err != nil {
			return err
		}
	}
	return nil
}

// csvCell is a number in full, or text made harmless; marks that stand behind
// a value are left out, since they would make text of it.
func csvCell(c Cell) string {
	if number, ok := c.Number(); ok {
		if !number.Known() {
			return ""
		}
		return strconv.FormatFloat(number.Float64(), 'f', -1, 64)
	}
	return Harmless(c.String())
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
