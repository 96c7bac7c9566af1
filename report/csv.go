package report

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

// WriteCSV writes the document as comma-separated values: tables with an empty
// line between them, numbers unrounded. The first column of each names the
// section, and the table in it; facts are tables of label and value, sentences
// and notes tables of one text; the Head is a table of label and value, in the
// section "boxbook"; a caution is the last, in a section of that name. Where
// cells bear marks a last column lists them. A document that is one table and
// nothing else is written as that table alone.
// Text that a spreadsheet would run as a formula gets an apostrophe in front.
func WriteCSV(w io.Writer, d Document) error {
	out := csv.NewWriter(w)
	tables := csvTables(d)
	for i, t := range tables {
		if i > 0 {
			out.Flush()
			if _, err := io.WriteString(w, "\n"); err != nil {
				return err
			}
		}
		if err := t.write(out, len(tables) > 1 || d.Caution != ""); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

// csvPart is one table of the file, and what it is about.
type csvPart struct {
	section string
	table   *Table
	text    bool // it holds sentences
}

// csvTables lists the document's blocks as tables; sentences that follow each
// other are one. Title and subtitle head those of a document that has any.
func csvTables(d Document) []csvPart {
	var parts []csvPart
	said := func(section, text string) {
		if text == "" {
			return
		}
		if n := len(parts); n == 0 || parts[n-1].section != section || !parts[n-1].text {
			parts = append(parts, textPart(section, text))
			return
		}
		t := parts[len(parts)-1].table
		t.Rows = append(t.Rows, []Cell{Text(text)})
	}
	for _, section := range flat(d.Sections) {
		for _, block := range section.Blocks {
			switch b := block.(type) {
			case *Table:
				if len(b.Columns) > 0 {
					parts = append(parts, csvPart{joined(section.Heading, b.Title), b, false})
				}
			case *Facts:
				if len(b.Items) > 0 {
					parts = append(parts, csvPart{section.Heading, factTable(b), false})
				}
			case *Paragraph:
				said(section.Heading, b.Text)
			case *Notes:
				for _, n := range b.Items {
					said(section.Heading, joined(n.Mark, n.Text))
				}
			}
		}
	}
	if len(parts) == 1 && !parts[0].text && d.Head.None() && d.Caution == "" {
		return parts
	}
	tables := parts
	parts = nil
	said("", d.Title)
	said("", d.Subtitle)
	if !d.Head.None() {
		parts = append(parts, csvPart{HeadKey, factTable(d.Head.facts()), false})
	}
	parts = append(parts, tables...)
	if d.Caution != "" {
		parts = append(parts, textPart(cautionKey, d.Caution))
	}
	return parts
}

// textPart is a part of one sentence.
func textPart(section, text string) csvPart {
	return csvPart{section, &Table{Columns: []Column{{Title: "text"}}, Rows: [][]Cell{{Text(text)}}}, true}
}

// joined puts two texts behind each other, where both are there.
func joined(first, second string) string {
	switch {
	case first == "":
		return second
	case second == "":
		return first
	}
	return first + ": " + second
}

func factTable(f *Facts) *Table {
	t := &Table{Columns: []Column{{Title: "label"}, {Title: "value"}}}
	for _, fact := range f.Items {
		t.Rows = append(t.Rows, []Cell{Text(fact.Label), fact.Value})
	}
	return t
}

// write writes the part, with its section in front where there are several.
func (p csvPart) write(out *csv.Writer, several bool) error {
	marks := p.marks()
	record := make([]string, 0, len(p.table.Columns)+2)
	row := func(section, mark string, cell func(i int) string) error {
		record = record[:0]
		if several {
			record = append(record, section)
		}
		for i := range p.table.Columns {
			record = append(record, cell(i))
		}
		if marks != nil {
			record = append(record, mark)
		}
		return out.Write(record)
	}
	err := row("section", "marks", func(i int) string { return Harmless(p.table.Columns[i].Title) })
	for n, cells := range p.table.Rows {
		if err != nil {
			return err
		}
		mark := ""
		if marks != nil {
			mark = marks[n]
		}
		err = row(Harmless(p.section), mark, func(i int) string {
			if i >= len(cells) {
				return ""
			}
			return csvCell(cells[i])
		})
	}
	return err
}

// marks says of each row which cells bear a mark: "percent *"; nil where none of
// the table does.
func (p csvPart) marks() []string {
	var list []string
	for n, cells := range p.table.Rows {
		for i, c := range cells {
			if c.Mark == "" || i >= len(p.table.Columns) {
				continue
			}
			if list == nil {
				list = make([]string, len(p.table.Rows))
			}
			if list[n] != "" {
				list[n] += "; "
			}
			list[n] += p.table.Columns[i].Title + " " + c.Mark
		}
	}
	return list
}

// csvCell is a number in full, or text made harmless; the mark behind a value
// would make text of it, and stands in a column of its own.
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
