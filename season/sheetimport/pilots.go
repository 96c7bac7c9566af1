package sheetimport

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"unicode"

	"boxbook/report/display"
)

// Pilot is one whom the ledger knows; Name is the handle where it has none.
type Pilot struct{ Handle, Name string }

// pilotHeadings head a column of pilots, or stand before one's name.
var pilotHeadings = []string{
	"pilot", "pilots", "pilote", "pilota", "piloto", "pilotin", "pilot in command", "pilot name", "pilot's name", "pilotname", "name of pilot", "name of the pilot",
	"name des piloten", "nom du pilote", "nome del pilota", "nombre del piloto", "competitor", "concurrent", "concorrente", "concurrente", "wettbewerber", "teilnehmer", "zawodnik",
}

// pilotTitle is a title that names a pilot in one cell: Results - Pilot: Jan Moser.
var pilotTitle = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`(?i)(?:^|[-–—|/,;]\s*)(?:` + strings.Join(pilotHeadings, "|") + `)\s*[:=]\s*(\S.*)$`)
})

// pilotRows are the rows of one pilot by the name that the sheet has for him.
type pilotRows struct {
	name   string
	column int
	rows   []int // by number, those that are his
}

// ofPilot leaves the rows of the pilot who was asked for where the sheet names several, and
// says whose were not read; or it gives the problem of a sheet that is another's.
func ofPilot(g Grid, o Options) (Grid, []Note, *Problem) {
	if o.Pilot == "" {
		return g, nil, nil
	}
	named := pilotsIn(g, o)
	switch len(named) {
	case 0:
		if other, ok := o.anotherPilot(g.Name); ok && !o.inBook && !o.leaves(g.Name) {
			return g, nil, o.ofAnother(g, "", "the worksheet's name", quoted(g.Name), other, leavingName(g.Name))
		}
		return g, nil, nil
	case 1:
		at := named[0]
		cell := CellName(at.column, at.rows[0])
		other, ok := o.anotherPilot(at.name)
		switch {
		case ok:
			return g, nil, o.ofAnother(g, cell, cell, quoted(at.name), other, cell)
		case o.plainlyNot(at.name):
			return g, []Note{{g.Name, cell, fmt.Sprintf("the pilot is called %s here, and %s is %s in the ledger", quoted(at.name), o.Pilot, quoted(o.asked().Name))}}, nil
		}
		return g, nil, nil
	}
	var left []pilotRows
	out := map[int]bool{}
	for _, p := range named {
		if o.isPilot(p.name, o.asked()) {
			continue
		}
		left = append(left, p)
		for _, row := range p.rows {
			out[row] = true
		}
	}
	if len(left) == len(named) {
		return g, nil, o.noneOf(g, named)
	}
	kept := slices.DeleteFunc(slices.Clone(g.Rows), func(r Row) bool { return out[r.Number] })
	others := make([]string, len(left))
	for i, p := range left {
		others[i] = spansOfRows(p.rows) + " " + quoted(p.name)
	}
	g.Rows = kept
	return g, []Note{{Sheet: g.Name, Text: fmt.Sprintf("the rows of %s are read; not read: those of %s: %s",
		o.Pilot, display.Counted(len(left), "other pilot", "other pilots"), listed(others))}}, nil
}

// pilotsIn are the pilots whom a sheet names, in order, with their rows: by a column of
// them, else by titles above their tables. What is left out names nobody.
func pilotsIn(g Grid, o Options) []pilotRows {
	rows := g.Rows
	for _, text := range o.Columns.Leave {
		area, ok := areaOf(strings.TrimSpace(text))
		if column, letters := ColumnNumber(strings.TrimSpace(text)); letters {
			area, ok = Area{Left: column, Top: 1, Right: column, Bottom: LastRow}, true
		}
		if ok {
			rows = outside(rows, area)
		}
	}
	if named := pilotColumn(rows, o); named != nil {
		return named
	}
	return pilotTitles(rows, o)
}

// pilotColumn are the pilots of a column that is headed as one of them, beside headings of
// figures or judges or with pilots of the ledger in it. An empty cell is of the pilot above.
func pilotColumn(rows []Row, o Options) []pilotRows {
	for i, row := range rows[:min(headingRows, len(rows))] {
		for _, c := range row.Cells {
			if !says(c, pilotHeadings) {
				continue
			}
			named, known := pilotsBeneath(rows[i+1:], c.Column, o)
			table := slices.ContainsFunc(row.Cells, func(other Cell) bool {
				return says(other, figureHeadings) || says(other, judgeHeadings) || says(other, markHeadings) || headsK(other)
			})
			if len(named) > 0 && (table || known > 1) {
				return named
			}
		}
	}
	return nil
}

