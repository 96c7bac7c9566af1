package report

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"

	"github.com/jedib0t/go-pretty/v6/table"
	"github.com/jedib0t/go-pretty/v6/text"
)

// shown is a cell as the text writer has it: cleaned of what a terminal must
// not get.
type shown struct {
	text  string
	mark  string
	tone  Tone
	whole bool // a number, which is never shortened
}

// grid is a table made ready to be fitted and drawn.
type grid struct {
	columns  []Column
	key      int // see Table.Key
	headings []string
	rows     [][]shown
	footer   [][]shown
	below    []string // see Table.Below
	reserved []int    // the width kept free for marks after right-aligned values
	measured []measured
	across   int // the width there is
}

func newGrid(t *Table) *grid {
	g := &grid{columns: t.Columns, key: t.Key}
	g.rows, g.footer = show(t.Rows, len(t.Columns)), show(t.Footer, len(t.Columns))
	for _, text := range t.Below {
		g.below = append(g.below, printable(text))
	}
	g.reserved = make([]int, len(t.Columns))
	for i, column := range t.Columns {
		g.headings = append(g.headings, printable(column.Title))
		g.measured = append(g.measured, g.measure(i, column, i < t.Key))
	}
	return g
}

// show cleans rows, and makes them all of the same length.
func show(rows [][]Cell, columns int) [][]shown {
	cleaned := make([][]shown, len(rows))
	for i, row := range rows {
		cleaned[i] = make([]shown, columns)
		for j := range min(columns, len(row)) {
			cleaned[i][j] = newShown(row[j])
		}
	}
	return cleaned
}

func newShown(cell Cell) shown {
	return shown{text: printable(cell.String()), mark: printable(cell.Mark), tone: cell.Tone, whole: cell.numeric}
}

// measure measures column i, and notes what its marks need.
func (g *grid) measure(i int, column Column, key bool) measured {
	heading := display.Width(g.headings[i])
	values, marks, marked, whole := 0, 0, 0, 0
	for _, rows := range [][][]shown{g.rows, g.footer} {
		for _, row := range rows {
			value, mark := display.Width(row[i].text), display.Width(row[i].mark)
			values, marks, marked = max(values, value), max(marks, mark), max(marked, value+mark)
			if row[i].whole {
				whole = max(whole, value)
			}
		}
	}
	if column.Align == Right {
		g.reserved[i], marked = marks, values+marks
	}
	m := measured{natural: max(heading, marked), drop: column.Drop, names: column.Names}
	m.hard = min(m.natural, max(whole, 1)+marks)
	m.floor = m.natural
	if column.Breaks {
		heading = longestWord(g.headings[i])
		m.floor = max(heading, marked)
	}
	if column.Flexible || column.Wrapped {
		m.floor = min(m.natural, max(column.Min, heading, m.hard))
	}
	if key && column.Wrapped {
		m.floor = max(m.floor, g.widestWord(i))
	}
	if key {
		m.drop = 0
	}
	return m
}

// longestWord is the width of the widest word of a text.
func longestWord(text string) int {
	longest := 0
	for word := range strings.FieldsSeq(text) {
		longest = max(longest, display.Width(word))
	}
	return longest
}

// wholeWord is how wide a word may be, in columns, for which what names the rows is kept
// wide enough.
const wholeWord = 16

// widestWord is the widest word in column i that is kept whole, 0 where there is none. A
// hyphen or a slash ends one, as it does where the column is wrapped.
func (g *grid) widestWord(i int) int {
	widest := 0
	for _, rows := range [][][]shown{g.rows, g.footer} {
		for _, row := range rows {
			for _, field := range words(row[i].text, wholeWord) {
				for word := range strings.SplitAfterSeq(strings.ReplaceAll(field.text, "/", "-"), "-") {
					if width := display.Width(word); width <= wholeWord {
						widest = max(widest, width)
					}
				}
			}
		}
	}
	return widest
}

// barredGrid is the grid of a table with its bars, where it has room for them
// in width without any text being shortened.
func barredGrid(t *Table, width int) *grid {
	barred := withBars(t)
	if barred == nil {
		return newGrid(t)
	}
	if g := newGrid(barred); g.natural() <= width {
		return g
	}
	return newGrid(t)
}

// natural is the width of the whole table with nothing shortened.
func (g *grid) natural() int {
	width := gap * (len(g.measured) - 1)
	for _, m := range g.measured {
		width += m.natural
	}
	return width
}

