package report

import (
	"slices"
	"strings"

	"boxbook/report/display"
)

// The widths of a table on a telephone, in pixels as html.css has them: what the narrowest
// common one shows, a character of a cell and of a title, the room about a cell and for
// marks, and the least column of a cell that may be wrapped.
const (
	phoneWidth             = 328
	charWidth, titleWidth  = 7.8, 7.3
	aboutCell, markedCell  = 11, 15
	longWidth, wordsWidth  = 104, 208
	columnsAlwaysWrapped   = 4 // html.css wraps each cell of so few columns
	firstOfRow, asideMarks = "fresh", "marked"
)

// isBeyondPhone reports whether a table would be wider than a telephone shows of it.
func isBeyondPhone(t *htmlTable) bool {
	if len(t.Heads) <= columnsAlwaysWrapped {
		return false
	}
	width := 0.0
	for i, head := range t.Heads {
		widest := titleWidth * float64(longestWord(head.Text))
		for _, row := range slices.Concat(t.Rows, t.Footer) {
			widest = max(widest, cellWidth(row[i]))
		}
		width += widest + aboutCell
		if hasClass(head, asideMarks) {
			width += markedCell
		}
	}
	return width > phoneWidth
}

// cellWidth is the least width of a cell's text.
func cellWidth(c htmlCell) float64 {
	switch {
	case hasClass(c, "words"):
		return max(wordsWidth, charWidth*float64(longestWord(c.Text)))
	case hasClass(c, "long"):
		return max(longWidth, charWidth*float64(longestWord(c.Text)))
	default:
		return charWidth * float64(display.Width(c.Text))
	}
}

func hasClass(c htmlCell, name string) bool {
	return slices.Contains(strings.Fields(c.Class), name)
}

// label puts each column's title before its cells. What names a row needs none, unless it
// is a number. Where titles come again, the column before them is another thing's name,
// and begins a line.
func (t *htmlTable) label(columns []Column) {
	for i, c := range columns {
		fresh := ""
		if i+1 < len(columns) && comesAgain(columns, i+1) && !comesAgain(columns, i) {
			fresh = firstOfRow
		}
		for _, row := range slices.Concat(t.Rows, t.Footer) {
			row[i].Class = classes(row[i].Class, fresh)
			if i > 0 || c.Align != Left {
				row[i].Label = t.Heads[i].Text
			}
		}
	}
}

// comesAgain reports whether a column has the title of one before it.
func comesAgain(columns []Column, i int) bool {
	return columns[i].Title != "" && slices.ContainsFunc(columns[:i], func(c Column) bool { return c.Title == columns[i].Title })
}