// pilotsBeneath are the pilots in a column, nil where anything else stands in it; known
// counts the cells that name pilots of the ledger.
func pilotsBeneath(rows []Row, column int, o Options) (named []pilotRows, known int) {
	at := -1
	for _, row := range rows {
		c := row.Cell(column)
		switch {
		case c.Kind == Empty || says(c, pilotHeadings):
		case c.Kind != Text || !namesPerson(c) || says(c, figureHeadings):
			return nil, 0
		default:
			at = placeOf(&named, c)
			if slices.ContainsFunc(o.Pilots, func(p Pilot) bool { return o.isPilot(c.Text, p) }) {
				known++
			}
		}
		if at >= 0 && !says(c, pilotHeadings) {
			named[at].rows = append(named[at].rows, row.Number)
		}
	}
	return named, known
}

// placeOf is the place of the pilot whom a cell names, a new one behind the others.
func placeOf(named *[]pilotRows, c Cell) int {
	at := slices.IndexFunc(*named, func(p pilotRows) bool { return folded(p.name) == folded(c.Text) })
	if at < 0 {
		at = len(*named)
		*named = append(*named, pilotRows{name: c.Text, column: c.Column})
	}
	return at
}

// pilotTitles are the pilots whom titles name, with the rows down to the next one. Two in
// one row stand side by side, and name nobody's rows.
func pilotTitles(rows []Row, o Options) (named []pilotRows) {
	at := -1
	for _, row := range rows {
		found := titlesOf(row, o)
		if len(found) > 1 {
			return nil
		}
		if len(found) == 1 {
			at = placeOf(&named, found[0])
		}
		if at >= 0 {
			named[at].rows = append(named[at].rows, row.Number)
		}
	}
	return named
}

// titlesOf are the pilots whom a row names behind a word for one.
func titlesOf(row Row, o Options) (found []Cell) {
	for i, c := range row.Cells {
		if c.Kind != Text {
			continue
		}
		title := c
		if parts := pilotTitle().FindStringSubmatch(plain(c.Text)); parts != nil {
			title.Text = parts[1]
			found = append(found, title)
			continue
		}
		if !says(c, pilotHeadings) || i+1 == len(row.Cells) {
			continue
		}
		if next := row.Cells[i+1]; next.Kind == Text && namesPerson(next) && !says(next, figureHeadings) && !says(next, judgeHeadings) && !headsK(next) {
			found = append(found, next)
		}
	}
	if len(found) == 0 && len(row.Cells) == 1 && !o.inBook {
		c := row.Cells[0]
		_, judge := onPanel(o.Panel, c.Text)
		if c.Kind == Text && !judge && len(strings.Fields(c.Text)) > 1 && slices.ContainsFunc(o.Pilots, func(p Pilot) bool { return o.isPilot(c.Text, p) }) {
			found = append(found, c)
		}
	}
	return found
}

// namesPerson reports whether a text can be a person's name: letters, and no mark.
func namesPerson(c Cell) bool {
	letters := strings.Count(strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) {
			return 'x'
		}
		return -1
	}, c.Text), "x")
	return letters > 1 && !likeMark(c)
}

// asked is the pilot who was asked for.
func (o Options) asked() Pilot {
	for _, p := range o.Pilots {
		if p.Handle == o.Pilot {
			return p
		}
	}
	return Pilot{o.Pilot, o.Pilot}
}

// isPilot reports whether a text is a pilot's handle or whole name, the words in any order;
// what stands in brackets or behind a dash may be something else.
func (o Options) isPilot(text string, p Pilot) bool {
	forms := []string{text}
	for _, end := range []string{"(", "[", " - ", " – ", " / ", ";"} {
		if before, _, found := strings.Cut(text, end); found && strings.TrimSpace(before) != "" {
			forms = append(forms, before)
		}
	}
	return slices.ContainsFunc(forms, func(form string) bool {
		words := wordsOfName(form)
		return len(words) > 0 && (slices.Equal(words, wordsOfName(p.Handle)) || slices.Equal(words, wordsOfName(p.Name)))
	})
}

// wordsOfName are the words of a name, sorted.
func wordsOfName(text string) []string {
	return slices.Sorted(slices.Values(strings.Fields(strings.ReplaceAll(folded(text), ",", " "))))
}