// lines draws the table into width. A table of more rows than fit under its
// heading on a terminal so high gets its heading again; 0 is as high as it takes.
func (g *grid) lines(width, height int, color bool) []string {
	if len(g.columns) == 0 {
		return nil
	}
	found := fit(g.measured, g.key, width)
	g.across = width
	var lines []string
	for i, each := range found.parts {
		drawn := *g
		if i > 0 {
			drawn.below = nil // it stands beneath the first part of a table that is split
			drawn.rows, drawn.footer = g.filled(each, g.rows), g.filled(each, g.footer)
			if len(drawn.rows)+len(drawn.footer) == 0 && len(g.rows) > 0 {
				continue // columns without a cell
			}
			lines = append(lines, "")
		}
		lines = append(lines, drawn.draw(each, height, color)...)
	}
	if len(found.dropped) > 0 {
		lines = append(lines, g.missing(found.dropped, min(width, proseWidth))...)
	}
	return lines
}

// filled are the rows that have a cell in a further part of a table that is split, beside
// what names them.
func (g *grid) filled(p part, rows [][]shown) [][]shown {
	named := func(i int) bool { return i < g.key || g.columns[i].Names }
	var found [][]shown
	for _, row := range rows {
		if slices.ContainsFunc(p.columns, func(i int) bool { return !named(i) && row[i].text+row[i].mark != "" }) {
			found = append(found, row)
		}
	}
	if len(found) == 0 && slices.IndexFunc(p.columns, func(i int) bool { return !named(i) }) < 0 {
		return rows // it has nothing but names
	}
	return found
}

// missing says which columns were left out.
func (g *grid) missing(dropped []int, width int) []string {
	names := make([]string, len(dropped))
	for i, index := range dropped {
		// One column less than the width, for the comma.
		if names[i] = Shorten(g.headings[index], width-1); names[i] == "" {
			names[i] = fmt.Sprintf("column\u00a0%d", index+1)
		}
	}
	return wrap("not shown at this width: "+strings.Join(names, ", "), width)
}

// sober is the style of every table: no box, a thin rule beneath the heading
// and above the footer, words as typed.
func sober() table.Style {
	style := table.StyleDefault
	style.Name = "sober"
	style.Box = table.BoxStyle{
		MiddleHorizontal: "─",
		MiddleSeparator:  strings.Repeat("─", gap),
		MiddleVertical:   strings.Repeat(" ", gap),
	}
	style.Format.Header = text.FormatDefault
	style.Format.Footer = text.FormatDefault
	style.Options = table.OptionsNoBorders
	return style
}

// standIn is what the table library gets to lay out in place of text. The
// library measures text rune by rune, by the locale, which is wrong for emoji
// and accents made of several runes; this one character it counts as one
// everywhere.
const standIn = '▒'

// canvas collects the pieces of text of a table in the order in which the
// library draws them.
type canvas struct {
	pieces []string
	color  bool
}

// put remembers a piece of text and returns its stand-in, with free columns
// kept free after it.
func (c *canvas) put(piece string, tone Tone, free int) string {
	width := display.Width(piece)
	if width == 0 {
		return ""
	}
	c.pieces = append(c.pieces, paint(piece, tone, c.color))
	return strings.Repeat(string(standIn), width) + strings.Repeat(" ", max(free, 0))
}

// fill puts the text into the drawn table, and removes white space at the ends
// of lines.
func (c *canvas) fill(drawn string) []string {
	var out strings.Builder
	next, inside := 0, false
	for _, r := range drawn {
		switch {
		case r != standIn:
			out.WriteRune(r)
		case !inside:
			out.WriteString(c.pieces[next])
			next++
		}
		inside = r == standIn
	}
	lines := strings.Split(out.String(), "\n")
	for i := range lines {
		lines[i] = trimEnd(lines[i])
	}
	return lines
}

// The lines of a terminal that a long table leaves free: its heading and rule,
// and the prompt; a terminal lower than leastHeight gets one heading.
const (
	headingLines = 3
	leastHeight  = 15
)

// draw draws some columns of the table, with the heading again where the rows
// before have filled a terminal.
func (g *grid) draw(p part, height int, color bool) []string {
	page := len(g.rows)
	if room := height - headingLines - max(len(g.headingLines(p)), 1) + 1; height >= leastHeight && page > room {
		page = room
	}
	var lines []string
	at := 0
	for ; len(g.rows)-at > page; at += page {
		lines = append(lines, g.drawRows(p, at, at+page, nil, color)...)
	}
	return append(lines, g.drawRows(p, at, len(g.rows), g.footer, color)...)
}

