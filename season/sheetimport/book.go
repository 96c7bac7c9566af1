package sheetimport

import (
	"fmt"
	"slices"
	"strings"

	"boxbook/report/display"
)

// RecogniseBook finds the marks of one flight in a workbook with a worksheet a
// judge. It reports false where the workbook is none: where fewer than two of
// its worksheets name a judge and have a column of marks.
func RecogniseBook(grids []Grid, o Options) (Result, bool) {
	o.inBook = true
	b := &judgeBook{o: o}
	for _, g := range grids {
		rows, notes, problem := ofPilot(g, o)
		b.out.Notes = append(b.out.Notes, notes...)
		if problem != nil {
			b.add(*problem)
		}
		b.sort(rows)
	}
	b.nameByPanel()
	named := slices.DeleteFunc(slices.Clone(b.judged), func(j judgeSheet) bool { return j.name == "" })
	if len(b.judged) == 1 && len(b.others) > 0 {
		r := recognise(b.judged[0].grid, o)
		r.Notes, r.Problems = slices.Concat(b.out.Notes, r.Notes), slices.Concat(b.out.Problems, r.Problems)
		b.out = r
		b.tellOthers()
		return b.out, true
	}
	if len(named) < 2 {
		return Result{}, false
	}
	b.settlePanel()
	b.out.Rows = make([][]Entry, len(o.Lines))
	b.out.Again = make([][][]Entry, len(o.Lines))
	for _, j := range b.judged {
		b.read(j)
	}
	b.tellOthers()
	b.tellSeats()
	return b.out, true
}

// WholeSheets are the worksheets that are a flight's sheet each by themselves, with
// several judges in it: which is meant is for a person to say.
func WholeSheets(grids []Grid, o Options) []Grid {
	var whole []Grid
	for _, g := range grids {
		rows, _, _ := ofPilot(g, o)
		s := find(rows, o)
		named := 0
		for _, j := range s.layout.judges {
			if j.name != "" {
				named++
			}
		}
		if !g.Hidden && (s.found || s.eitherWay) && (s.layout.long() || s.layout.headings >= 0 && named > 1) && s.lines() > 1 {
			whole = append(whole, g)
		}
	}
	return whole
}

// judgeBook is a workbook on its way.
type judgeBook struct {
	o      Options
	judged []judgeSheet
	others []Grid // without the marks of a judge
	out    Result
}

// judgeSheet is the worksheet of one judge.
type judgeSheet struct {
	grid Grid
	name string
}

// sort tells the worksheet of a judge from another.
func (b *judgeBook) sort(g Grid) {
	s := newSheet(g, b.o, false)
	name := judgeOf(g, b.o)
	switch {
	case !s.loneColumn() && len(s.Rows) == 0:
		return // nothing in it
	case len(s.layout.judges) == 0:
		b.others = append(b.others, g)
	default:
		b.judged = append(b.judged, judgeSheet{g, name})
	}
}

