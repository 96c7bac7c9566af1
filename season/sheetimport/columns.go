package sheetimport

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// Columns say which column holds what, each by its letters in capitals or by
// its heading. Figure and Judges make a wide sheet, a row a figure and a column
// a judge; Figure, Judge and Mark a long one, a row a mark. The zero Columns
// leave it to the headings. Leave are columns that are left out, with either.
type Columns struct {
	Figure string
	K      string   // "" leaves it to the headings and contents
	Judges []string // in order; a range stands as C-G
	Judge  string
	Mark   string
	Leave  []string
}

// Given reports whether columns to read were given.
func (c Columns) Given() bool { return c.Figure != "" }

// columnsForm says how columns are given.
const columnsForm = `give figure=A,judges=C-G for one row per figure (k=B with it for the K), figure=2,judges=4-8 (rows) for one row per judge, or figure=A,judge=B,mark=C for one row per mark, and leave=H for what is left out`

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
			return Columns{}, fmt.Errorf("%q is none of figure, k, judges, judge, mark, leave; %s", key, columnsForm)
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
	case "k":
		c.K = value
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
		return c.Leave != nil && c.Judges == nil && c.K == "" && c.Judge == "" && c.Mark == ""
	}
	return wide || long
}

// String gives the columns as ParseColumns reads them.
func (c Columns) String() string {
	var parts []string
	for _, part := range []struct{ key, value string }{
		{"figure", c.Figure},
		{"k", c.K},
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
	turned   bool // columns are the rows of the file, and given by their numbers
}

// one finds a column. Letters win over a heading that reads the same.
func (f columnFinder) one(text string) (int, bool) {
	if n, err := strconv.Atoi(text); f.turned && err == nil && n >= 1 && n <= f.width {
		return n, true
	}
	if n, ok := ColumnNumber(text); ok && !f.turned && n <= f.width {
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
	}{{c.Figure, &l.figure}, {c.K, &l.k}, {c.Judge, &l.judge}, {c.Mark, &l.mark}}
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
		if n != l.figure && n != l.k && !slices.Contains(l.left, n) && len(l.judges) <= mostJudges && !l.marks(n) {
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

// areaOf reads rows or cells that are left out: 16:28, I6, I6:K9.
func areaOf(text string) (Area, bool) {
	from, to, ranged := strings.Cut(text, ":")
	if !ranged {
		to = from
	}
	first, err := strconv.Atoi(from)
	last, errLast := strconv.Atoi(to)
	if ranged && err == nil && errLast == nil && first >= 1 {
		return Area{Left: 1, Top: first, Right: LastColumn, Bottom: last}, first <= last
	}
	left, top, ok := cellAt(from)
	right, bottom, too := cellAt(to)
	if !ok || !too {
		first, ok := ColumnNumber(from)
		last, too := ColumnNumber(to)
		return Area{Left: first, Top: 1, Right: last, Bottom: LastRow}, ranged && ok && too && first <= last
	}
	return Area{Left: left, Top: top, Right: right, Bottom: bottom}, left <= right && top <= bottom
}

// cellAt reads a cell's name: I6.
func cellAt(name string) (column, row int, ok bool) {
	letters := strings.TrimRight(name, "0123456789")
	column, ok = ColumnNumber(letters)
	row, err := strconv.Atoi(name[len(letters):])
	return column, row, ok && err == nil && row >= 1
}

// leaveAreas takes out of the sheet what is left out by rows or cells, and of a
// sheet to be turned by columns too. A heading that reads like a cell's name is
// meant as such; a range is one.
func (s *sheet) leaveAreas() {
	var rest []string
	for _, text := range s.o.Columns.Leave {
		text = strings.TrimSpace(text)
		area, ok := areaOf(text)
		if column, letters := ColumnNumber(text); letters && s.isTurned {
			area, ok = Area{Left: column, Top: 1, Right: column, Bottom: LastRow}, true
		}
		if _, letters := ColumnNumber(text); !letters && !ok && s.Name != "" && text == leavingName(s.Name) && !s.heads(text) {
			continue // it does not say whose the marks are
		}
		if !ok || !strings.Contains(text, ":") && s.heads(text) {
			rest = append(rest, text)
			continue
		}
		s.note("", "left out, as was asked: %s", text)
		s.Rows = outside(s.Rows, area)
	}
	s.o.Columns.Leave = rest
}

// heads reports whether a text stands in the rows where headings may be.
func (s *sheet) heads(text string) bool {
	return slices.ContainsFunc(s.Rows[:min(headingRows, len(s.Rows))], func(r Row) bool {
		return slices.ContainsFunc(r.Cells, func(c Cell) bool { return folded(c.Text) == folded(text) })
	})
}

// outside gives the rows without the cells of an area.
func outside(rows []Row, area Area) []Row {
	var kept []Row
	for _, row := range rows {
		if row.Number >= area.Top && row.Number <= area.Bottom {
			row.Cells = slices.DeleteFunc(slices.Clone(row.Cells), func(c Cell) bool { return c.Column >= area.Left && c.Column <= area.Right })
		}
		if len(row.Cells) > 0 {
			kept = append(kept, row)
		}
	}
	return kept
}
