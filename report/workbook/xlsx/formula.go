package xlsx

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// reference is a place in a formula that names a column by its key.
var reference = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`\{(?:([A-Z][A-Za-z]*)\.)?([a-z0-9-]+)(?::([a-z0-9-]+))?\}`)
})

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

// Expand puts cells in the place of a formula's references, as seen from one
// row of a table. Each formula is taken apart once.
func (b *Book) Expand(formula string, from Placed, row int) string {
	return b.template(formula, from).at(row)
}

func (b *Book) template(formula string, from Placed) *template {
	key := templateKey{from.Name, formula}
	t, known := b.templates[key]
	if !known {
		t = b.takeApart(formula, from)
		b.templates[key] = t
	}
	return t
}

func (b *Book) takeApart(formula string, from Placed) *template {
	t := new(template)
	var fixed strings.Builder
	keep := func(s string) { fixed.WriteString(strings.ReplaceAll(s, brace, "{")) }
	cell := func(column int) {
		t.texts, t.columns = append(t.texts, fixed.String()), append(t.columns, ColumnName(column))
		fixed.Reset()
	}
	done := 0
	for _, m := range reference().FindAllStringSubmatchIndex(formula, -1) {
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
			target = b.Tables[table]
		}
		if target.Columns[key] == 0 || target.Columns[to] == 0 {
			b.fail(fmt.Errorf("formula %s names no column: %s", formula, formula[m[0]:m[1]]))
			continue
		}
		if table != "" {
			keep(target.Ref(key, to))
			continue
		}
		cell(target.Columns[key])
		if to != key {
			keep(":")
			cell(target.Columns[to])
		}
	}
	keep(formula[done:])
	t.texts = append(t.texts, fixed.String())
	for _, s := range slices.Concat(t.texts, t.columns) {
		t.length += len(s)
	}
	return t
}

// Quoted is a text inside a formula; a formula's own texts have at most 255
// characters. Braces are kept from being read as references.
func Quoted(s string) string {
	return `"` + strings.ReplaceAll(strings.ReplaceAll(s, `"`, `""`), "{", brace) + `"`
}

// brace stands for { until references are put in; no ledger can hold it.
const brace = "\x01"
