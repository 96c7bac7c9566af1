package tables

import (
	"fmt"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The least widths of the columns of a debrief that go on in further lines.
const (
	debriefFigure = 12
	debriefFaults = 22
)

// DebriefTable has a row a line of the sheet, with the faults noted on it.
func DebriefTable(d answers.Debrief) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnFig, Align: report.Right},
		{Title: words.ColumnFigure, Wrapped: true, Min: debriefFigure},
		{Title: words.ColumnMarks, Drop: 1},
		{Title: words.ColumnGiven, Align: report.Right},
		{Title: words.ColumnExpected, Align: report.Right},
		{Title: words.ColumnFaultsNoted, Wrapped: true, Min: debriefFaults},
	}}
	wide := widestMark(d.Rows)
	for _, r := range d.Rows {
		number := report.Empty()
		if r.Figure > 0 {
			number = CountCell(r.Figure)
		}
		expected := expectedCell(r.Expected, r.Unpriced)
		t.Rows = append(t.Rows, []report.Cell{
			number, report.Text(words.DebriefRowName(r)), report.Text(marksInLine(r.Marks, wide)),
			report.Num(r.Given, words.MeanDecimals), expected, report.Text(faultsSaid(d.Flight, r.Noted)),
		})
	}
	return t
}

// widestMark is how many characters the longest mark of a sheet has.
func widestMark(rows []answers.DebriefRow) int {
	wide := 0
	for _, r := range rows {
		for _, mark := range r.Marks {
			wide = max(wide, len(mark))
		}
	}
	return wide
}

// marksInLine are a row's marks in one cell, each as wide as the widest of all.
func marksInLine(marks []string, wide int) string {
	said := make([]string, len(marks))
	for i, mark := range marks {
		said[i] = fmt.Sprintf("%*s", wide, mark)
	}
	return strings.Join(said, " ")
}

// faultsSaid are the faults of a row.
func faultsSaid(d answers.Flight, noted []int) string {
	said := make([]string, len(noted))
	for i, at := range noted {
		said[i] = words.FaultSaid(d.Faults[at])
	}
	return strings.Join(said, "; ")
}

// DebriefNotes explain the table: in which order the marks stand, what the grades
// are.
func DebriefNotes(d answers.Debrief) *report.Notes {
	notes := &report.Notes{}
	unpriced := false
	for _, r := range d.Rows {
		unpriced = unpriced || r.Unpriced
	}
	if unpriced {
		notes.Items = append(notes.Items, report.Note{Mark: words.UnknownSign, Text: words.UnknownText})
	}
	for _, text := range words.SheetExplained(d.Flight) {
		AddNote(notes, "%s", text)
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
