package report

import (
	"net/url"
	"slices"
	"strings"
	"unicode/utf8"
)

// htmlTable is a table with what names it: its title, else the heading above it,
// which is then there for who does not see the page.
type htmlTable struct {
	ID, Caption  string
	Shown        bool
	Heads        []htmlCell
	Rows, Footer [][]htmlCell
	// Below is text beneath rows, which begins behind the first Indent columns.
	Below  []string
	Indent int
	// Folds says that a narrow page shows a row's text beneath its numbers, Stacks that it
	// shows each row as lines, its cells behind their titles.
	Folds, Stacks bool
}

// Laid is the class of how a narrow page lays the table.
func (t *htmlTable) Laid() string {
	switch {
	case t.Folds:
		return "folds"
	case t.Stacks:
		return "stacks"
	default:
		return ""
	}
}

// BelowRow is the text beneath a row, "" for none.
func (t *htmlTable) BelowRow(i int) string {
	if i < len(t.Below) {
		return t.Below[i]
	}
	return ""
}

// Across is how many columns a text beneath a row goes over.
func (t *htmlTable) Across() int { return len(t.Heads) - t.Indent }

// htmlCell is one cell. Class has its side, tone and whether it may be wrapped;
// Header says that it names its row. Label is what stands before it on a narrow page, ""
// for nothing.
type htmlCell struct {
	Text, Mark, Class, Link, Label string
	Header                         bool
}

func (h *htmlWriter) table(t *Table) *htmlTable {
	out := &htmlTable{ID: h.name("t"), Caption: printable(t.Title), Shown: t.Title != ""}
	for _, name := range []string{h.heading, h.page} {
		if out.Caption == "" {
			out.Caption = printable(name)
		}
	}
	told, folds := toldBetween(t.Columns)
	out.Folds = folds
	for i, c := range t.Columns {
		out.Heads = append(out.Heads, htmlCell{Text: printable(c.Title), Class: classes(sideClass(c.Align), toldClass(folds && i == told))})
	}
	out.Rows, out.Footer = htmlRows(t, t.Rows), htmlRows(t, t.Footer)
	if folds {
		for _, row := range slices.Concat(out.Rows, out.Footer) {
			row[told].Class = classes(row[told].Class, toldClass(true))
		}
	}
	for i := range t.Columns {
		if besideWords(t.Columns, i) && slices.ContainsFunc(slices.Concat(out.Rows, out.Footer), func(row []htmlCell) bool { return row[i].Mark != "" }) {
			for _, row := range slices.Concat([][]htmlCell{out.Heads}, out.Rows, out.Footer) {
				row[i].Class = classes(row[i].Class, "marked")
			}
		}
	}
	for _, text := range t.Below {
		out.Below = append(out.Below, printable(text))
	}
	if t.Key > 1 {
		out.Indent = 1
	}
	if out.Stacks = !folds && isBeyondPhone(out); out.Stacks {
		out.label(t.Columns)
	}
	return out
}

// besideWords reports whether words begin right behind a column of numbers, where a mark
// would touch them.
func besideWords(columns []Column, i int) bool {
	return columns[i].Align == Right && i+1 < len(columns) && columns[i+1].Align != Right
}

// leastNumbers is behind how many columns a text is folded away beneath them.
const leastNumbers = 3

// toldBetween is the one column of words of a table that has another before it and
// several numbers behind it: on a telephone the numbers, which are what such a
// table is read for, would be beyond the edge.
func toldBetween(columns []Column) (told int, folds bool) {
	numbers := 0
	for i, c := range columns {
		switch {
		case c.Wrapped && told > 0:
			return 0, false
		case c.Wrapped:
			told = i
		case told > 0 && c.Align == Right:
			numbers++
		case told > 0:
			return 0, false
		}
	}
	return told, told == 1 && numbers >= leastNumbers
}

func toldClass(told bool) string {
	if told {
		return "told"
	}
	return ""
}

// htmlRows are rows as wide as the table, the first cell of each with something in
// it its header.
func htmlRows(t *Table, rows [][]Cell) [][]htmlCell {
	var out [][]htmlCell
	for _, row := range rows {
		cells, named := make([]htmlCell, len(t.Columns)), false
		for i := range cells {
			cell := Empty()
			if i < len(row) {
				cell = row[i]
			}
			cells[i] = cellOf(cell)
			cells[i].Class = classes(sideClass(t.Columns[i].Align), cells[i].Class)
			cells[i].Header = !named && cells[i].Text != "" && i < max(1, t.Key)
			named = named || cells[i].Header
		}
		out = append(out, cells)
	}
	return out
}

// longText is from how many characters on a cell's words may be wrapped, manyWords
// from how many on they have a wide column.
const longText, manyWords = 17, 60

func cellOf(c Cell) htmlCell {
	cell := htmlCell{Text: printable(c.String()), Mark: printable(c.Mark), Class: toneClass(c.Tone), Link: safeLink(c.link)}
	if utf8.RuneCountInString(cell.Text) >= longText && strings.ContainsRune(cell.Text, ' ') {
		cell.Class = classes(cell.Class, "long")
		if utf8.RuneCountInString(cell.Text) >= manyWords {
			cell.Class = classes(cell.Class, "words")
		}
	}
	return cell
}

// classes are those named, with a blank between them.
func classes(names ...string) string {
	return strings.Join(strings.Fields(strings.Join(names, " ")), " ")
}

func sideClass(a Align) string {
	switch a {
	case Right:
		return "r"
	case Centre:
		return "c"
	default:
		return ""
	}
}

func toneClass(t Tone) string {
	switch t {
	case Good:
		return "good"
	case Bad:
		return "bad"
	case Faint:
		return "faint"
	case Strong:
		return "strong"
	default:
		return ""
	}
}

// safeLink is where a cell may lead: an http(s) address or a relative path; ""
// for anything else.
func safeLink(to string) string {
	u, err := url.Parse(to)
	if err != nil || to == "" || strings.ContainsRune(to, '\\') {
		return ""
	}
	switch {
	case u.Scheme == "https" || u.Scheme == "http":
		if u.Host == "" {
			return ""
		}
		return u.String()
	case u.Scheme == "" && u.Host == "" && !strings.HasPrefix(to, "/"):
		return u.String()
	default:
		return ""
	}
}
