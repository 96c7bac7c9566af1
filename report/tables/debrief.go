package tables

import (
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// debriefFigure is the least width of a figure's name, which goes on in further
// lines.
const debriefFigure = 12

// DebriefTable has a row a line of the sheet, with its K and the faults noted on it:
// the page's rows for other programs.
func DebriefTable(d answers.Debrief) *report.Table {
	lines := debriefLines(d)
	t := debriefTable(lines, []report.Column{{Title: words.ColumnMarks}}, func(line debriefLine) []report.Cell {
		return []report.Cell{report.Text(strings.Join(line.marks, " "))}
	})
	t.Columns = slices.Insert(t.Columns, debriefMarked, report.Column{Title: words.ColumnK, Align: report.Right})
	t.Columns = append(t.Columns, report.Column{Title: words.ColumnFaultsNoted})
	for i, line := range lines {
		k := report.Empty()
		if line.k > 0 {
			k = CountCell(line.k)
		}
		t.Rows[i] = slices.Insert(append(t.Rows[i], report.Text(faultsSaid(d.Flight, line.noted))), debriefMarked, k)
	}
	return t
}

// DebriefSheet is the same for people: a column a judge, the faults beneath the row
// of their figure.
func DebriefSheet(d answers.Debrief) *report.Table {
	var judges []report.Column
	if slices.ContainsFunc(d.Rows, func(r answers.DebriefRow) bool { return len(r.Marks) > 0 }) {
		for _, name := range d.Panel {
			judges = append(judges, report.Column{Title: name, Align: report.Right})
		}
	}
	lines := debriefLines(d)
	t := debriefTable(lines, judges, func(line debriefLine) []report.Cell { return debriefMarks(d.Flight, line) })
	if last := len(t.Columns) - 1; !slices.ContainsFunc(d.Rows, func(r answers.DebriefRow) bool { return r.Expected.Known() || r.Unpriced }) {
		t.Columns = t.Columns[:last] // nothing stands in it
		for i := range t.Rows {
			t.Rows[i] = t.Rows[i][:last]
		}
	}
	t.Below = make([]string, len(lines))
	for i, line := range lines {
		t.Below[i] = faultsSaid(d.Flight, line.noted)
	}
	return t
}

// debriefMarked is how many columns stand before the marks.
const debriefMarked = 2

// debriefLine is a line of the sheet of a debrief: a row, or one of the rows and the
// mean of a figure that was flown several times.
type debriefLine struct {
	number      int // 0 of no figure, and of further lines of one
	label       string
	k           int
	marks       []string
	cells       []answers.MarkCell
	given, lost report.Number
	expected    report.Cell
	noted       []int
}

// debriefLines are the lines of the sheet. What is of the figure, and not of one of its
// rows, stands with the mean.
func debriefLines(d answers.Debrief) []debriefLine {
	var lines []debriefLine
	for _, r := range d.Rows {
		whole := debriefLine{
			number: r.Figure, label: words.DebriefRowName(r), k: r.K, marks: r.Marks, cells: r.Cells,
			given: r.Given, lost: r.Lost, expected: expectedCell(r.Expected, r.Unpriced), noted: r.Noted,
		}
		for i, row := range r.Rows {
			one := debriefLine{label: words.FlownAgain, marks: row.Marks, cells: row.Cells, given: row.Mean, expected: report.Empty()}
			if i == 0 {
				one.number, one.label, one.k = r.Figure, whole.label, r.K
			}
			lines = append(lines, one)
		}
		if times := len(r.Rows); times > 0 {
			whole.number, whole.label, whole.k, whole.marks, whole.cells = 0, words.MeanOfRows(times), 0, nil, nil
		}
		lines = append(lines, whole)
	}
	return lines
}

// debriefTable has the lines of the sheet, with columns for what is given of their
// marks.
func debriefTable(lines []debriefLine, marks []report.Column, of func(debriefLine) []report.Cell) *report.Table {
	t := &report.Table{Key: 2, Columns: slices.Concat([]report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Wrapped: true, Min: debriefFigure},
	}, marks, []report.Column{
		{Title: words.ColumnGiven, Align: report.Right},
		{Title: words.ColumnLost, Align: report.Right},
		{Title: words.ColumnExpected, Align: report.Right},
	})}
	for _, line := range lines {
		cells := make([]report.Cell, len(marks))
		copy(cells, of(line))
		number := report.Empty()
		if line.number > 0 {
			number = CountCell(line.number)
		}
		t.Rows = append(t.Rows, slices.Concat([]report.Cell{number, report.Text(line.label)}, cells, []report.Cell{
			report.Num(line.given, words.MeanDecimals), report.Num(line.lost, words.PointDecimals), line.expected,
		}))
	}
	return t
}

