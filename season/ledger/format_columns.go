package ledger

import (
	"slices"
	"strings"

	"boxbook/report/display"
)

// What is wider than these, in columns, takes no part in alignment and sticks
// out, so that one long line does not push all others away.
const (
	widestCell    = 32
	widestRow     = 96
	widestContent = 120
)

const (
	remarkGap  = 3 // columns before an aligned label or remark, at least
	commentGap = 2 // columns before a comment, at least
)

// tidyRow is a body line: its key, and its value in pieces.
type tidyRow struct {
	key    string
	cells  []string // pieces that stand beneath one another; one piece where nothing is aligned
	remark string   // aligned too, "" where it is part of the last cell
	grid   bool     // the cells stand in columns
	sheet  bool     // the key has a judge's name in it
}

// row takes a body line apart.
func (t *tidier) row(b *block, n int) tidyRow {
	words := t.words(n)
	row := tidyRow{key: words[0]}
	rest := words[1:]
	switch {
	case b.kind == "flight" && row.key == "sheet" && len(rest) > 0:
		row.key, row.sheet, row.grid = row.key+" "+rest[0], true, true
		row.cells, row.remark = cutRemark(rest[1:])
	case b.kind == "flight" && isRow(row.key):
		row.grid = true
		row.cells, row.remark = cutRemark(rest)
	case b.kind == "sequence" && (isRow(row.key) || row.key == "total"):
		row.cells, row.remark = cutRemark(rest)
		row.grid = len(row.cells) > 0 && row.cells[0] != "K"
	case b.kind == "ladder" && row.key == "category":
		row.grid, row.cells = true, categoryCells(rest)
	default:
		row.cells = rest
	}
	if !row.grid && len(row.cells) > 0 {
		row.cells = []string{strings.Join(row.cells, " ")}
	}
	return row
}

// isRow reports whether a key begins a row of a figure or of a weighted line.
func isRow(key string) bool { return isNumber(key) || key == "positioning" || key == "harmony" }

// cutRemark parts a line's closing remark from what stands before it.
func cutRemark(words []string) ([]string, string) {
	if last := len(words) - 1; last >= 0 && words[last][0] == '"' {
		return words[:last], words[last]
	}
	return words, ""
}

// categoryCells are a category's name, its floor, and the rest.
func categoryCells(words []string) []string {
	var cells []string
	if len(words) > 0 {
		cells, words = append(cells, words[0]), words[1:]
	}
	if len(words) > 1 && words[0] == "floor" {
		cells, words = append(cells, strings.Join(words[:2], " ")), words[2:]
	}
	if len(words) > 0 {
		cells = append(cells, strings.Join(words, " "))
	}
	return cells
}

// grid says how the rows of a kind of block stand in columns.
type grid struct {
	first, gap int   // columns after the first cell and after the others, at least
	least      []int // widths of the first columns, at least; the last one holds for all that follow
	inner      bool  // a column is as wide as its cells that have another behind them
	remark     int   // where remarks begin, counted from the values, at least
}

// grids are the kinds of block that have rows: marks a judge a column, elements
// with their labels, categories with their floors. The least widths keep a row
// where it is when a grade 8 becomes 8.5.
var grids = map[string]grid{
	"flight":   {first: 2, gap: 2, least: []int{3}},
	"sequence": {first: 1, gap: 1, least: []int{0}, remark: 23},
	"ladder":   {first: 2, gap: 1, least: []int{12, 0}, inner: true},
}

// lay gives each row's value as one text.
func (g grid) lay(rows []tidyRow) []string {
	widths := g.widths(rows)
	remark := g.remark
	for _, row := range rows {
		if full := g.full(row, widths) + remarkGap; row.remark != "" && full <= widestRow {
			remark = max(remark, full)
		}
	}
	values := make([]string, len(rows))
	for i, row := range rows {
		values[i] = g.value(row, widths, remark)
	}
	return values
}