// drawRows draws the rows from one to before another.
func (g *grid) drawRows(p part, from, to int, footer [][]shown, color bool) []string {
	writer := table.NewWriter()
	writer.SetStyle(sober())
	writer.SetColumnConfigs(g.configs(p))
	surface := &canvas{color: color}
	headings := g.headingLines(p)
	for _, line := range headings {
		writer.AppendHeader(g.header(p, line, surface))
	}
	taken := make([]int, 0, to-from)
	for _, row := range g.rows[from:to] {
		wrapped := g.wrapped(p, row)
		for _, line := range wrapped {
			writer.AppendRow(g.row(p, line, surface))
		}
		taken = append(taken, len(wrapped))
	}
	for _, row := range footer {
		for _, line := range g.wrapped(p, row) {
			writer.AppendFooter(g.row(p, line, surface))
		}
	}
	return g.withBelow(p, surface.fill(writer.Render()), headLines(headings), taken, from)
}

// withBelow puts the text across the table beneath the rows, counted from one, that
// have some; at are the lines above the rows, and taken those that each row took.
func (g *grid) withBelow(p part, lines []string, at int, taken []int, from int) []string {
	if strings.Join(g.below, "") == "" {
		return lines
	}
	out := slices.Clone(lines[:at])
	indent := gap
	if g.key > 1 {
		indent += p.widths[0]
	}
	for i, n := range taken {
		out = append(out, lines[at:at+n]...)
		at += n
		if from+i < len(g.below) {
			for _, line := range wrap(g.below[from+i], min(g.across, proseWidth)-indent) {
				out = append(out, strings.Repeat(" ", indent)+line)
			}
		}
	}
	return append(out, lines[at:]...)
}

// headLines are the lines of a table's heading and the rule beneath it.
func headLines(headings [][]string) int {
	if len(headings) == 0 {
		return 0
	}
	return len(headings) + 1
}

// headingLines are the headings of a part's columns, line by line: those that take
// fewer stand at the foot. There are none where no column of the table has a heading.
func (g *grid) headingLines(p part) [][]string {
	if strings.Join(g.headings, "") == "" {
		return nil
	}
	broken := make([][]string, len(p.columns))
	most := 1
	for i, index := range p.columns {
		broken[i] = brokenHeading(g.headings[index], p.widths[i])
		most = max(most, len(broken[i]))
	}
	lines := make([][]string, most)
	for at := range lines {
		lines[at] = make([]string, len(p.columns))
		for i, words := range broken {
			if from := most - len(words); at >= from {
				lines[at][i] = words[at-from]
			}
		}
	}
	return lines
}

// brokenHeading is a heading in as many lines as its column needs: between words
// alone, of which one that is wider than the column is cut.
func brokenHeading(heading string, width int) []string {
	if display.Width(heading) <= width {
		return []string{heading}
	}
	words := strings.Split(heading, " ")
	for i, word := range words {
		words[i] = Shorten(word, width)
	}
	return wrap(strings.Join(words, " "), width)
}

func (g *grid) configs(p part) []table.ColumnConfig {
	configs := make([]table.ColumnConfig, len(p.columns))
	for i, index := range p.columns {
		align := text.AlignLeft
		switch g.columns[index].Align {
		case Right:
			align = text.AlignRight
		case Centre:
			align = text.AlignCenter
		}
		configs[i] = table.ColumnConfig{Number: i + 1, WidthMin: p.widths[i], Align: align, AlignHeader: align, AlignFooter: align}
	}
	return configs
}

// header lays out a line of the headings. Over marked numbers a heading ends where the
// numbers end, unless it needs the room that is kept for the marks.
func (g *grid) header(p part, headings []string, surface *canvas) table.Row {
	row := make(table.Row, len(p.columns))
	for i, index := range p.columns {
		heading := Shorten(headings[i], p.widths[i])
		free := min(g.reserved[index], p.widths[i]-display.Width(heading))
		row[i] = surface.put(heading, Plain, free)
	}
	return row
}

// wrapped breaks a row into as many as the texts of its wrapped columns take.
func (g *grid) wrapped(p part, cells []shown) [][]shown {
	lines := [][]shown{slices.Clone(cells)}
	for i, index := range p.columns {
		if !g.columns[index].Wrapped {
			continue
		}
		for j, text := range wrapWhole(cells[index].text, p.widths[i]) {
			if j == len(lines) {
				lines = append(lines, make([]shown, len(cells)))
			}
			lines[j][index] = shown{text: text, tone: cells[index].tone}
		}
	}
	return lines
}

func (g *grid) row(p part, cells []shown, surface *canvas) table.Row {
	row := make(table.Row, len(p.columns))
	for i, index := range p.columns {
		cell := cells[index]
		mark := display.Width(cell.mark)
		value := Shorten(cell.text, p.widths[i]-max(mark, g.reserved[index]))
		row[i] = surface.put(value+cell.mark, cell.tone, g.reserved[index]-mark)
	}
	return row
}
