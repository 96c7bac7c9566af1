package workbook

import (
	"fmt"
	"math"
	"math/big"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"
)

// value is what a cell holds, or what a formula comes to. The zero value is
// nothing: an empty cell, or a formula's empty text.
type value struct {
	text    string
	number  float64
	numeric bool
}

// notAvailable is what NA() comes to.
var notAvailable = text("#N/A")

func text(s string) value { return value{text: s} }

func integer(n int) value { return value{number: float64(n), numeric: true} }

// whole is an integer that is not known where it is 0.
func whole(n int) value {
	if n == 0 {
		return value{}
	}
	return integer(n)
}

// exact is the float64 nearest to a rational, nothing for nil.
func exact(r *big.Rat) value {
	if r == nil {
		return value{}
	}
	f, _ := r.Float64()
	return value{number: f, numeric: true}
}

// float is a number that may not be known: NaN is not.
func float(x float64) value {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return value{}
	}
	return value{number: x, numeric: true}
}

// column is one column of a table of rows R. Cells are typed values, or
// formulas where formula is set; value is then what the formula comes to.
//
// In a formula {key} is the cell of that column in the same row, {key:key} the
// cells of the same row from one column to another, and {Table.key} the whole
// column of a table anywhere in the workbook.
type column[R any] struct {
	key, title string
	width      float64
	look       look
	folded     bool // a working column, folded away at the right
	blank      bool // no column of this table: another table of the sheet has it
	formula    string
	value      func(R) value
	// formulaOf stands for formula where rows differ; "" is a typed cell.
	formulaOf func(R) string
}

// placed is a table's place on its sheet.
type placed struct {
	name    string
	sheet   string
	head    int // row of the headings, from 1
	rows    int
	columns map[string]int // by key, from 1
}

// first and last are the rows of the body; a table without rows has one empty
// row, so that formulas over it have something to look at.
func (p placed) first() int { return p.head + 1 }
func (p placed) last() int  { return p.head + max(p.rows, 1) }

// place lays a table out from column A.
func place[R any](name, sheet string, head, rows int, columns []column[R]) placed {
	p := placed{name: name, sheet: sheet, head: head, rows: rows, columns: map[string]int{}}
	for i, c := range columns {
		p.columns[c.key] = i + 1
	}
	return p
}

// span is the body of one or more columns, such as $A$2:$C$9.
func (p placed) span(from, to string) string {
	return fmt.Sprintf("$%s$%d:$%s$%d", columnName(p.columns[from]), p.first(), columnName(p.columns[to]), p.last())
}

// area is the body of one or more columns without dollars, such as A2:C9.
func (p placed) area(from, to string) string { return strings.ReplaceAll(p.span(from, to), "$", "") }

var reference = regexp.MustCompile(`\{(?:([A-Z][A-Za-z]*)\.)?([a-z0-9-]+)(?::([a-z0-9-]+))?\}`)

// template is a formula taken apart at its references to cells of the same
// row: text, then a column's letters, each followed by the row's number.
type template struct {
	texts   []string // one more than columns
	columns []string
	length  int // of texts and columns together
}

// at is the formula as seen from one row.
func (t *template) at(row int) string {
	number := strconv.Itoa(row)
	var b strings.Builder
	b.Grow(t.length + len(number)*len(t.columns))
	for i, column := range t.columns {
		b.WriteString(t.texts[i])
		b.WriteString(column)
		b.WriteString(number)
	}
	b.WriteString(t.texts[len(t.columns)])
	return b.String()
}

// templateKey is a formula of a table.
type templateKey struct{ table, formula string }

// expand puts cells in the place of a formula's references, as seen from one
// row of a table. Each formula is taken apart once.
func (b *book) expand(formula string, from placed, row int) string {
	return b.template(formula, from).at(row)
}

func (b *book) template(formula string, from placed) *template {
	key := templateKey{from.name, formula}
	t, known := b.templates[key]
	if !known {
		t = b.takeApart(formula, from)
		b.templates[key] = t
	}
	return t
}