// widths are the widths of the columns.
func (g grid) widths(rows []tidyRow) []int {
	var widths []int
	for _, row := range rows {
		if !row.grid {
			continue
		}
		for j, cell := range row.cells {
			if j == len(widths) {
				widths = append(widths, g.least[min(j, len(g.least)-1)])
			}
			if wide := columns(cell); wide <= widestCell && (!g.inner || j+1 < len(row.cells)) {
				widths[j] = max(widths[j], wide)
			}
		}
	}
	return widths
}

// full is the width of a row with its last cell filled up.
func (g grid) full(row tidyRow, widths []int) int {
	if !row.grid {
		return columns(strings.Join(row.cells, " "))
	}
	sum := 0
	for j, cell := range row.cells {
		sum += max(widths[j], columns(cell))
		if j > 0 {
			sum += g.gapAfter(j - 1)
		}
	}
	return sum
}

func (g grid) gapAfter(j int) int {
	if j == 0 {
		return g.first
	}
	return g.gap
}

func (g grid) value(row tidyRow, widths []int, remark int) string {
	var b strings.Builder
	for j, cell := range row.cells {
		if j+1 == len(row.cells) {
			b.WriteString(cell)
			break
		}
		gap := g.gapAfter(j)
		b.WriteString(padded(cell, widths[j]+gap, gap))
	}
	if row.remark == "" {
		return b.String()
	}
	return padded(b.String(), remark, remarkGap) + row.remark
}

// comments places the comments of a stretch. A comment keeps its column; where
// a line has grown into it, all that stood in that column move together. One
// that has a line to itself keeps its place too, unless it was indented as the
// block's lines were: then it moves with them.
func (t *tidier) comments(s stretch) {
	t.bodyComments(s)
	target := map[int]int{} // new column of the comments of each old one
	for n := s.from; n < s.to; n++ {
		line := &t.lines[n]
		if line.comment == "" || line.column == 0 {
			continue
		}
		target[line.column] = max(target[line.column], line.column)
		if need := columns(line.content) + commentGap; line.content != "" && need <= widestContent {
			target[line.column] = max(target[line.column], need)
		}
	}
	for n := s.from; n < s.to; n++ {
		line := &t.lines[n]
		if line.comment == "" || line.column == 0 {
			continue
		}
		column := target[line.column]
		switch {
		case line.content != "":
			line.column = max(column, columns(line.content)+commentGap)
		case column != line.column:
			line.column, line.lead = column, strings.Repeat(" ", column)
		}
	}
}

// bodyComments indents the comment lines that stood where the block's line
// beneath them stood, or the last one above where none follows.
func (t *tidier) bodyComments(s stretch) {
	beneath := -1
	for n := s.to - 1; n >= s.from; n-- {
		if at := t.bodyColumn(n); at >= 0 {
			beneath = at
			break
		}
	}
	for n := s.to - 1; n >= s.from; n-- {
		if at := t.bodyColumn(n); at >= 0 {
			beneath = at
		}
		line := &t.lines[n]
		if line.comment != "" && line.content == "" && line.column > 0 && line.column == beneath {
			line.column, line.lead = len(bodyIndent), bodyIndent
		}
	}
}

// bodyColumn is where a body line began as typed, -1 for any other line.
func (t *tidier) bodyColumn(n int) int {
	l := t.f.lines[n]
	if l.first == l.last || t.begins(n) {
		return -1
	}
	return columns(t.f.text[l.start:t.f.tokens[l.first].start])
}

// tabStop is the distance of tab stops in a column count.
const tabStop = 8

// columns is the width of a text that begins at column 0, tabs counted.
func columns(text string) int {
	if !slices.ContainsFunc([]byte(text), func(c byte) bool { return c == '\t' || c >= 0x7f }) {
		return len(text)
	}
	width := 0
	for i, part := range strings.Split(text, "\t") {
		if i > 0 {
			width += tabStop - width%tabStop
		}
		width += display.Width(part)
	}
	return width
}

// padded fills a text with spaces up to a column, with at least so many.
func padded(text string, column, least int) string {
	return text + strings.Repeat(" ", max(column-columns(text), least))
}