// anotherPilot is the one pilot of the ledger, another than was asked for, whom a text names.
func (o Options) anotherPilot(text string) (Pilot, bool) {
	var found []Pilot
	for _, p := range o.Pilots {
		if o.isPilot(text, p) {
			found = append(found, p)
		}
	}
	if len(found) == 1 && found[0].Handle != o.Pilot {
		return found[0], true
	}
	return Pilot{}, false
}

// plainlyNot reports whether a name has no word of the one that the ledger has for the
// pilot, nor an initial.
func (o Options) plainlyNot(text string) bool {
	p := o.asked()
	words := wordsOfName(text)
	if p.Name == p.Handle || len(words) < 2 || strings.ContainsFunc(text, unicode.IsDigit) {
		return false
	}
	own := append(wordsOfName(p.Name), folded(p.Handle))
	return !slices.ContainsFunc(words, func(word string) bool {
		return slices.ContainsFunc(own, func(other string) bool { return word == other || strings.HasPrefix(other, word) && len(word) > 1 })
	})
}

// ofAnother is the problem of a sheet that names another pilot of the ledger.
func (o Options) ofAnother(g Grid, cell, where, name string, other Pilot, leave string) *Problem {
	given := o.Columns
	given.Leave = append(slices.Clone(given.Leave), leave)
	return &Problem{
		Sheet: g.Name, Cell: cell,
		Text: fmt.Sprintf("%s is that of the pilot %s, and the marks were asked for as those of %s", name, other.Handle, o.Pilot),
		Hint: fmt.Sprintf("where they are those of %s: --pilot %s; where %s does not say whose they are: --columns %s", other.Handle, other.Handle, where, given.flag()),
	}
}

// noneOf is the problem of a sheet with several pilots of whom none is the one asked for.
func (o Options) noneOf(g Grid, named []pilotRows) *Problem {
	names := make([]string, len(named))
	for i, p := range named {
		names[i] = spansOfRows(p.rows) + " " + quoted(p.name)
	}
	p := o.asked()
	return &Problem{
		ofSeveral: true,
		Sheet:     g.Name, Cell: CellName(named[0].column, named[0].rows[0]),
		Text: fmt.Sprintf("the sheet has the rows of %d pilots, and none of them is called %s: %s", len(named), strings.Join(slices.Compact([]string{p.Handle, p.Name}), " or "), listed(names)),
		Hint: fmt.Sprintf("type the name in the ledger as the sheet has it: pilot %s, and beneath it name \"NAME\"; or leave the others' rows out: --columns leave=FROM:TO", p.Handle),
	}
}

// leaves reports whether a text was left out word for word.
func (o Options) leaves(text string) bool {
	return text != "" && slices.ContainsFunc(o.Columns.Leave, func(leave string) bool { return strings.TrimSpace(leave) == leavingName(text) })
}

// leavingName is a worksheet's name as leave= takes it.
func leavingName(name string) string { return strings.NewReplacer(",", " ", "+", " ").Replace(name) }

// spansOfRows are rows as leave= takes them.
func spansOfRows(rows []int) string {
	var spans []string
	for i := 0; i < len(rows); {
		from := i
		for i++; i < len(rows) && rows[i] == rows[i-1]+1; i++ {
		}
		spans = append(spans, fmt.Sprintf("%d:%d", rows[from], rows[i-1]))
	}
	return strings.Join(spans, "+")
}

// SheetOf is the one worksheet of several that is called as the pilot who was asked for.
func SheetOf(grids []Grid, o Options) (Grid, bool) {
	var found []Grid
	for _, g := range grids {
		named := pilotsIn(g, o)
		if o.Pilot != "" && (len(named) == 0 && o.isPilot(g.Name, o.asked()) || len(named) == 1 && o.isPilot(named[0].name, o.asked())) {
			found = append(found, g)
		}
	}
	if len(found) != 1 {
		return Grid{}, false
	}
	return found[0], true
}

// NoteOf says that of several worksheets with a flight each the one that is called as the
// pilot is read.
func NoteOf(g Grid, whole []Grid) Note {
	var others []string
	for _, other := range whole {
		if other.Name != g.Name {
			others = append(others, quoted(other.Name))
		}
	}
	return Note{Sheet: g.Name, Text: fmt.Sprintf("worksheet %s is read, that of the pilot; not read: %s", quoted(g.Name), listed(others))}
}