// judgeOf is the judge whom a worksheet names: in a cell above its table or by
// its own name; "" where it names none, or two.
func judgeOf(g Grid, o Options) string {
	var found []string
	panel := o.Panel
	take := func(text string) {
		name, ok := onPanel(panel, text)
		if !ok {
			name, ok = namedWithin(panel, text)
		}
		if ok && !slices.Contains(found, name) {
			found = append(found, name)
		}
	}
	if panel != nil {
		if take(g.Name); len(found) == 0 {
			for _, row := range g.Rows[:min(titleRows, len(g.Rows))] {
				for _, c := range row.Cells {
					if c.Kind == Text && !isDigits(c.Text) {
						take(strings.ReplaceAll(c.Text, ":", ": "))
					}
				}
			}
		}
	} else {
		found = judgeByLabel(g, o)
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// titleRows is how many rows of a worksheet are looked at for its judge.
const titleRows = 8

// judgeByLabel is the handle beside the word judge, or the worksheet's name.
func judgeByLabel(g Grid, o Options) []string {
	for _, row := range g.Rows[:min(titleRows, len(g.Rows))] {
		for i, c := range row.Cells[:max(len(row.Cells)-1, 0)] {
			if name, ok := o.judgeNamed(row.Cells[i+1].Text); ok && says(c, judgeHeadings) && row.Cells[i+1].Kind == Text {
				return []string{name}
			}
		}
	}
	if name, ok := o.judgeNamed(g.Name); ok {
		return []string{name}
	}
	return nil
}

// settlePanel settles the judges: those of the ledger, or those that the
// worksheets name.
func (b *judgeBook) settlePanel() {
	b.out.Panel = slices.Clone(b.o.Panel)
	if b.o.Panel != nil {
		return
	}
	for _, j := range b.judged {
		if j.name != "" && !slices.Contains(b.out.Panel, j.name) {
			b.out.Panel = append(b.out.Panel, j.name)
		}
	}
	if len(b.out.Panel) > 0 {
		b.out.Notes = append(b.out.Notes, Note{Text: "the judges are those of the worksheets: " + strings.Join(b.out.Panel, " ")})
	}
}

// problem reports a problem of a worksheet.
func (b *judgeBook) problem(sheet, cell, hint, format string, args ...any) {
	b.add(Problem{Sheet: sheet, Cell: cell, Hint: hint, Text: fmt.Sprintf(format, args...)})
}

func (b *judgeBook) add(p Problem) {
	if len(b.out.Problems) == mostProblems {
		b.out.More++
		return
	}
	b.out.Problems = append(b.out.Problems, p)
}

// read reads the worksheet of one judge into its column of the panel.
func (b *judgeBook) read(j judgeSheet) {
	at := slices.Index(b.out.Panel, j.name)
	if j.name == "" || at < 0 {
		b.problem(j.grid.Name, "A1", "name the worksheet by its judge, or read one sheet with --sheet", "the worksheet has marks and names no judge%s", ofPanel(b.o.Panel))
		return
	}
	o := b.o
	o.Panel = []string{j.name}
	r := readLone(j.grid, o)
	for _, n := range r.Notes {
		n.Sheet = j.grid.Name
		if n.Cell == "" {
			n.Text = fmt.Sprintf("worksheet %s: %s", quoted(n.Sheet), n.Text)
		}
		b.out.Notes = append(b.out.Notes, n)
	}
	for _, p := range r.Problems {
		p.Sheet = j.grid.Name
		b.add(p)
	}
	b.out.More += r.More
	if slices.ContainsFunc(b.out.Rows, func(row []Entry) bool { return row != nil && row[at].Read }) {
		b.problem(j.grid.Name, "A1", "", "judge %s has a second worksheet", j.name)
		return
	}
	for i, row := range r.Rows {
		if row == nil {
			continue
		}
		b.place(&b.out.Rows[i], at, row[0])
		for n, again := range r.Again[i] {
			for len(b.out.Again[i]) <= n {
				b.out.Again[i] = append(b.out.Again[i], make([]Entry, len(b.out.Panel)))
			}
			b.out.Again[i][n][at] = again[0]
		}
	}
}

// place puts a judge's mark into a row.
func (b *judgeBook) place(row *[]Entry, at int, e Entry) {
	if *row == nil {
		*row = make([]Entry, len(b.out.Panel))
	}
	(*row)[at] = e
}

// readLone reads the sheet of one judge: the one of o.Panel.
func readLone(g Grid, o Options) Result {
	if o.Columns.Given() {
		return recognise(g, o)
	}
	s := newSheet(g, o, false)
	s.loneColumn()
	s.takePilotColumn()
	if n := len(s.layout.judges); n > 1 {
		var columns []string
		for _, j := range s.layout.judges {
			columns = append(columns, ColumnName(j.column))
		}
		s.problem(s.layout.judges[1].column, max(s.headingRow().Number, 1), "give the one that is meant: --columns figure="+ColumnName(s.layout.figure)+",judges=COLUMN",
			"columns %s could each be the marks of %s", listed(columns), o.Panel[0])
		return s.out
	}
	s.layout.judges[0].name = o.Panel[0]
	s.lone = true
	s.found = s.setJudges(s.layout.judges)
	return s.finish()
}

// takePilotColumn leaves of several columns of marks that of the pilot who was asked for,
// where each is headed by a person's name.
func (s *sheet) takePilotColumn() {
	var own, others []judgeColumn
	for _, j := range s.layout.judges {
		head := s.headingRow().Cell(j.column)
		switch {
		case head.Kind != Text || !namesPerson(head):
			return
		case s.o.isPilot(head.Text, s.o.asked()):
			own = append(own, j)
		default:
			others = append(others, judgeColumn{j.column, head.Text})
		}
	}
	if s.o.Pilot == "" || len(own) != 1 || len(others) == 0 {
		return
	}
	for _, j := range others {
		s.layout.left = append(s.layout.left, j.column)
	}
	s.layout.judges = own
}

// tellSeats reports what is missing: judges without a worksheet, and marks of a
// judge alone.
func (b *judgeBook) tellSeats() {
	for at, name := range b.out.Panel {
		has := slices.ContainsFunc(b.judged, func(j judgeSheet) bool { return j.name == name })
		if !has {
			rest := slices.Delete(slices.Clone(b.out.Panel), at, at+1)
			b.problem("", "", "where the sheet is not to hand: --panel \""+strings.Join(rest, " ")+" missing "+name+"\"", "judge %s of the panel has no worksheet", name)
		}
	}
	if len(b.out.Problems) > 0 {
		return
	}
	for i, row := range b.out.Rows {
		for _, entries := range append([][]Entry{row}, b.out.Again[i]...) {
			if at := slices.IndexFunc(entries, func(e Entry) bool { return !e.Read }); at >= 0 {
				b.problem("", "", "", "%s has fewer marks from judge %s than from the others", b.o.Lines[i].Name(), b.out.Panel[at])
			}
		}
	}
}

// tellOthers names the worksheets without a judge's marks, and compares totals
// of judges that stand there with the marks.
func (b *judgeBook) tellOthers() {
	s := &sheet{o: b.o, out: b.out}
	for _, g := range b.others {
		agree := 0
		for _, row := range g.Rows {
			p, at, ok := b.totalIn(row)
			if !ok {
				continue
			}
			total, known := s.printedOf(p, at)
			if !known {
				continue
			}
			way, differ := bestTotalling([]printed{total})
			switch {
			case len(differ) == 0:
				agree++
			default:
				b.problem(g.Name, CellName(p.cell.Column, p.row), "one mark or the total is mistyped", "the total printed for %s is %s, %s", b.out.Panel[at], p.cell.Text, total.comesTo(way))
			}
		}
		last := g.Rows[len(g.Rows)-1]
		said := fmt.Sprintf("not read: worksheet %s, which has no judge's marks (rows %d to %d)", quoted(g.Name), g.Rows[0].Number, last.Number)
		if agree > 0 {
			said += fmt.Sprintf("; the totals of %s in it agree with the marks", display.Counted(agree, "judge", "judges"))
		}
		b.out.Notes = append(b.out.Notes, Note{Sheet: g.Name, Text: said})
	}
}

// totalIn is a judge's total in a row: a name of the panel, and a number right
// of it that is no mark.
func (b *judgeBook) totalIn(row Row) (p place, at int, ok bool) {
	for i, c := range row.Cells {
		name, found := onPanel(b.out.Panel, c.Text)
		if !found || c.Kind != Text || i+1 == len(row.Cells) {
			continue
		}
		next := row.Cells[i+1]
		value, _, number := number(next)
		return place{next, row.Number}, slices.Index(b.out.Panel, name), number && value > 100
	}
	return p, 0, false
}
