package sheetimport

import (
	"fmt"
	"slices"
	"strings"
)

// Columns say which column holds what, each by its letters in capitals or by
// its heading. Figure and Judges make a wide sheet, a row a figure and a column
// a judge; Figure, Judge and Mark a long one, a row a mark. The zero Columns
// leave it to the headings. Leave are columns that are left out, with either.
type Columns struct {
	Figure string
	Judges []string // in order; a range stands as C-G
	Judge  string
	Mark   string
	Leave  []string
}

// Given reports whether columns to read were given.
func (c Columns) Given() bool { return c.Figure != "" }

// columnsForm says how columns are given.
const columnsForm = `give figure=A,judges=C-G for a row a figure, or figure=A,judge=B,mark=C for a row a mark, and leave=H for what is left out`

// ParseColumns reads columns as a person gives them: figure=A,judges=C-G, or
// judges=C+E+F; figure=A,judge=B,mark=C; leave=H with either or alone; headings
// may stand for letters. An empty text gives the zero Columns.
func ParseColumns(text string) (Columns, error) {
	var c Columns
	if text == "" {
		return c, nil
	}
	seen := map[string]bool{}
	for _, part := range strings.Split(text, ",") {
		key, value, found := strings.Cut(part, "=")
		key, value = strings.TrimSpace(key), strings.TrimSpace(value)
		if !found || value == "" {
			return Columns{}, fmt.Errorf("%q is not NAME=COLUMN; %s", part, columnsForm)
		}
		if seen[key] {
			return Columns{}, fmt.Errorf("%s is given twice; %s", key, columnsForm)
		}
		seen[key] = true
		if !c.set(key, value) {
			return Columns{}, fmt.Errorf("%q is none of figure, judges, judge, mark, leave; %s", key, columnsForm)
		}
	}
	if !c.complete() {
		return Columns{}, fmt.Errorf("%q says too little or too much; %s", text, columnsForm)
	}
	return c, nil
}

// set takes one part; it reports false for a name that is none.
func (c *Columns) set(key, value string) bool {
	switch key {
	case "figure":
		c.Figure = value
	case "judges":
		c.Judges = strings.Split(value, "+")
	case "judge":
		c.Judge = value
	case "mark":
		c.Mark = value
	case "leave":
		c.Leave = strings.Split(value, "+")
	default:
		return false
	}
	return true
}

// complete reports whether the columns make a sheet, or leave it to the headings.
func (c Columns) complete() bool {
	wide := c.Judges != nil && c.Judge == "" && c.Mark == ""
	long := c.Judges == nil && c.Judge != "" && c.Mark != ""
	if c.Figure == "" {
		return c.Leave != nil && c.Judges == nil && c.Judge == "" && c.Mark == ""
	}
	return wide || long
}

// String gives the columns as ParseColumns reads them.
func (c Columns) String() string {
	var parts []string
	for _, part := range []struct{ key, value string }{
		{"figure", c.Figure},
		{"judges", strings.Join(c.Judges, "+")},
		{"judge", c.Judge},
		{"mark", c.Mark},
		{"leave", strings.Join(c.Leave, "+")},
	} {
		if part.value != "" {
			parts = append(parts, part.key+"="+part.value)
		}
	}
	return strings.Join(parts, ",")
}

// columnFinder turns letters and headings into columns of one sheet.
type columnFinder struct {
	width    int
	headings Row
}

// one finds a column. Letters win over a heading that reads the same.
func (f columnFinder) one(text string) (int, bool) {
	if n, ok := ColumnNumber(text); ok && n <= f.width {
		return n, true
	}
	for _, c := range f.headings.Cells {
		if folded(c.Text) == folded(text) {
			return c.Column, true
		}
	}
	return 0, false
}

// span finds a column or a range of them.
func (f columnFinder) span(text string) ([]int, bool) {
	if n, ok := f.one(text); ok {
		return []int{n}, true
	}
	for i, r := range text {
		if r != '-' {
			continue
		}
		from, ok := f.one(strings.TrimSpace(text[:i]))
		to, too := f.one(strings.TrimSpace(text[i+1:]))
		if ok && too && from <= to {
			columns := make([]int, 0, to-from+1)
			for n := from; n <= to; n++ {
				columns = append(columns, n)
			}
			return columns, true
		}
	}
	return nil, false
}

// all finds every column that was given; what is "" where all are there.
func (f columnFinder) all(c Columns) (l layout, what string) {
	finds := []struct {
		text string
		into *int
	}{{c.Figure, &l.figure}, {c.Judge, &l.judge}, {c.Mark, &l.mark}}
	for _, find := range finds {
		if find.text == "" {
			continue
		}
		n, ok := f.one(find.text)
		if !ok {
			return l, find.text
		}
		*find.into = n
	}
	if l.left, what = f.spans(c.Leave); what != "" {
		return l, what
	}
	judges, what := f.spans(c.Judges)
	for _, n := range judges {
		if n != l.figure && !slices.Contains(l.left, n) && len(l.judges) <= mostJudges && !l.marks(n) {
			l.judges = append(l.judges, judgeColumn{column: n})
		}
	}
	return l, what
}

// spans finds columns and ranges of them; what is the first that is not there.
func (f columnFinder) spans(texts []string) (columns []int, what string) {
	for _, text := range texts {
		found, ok := f.span(strings.TrimSpace(text))
		if !ok {
			return columns, text
		}
		columns = append(columns, found...)
	}
	return columns, ""
}
