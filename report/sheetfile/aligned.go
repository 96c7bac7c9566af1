package sheetfile

import (
	"cmp"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"boxbook/season/sheetimport"
)

const (
	// gap is how many spaces part two cells of a text that is aligned by spaces;
	// one stands within a cell as well.
	gap = 2
	// rowChunks is how many chunks a line of a table has at least; titles and
	// lines at the foot have fewer.
	rowChunks = 4
	// tableLines is how many lines make a table.
	tableLines = 3
)

// chunk is a piece of a line between gaps, its ends counted in letters.
type chunk struct {
	from, to int
	text     string
}

// value is a word that stands in a cell of its own where others like it stand
// beside it with one space between.
var value = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`(?i)^([0-9.,½]+%?|hz|chz|pz|av|[a-z]|[-–—])$`) })

// chunksOf cuts a line at its gaps, and apart what are values alone.
func chunksOf(line string) []chunk {
	var chunks []chunk
	for _, c := range cut(line, gap) {
		words := cut(c.text, 1)
		if slices.ContainsFunc(words, func(w chunk) bool { return !value().MatchString(w.text) }) {
			chunks = append(chunks, c)
			continue
		}
		for _, w := range words {
			chunks = append(chunks, chunk{c.from + w.from, c.from + w.to, w.text})
		}
	}
	return chunks
}

// cut cuts a line where at least so many spaces stand.
func cut(line string, spaces int) []chunk {
	var chunks []chunk
	letters := []rune(line)
	for i, r := range letters {
		if unicode.IsSpace(r) {
			continue
		}
		if last := len(chunks) - 1; last >= 0 && i-chunks[last].to < spaces {
			chunks[last].to = i + 1
		} else {
			chunks = append(chunks, chunk{from: i, to: i + 1})
		}
	}
	for i, c := range chunks {
		chunks[i].text = string(letters[c.from:c.to])
	}
	return chunks
}

// isAligned reports whether a text is a table whose columns are told apart by
// spaces, as it is pasted from a document: most of its lines have several gaps,
// and no separator stands before them.
func isAligned(text string) bool {
	sample := text[:min(sampled, len(text))]
	if strings.ContainsAny(sample, "\t") {
		return false
	}
	lines, tables := 0, 0
	for line := range strings.SplitSeq(sample, "\n") {
		chunks := cut(line, gap)
		if len(chunks) > 0 {
			lines++
		}
		separated := slices.ContainsFunc(chunks, func(c chunk) bool { return strings.HasSuffix(c.text, ",") || strings.HasSuffix(c.text, ";") })
		if len(chunks) >= rowChunks && !separated {
			tables++
		}
	}
	return tables >= tableLines && 2*tables >= lines
}

// readAligned makes cells of the chunks of each line. Those that stand above
// one another are one column; the row is the line.
func readAligned(name, text string, g sheetimport.Grid) (sheetimport.Grid, error) {
	g.Aligned = true
	var lines [][]chunk
	seen := 0
	for line := range strings.SplitSeq(text, "\n") {
		chunks := chunksOf(line)
		if seen += 1 + len(chunks); seen > maxCells {
			return sheetimport.Grid{}, tooManyCells(name)
		}
		lines = append(lines, chunks)
	}
	least := leastChunks(lines)
	columns := columnsOf(lines, least)
	for i, chunks := range lines {
		if cells := cellsOf(chunks, columns, len(chunks) >= least); cells != nil {
			g.Rows = append(g.Rows, sheetimport.Row{Number: i + 1, Cells: cells})
		}
	}
	return g, nil
}

// leastChunks is how many chunks a line of the table has: at least half of the
// most that a line has.
func leastChunks(lines [][]chunk) int {
	most := 0
	for _, chunks := range lines {
		most = max(most, len(chunks))
	}
	return max(rowChunks, (most+1)/2)
}

// columnsOf finds the columns: where single words of the tables' lines stand
// above one another, widened by texts of several words that reach into one
// column alone.
func columnsOf(lines [][]chunk, least int) []chunk {
	var words, texts []chunk
	for _, chunks := range lines {
		if len(chunks) < least {
			continue
		}
		for _, c := range chunks {
			if strings.Contains(c.text, " ") {
				texts = append(texts, c)
			} else {
				words = append(words, c)
			}
		}
	}
	columns := together(words)
	var beside []chunk
	for _, c := range texts {
		if i, n := touched(columns, c); n == 1 {
			columns[i].from, columns[i].to = min(columns[i].from, c.from), max(columns[i].to, c.to)
		} else if n == 0 {
			beside = append(beside, c)
		}
	}
	return together(append(columns, beside...))
}

// together joins what overlaps, from the left.
func together(chunks []chunk) []chunk {
	slices.SortFunc(chunks, func(a, b chunk) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var joined []chunk
	for _, c := range chunks {
		if last := len(joined) - 1; last >= 0 && c.from < joined[last].to {
			joined[last].to = max(joined[last].to, c.to)
		} else {
			joined = append(joined, c)
		}
	}
	return joined
}

// touched counts the columns that a chunk reaches into; first is the leftmost,
// or where there is none the one to its left.
func touched(columns []chunk, c chunk) (first, n int) {
	first, _ = slices.BinarySearchFunc(columns, c.from, func(column chunk, from int) int { return cmp.Compare(column.to, from+1) })
	for i := first; i < len(columns) && columns[i].from < c.to; i++ {
		n++
	}
	if n == 0 {
		first = max(first-1, 0)
	}
	return first, n
}

// cellsOf puts a line's chunks into columns. One of several words that reaches
// over several columns is cut apart in a line of the table: headings that stand
// close. Outside the table what is too long for a mark stands in the next cell
// where one is taken.
func cellsOf(chunks, columns []chunk, inTable bool) []sheetimport.Cell {
	var cells []sheetimport.Cell
	put := func(c chunk) {
		column, _ := touched(columns, c)
		column++
		if last := len(cells) - 1; last >= 0 && cells[last].Column >= column {
			if inTable || len(c.text) < len("10.00") {
				cells[last].Text = clip(cells[last].Text + " " + c.text) // never another judge's
				return
			}
			column = cells[last].Column + 1
		}
		cells = append(cells, sheetimport.Cell{Column: column, Kind: sheetimport.Text, Text: clip(c.text)})
	}
	for _, c := range chunks {
		if _, n := touched(columns, c); n < 2 || !inTable {
			put(c)
			continue
		}
		for _, word := range cut(c.text, 1) {
			put(chunk{c.from + word.from, c.from + word.to, word.text})
		}
	}
	return cells
}