// debriefMarks are a line's marks as the score sheet shows them; one that stands alone
// has a sign of its own.
func debriefMarks(d answers.Flight, line debriefLine) []report.Cell {
	cells := make([]report.Cell, len(line.marks))
	for i, mark := range line.marks {
		cells[i] = report.Text(mark)
		if i < len(line.cells) {
			cells[i] = markCell(mark, line.cells[i])
		}
		alone := func(f answers.Flag) bool { return line.number > 0 && f.Figure == line.number && f.Judge == d.Panel[i] }
		if i < len(d.Panel) && slices.ContainsFunc(d.Flags, alone) {
			cells[i] = cells[i].Marked(words.AloneSign)
		}
	}
	return cells
}

// debriefSigns are the ways of counting that have a sign on the sheet.
func debriefSigns(rows []answers.DebriefRow) map[answers.Counting]bool {
	used := map[answers.Counting]bool{}
	for _, r := range rows {
		for _, cell := range r.Cells {
			used[cell.Counted] = true
		}
		for _, row := range r.Rows {
			for _, cell := range row.Cells {
				used[cell.Counted] = true
			}
		}
	}
	return used
}

// faultsSaid are the faults of a row.
func faultsSaid(d answers.Flight, noted []int) string {
	said := make([]string, len(noted))
	for i, at := range noted {
		said[i] = words.FaultSaid(d.Faults[at])
	}
	return strings.Join(said, "; ")
}

// DebriefNotes explain the signs of the table, with the grades that stand alone; then
// stand the notes of pilot and coach, and where the videos are.
func DebriefNotes(d answers.Debrief) *report.Notes {
	notes := &report.Notes{}
	if d.Style != nil {
		notes.Items = signNotes(*d.Style, debriefSigns(d.Rows))
	}
	for _, text := range words.AloneNotes(d.Flags) {
		notes.Items = append(notes.Items, report.Note{Mark: words.AloneSign, Text: text})
	}
	if slices.ContainsFunc(d.Rows, func(r answers.DebriefRow) bool { return r.Unpriced }) {
		notes.Items = append(notes.Items, report.Note{Mark: words.UnknownSign, Text: words.UnknownText})
	}
	notes.Items = append(notes.Items, Notes(words.DebriefNotes(d.Flight)).Items...)
	expects := slices.ContainsFunc(d.Rows, func(r answers.DebriefRow) bool { return r.Expected.Known() || r.Unpriced })
	if expects && len(notes.Items) == 0 { // else a sheet of paper is full
		notes.Items = Notes([]string{words.DebriefExplained}).Items
	}
	return notes
}

// Numbered are notes with a number each, from 1.
func Numbered(texts []string) *report.Notes {
	notes := Notes(texts)
	for i := range notes.Items {
		notes.Items[i].Mark = report.Int(int64(i + 1)).Text(0)
	}
	return notes
}

// FormFacts are the lines at the head of an empty form.
func FormFacts(d answers.DebriefForm) *report.Facts {
	facts := &report.Facts{}
	AddFact(facts, words.FormPilot, report.Text(d.PilotName))
	AddFact(facts, words.FormSequence, report.Text(d.Sequence))
	for _, label := range []string{words.FormDate, words.FormWatchedBy, words.FormWind} {
		AddFact(facts, label, report.Text(words.FormLong))
	}
	return facts
}

// FormTable has a row a figure, to be filled in.
func FormTable(d answers.DebriefForm) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Wrapped: true, Min: debriefFigure},
		{Title: words.ColumnK, Align: report.Right},
		{Title: words.ColumnGrade},
		{Title: words.ColumnSaw},
		{Title: words.ColumnVideoAt},
	}}
	for _, f := range append(d.Figures[:len(d.Figures):len(d.Figures)], d.Lines...) {
		number := report.Empty()
		if f.Number > 0 {
			number = CountCell(f.Number)
		}
		t.Rows = append(t.Rows, []report.Cell{
			number, report.Text(f.Label), CountCell(f.K), report.Text(words.FormShort), report.Text(words.FormLong), report.Text(words.FormShort),
		})
	}
	return t
}

// FormTalk are the numbered lines to write the points to talk about on.
func FormTalk(d answers.DebriefForm) *report.Notes {
	lines := make([]string, d.Talk)
	for i := range lines {
		lines[i] = words.FormLong + words.FormLong
	}
	return Numbered(lines)
}