func (b *book) takeApart(formula string, from placed) *template {
	t := new(template)
	var fixed strings.Builder
	keep := func(s string) { fixed.WriteString(strings.ReplaceAll(s, brace, "{")) }
	cell := func(column int) {
		t.texts, t.columns = append(t.texts, fixed.String()), append(t.columns, columnName(column))
		fixed.Reset()
	}
	done := 0
	for _, m := range reference.FindAllStringSubmatchIndex(formula, -1) {
		keep(formula[done:m[0]])
		done = m[1]
		part := func(i int) string {
			if m[i] < 0 {
				return ""
			}
			return formula[m[i]:m[i+1]]
		}
		table, key, to := part(2), part(4), part(6)
		if to == "" {
			to = key
		}
		target := from
		if table != "" {
			target = b.tables[table]
		}
		if target.columns[key] == 0 || target.columns[to] == 0 {
			b.fail(fmt.Errorf("formula %s names no column: %s", formula, formula[m[0]:m[1]]))
			continue
		}
		if table != "" {
			keep(target.sheet + "!" + target.span(key, to))
			continue
		}
		cell(target.columns[key])
		if to != key {
			keep(":")
			cell(target.columns[to])
		}
	}
	keep(formula[done:])
	t.texts = append(t.texts, fixed.String())
	for _, s := range slices.Concat(t.texts, t.columns) {
		t.length += len(s)
	}
	return t
}

// fillTable writes a table: headings, cells, looks, and rows as high as their
// longest text needs.
func fillTable[R any](b *book, p placed, columns []column[R], rows []R) {
	lines := 1
	for i, c := range columns {
		if c.blank {
			continue
		}
		b.text(i+1, p.head, c.title, c.look.heading())
		lines = max(lines, c.lines(c.title, true))
	}
	b.heights(p.head, p.head, lines)
	if len(rows) == 0 {
		b.text(1, p.first(), "none", lookNote)
	}
	styles, templates := make([]int, len(columns)), make([]*template, len(columns))
	for i, c := range columns {
		styles[i] = b.styleOf(c.look)
		if c.formula != "" && c.formulaOf == nil {
			templates[i] = b.template(c.formula, p)
		}
	}
	wraps := slices.ContainsFunc(columns, func(c column[R]) bool { return c.look.wrap })
	for n, r := range rows {
		row := p.first() + n
		lines := 1
		for i, c := range columns {
			if c.blank {
				continue
			}
			v := c.value(r)
			lines = max(lines, c.lines(v.text, c.look.wrap))
			cell := b.grid.cell(i+1, row)
			cell.value, cell.style = v, styles[i]
			if templates[i] != nil {
				cell.formula = templates[i].at(row)
			} else if c.formulaOf != nil {
				if formula := c.formulaOf(r); formula != "" {
					cell.formula = b.expand(formula, p, row)
				}
			}
		}
		if wraps {
			b.heights(row, row, lines)
		}
	}
}

// lines is how many lines a text takes in the column, a character a unit of
// width: words move to the next line whole, those wider than the column go on.
func (c column[R]) lines(text string, wrapped bool) int {
	if !wrapped || c.folded {
		return 1
	}
	lines, used := 1, 0.0
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		size := float64(utf8.RuneCountInString(word))
		if used > 0 && used+size > c.width-float64(c.look.indent) {
			lines, used = lines+1, 0
		}
		used += size + 1
		for used > c.width+1 {
			lines, used = lines+1, used-c.width
		}
	}
	return lines
}

// lineHeight is the height of a row of one line, in points.
const lineHeight = 15

// heights makes rows so many lines high.
func (b *book) heights(from, to, lines int) {
	for row := from; row <= to; row++ {
		b.height(row, min(lineHeight*float64(lines), 400))
	}
}

// widths sets the columns of a sheet and folds the working ones away.
func widths[R any](b *book, columns []column[R]) {
	for i, c := range columns {
		b.width(i+1, i+1, c.width)
		if c.folded {
			b.fold(i + 1)
		}
	}
}

// proseDensity is how many characters of running text a unit of width holds at
// the least: letters are narrower than the digits that it is counted in.
const proseDensity = 1.1

// textLines is how many lines a text takes that is so wide; a line feed starts
// a new one.
func textLines(words string, width float64) int {
	lines := 0
	for _, part := range strings.Split(words, "\n") {
		lines += column[int]{width: width}.lines(part, true)
	}
	return lines
}

// foldedAway makes columns working ones.
func foldedAway[R any](columns []column[R]) []column[R] {
	for i := range columns {
		columns[i].folded = true
		columns[i].width = 11
		columns[i].look = columns[i].look.working()
	}
	return columns
}

// blank is a column that only another table of the sheet has.
func blank[R any](key string) column[R] { return column[R]{key: key, width: 12.5, blank: true} }

// dollars is a fixed area, or a fixed cell where its end is left out.
func dollars(fromColumn, fromRow, toColumn, toRow int) string {
	from := "$" + columnName(fromColumn) + "$" + strconv.Itoa(fromRow)
	if toColumn == 0 {
		return from
	}
	return from + ":$" + columnName(toColumn) + "$" + strconv.Itoa(toRow)
}
