package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

func PanelJudges(d answers.Panel, part int) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "judge", Flexible: true, Min: 8},
		{Title: "leniency", Align: report.Right},
		{Title: "give or take", Align: report.Right},
		{Title: "scatter", Align: report.Right},
		{Title: "grades", Align: report.Right},
		{Title: "flights", Align: report.Right},
	}}
	for _, j := range d.Judges {
		if j.Part == part {
			t.Rows = append(t.Rows, []report.Cell{
				report.Text(j.Name), report.Signed(j.Leniency, words.GradeDecimals), report.Num(j.SE, words.GradeDecimals),
				report.Num(j.Scatter, words.GradeDecimals), CountCell(j.N), CountCell(j.Flights),
			})
		}
	}
	return t
}

func FlagTable(flags []answers.Flag) *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Title: "flight", Flexible: true, Min: 20},
		{Title: "figure", Align: report.Right},
		{Title: "judge"},
		{Title: "mark", Align: report.Right},
		{Title: "others say", Align: report.Right},
	}}
	for _, f := range flags {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(f.Flight), CountCell(f.Figure), report.Text(f.Judge), report.Text(f.Mark), report.Num(f.Fitted, words.GradeDecimals),
		})
	}
	return t
}

// FlagNotes say what to do about a lone grade; the score is never changed.
func FlagNotes(flags []answers.Flag) *report.Notes {
	notes := &report.Notes{}
	for _, f := range flags {
		AddNote(notes, "judge %s gave %s on figure %d; the rest of the panel and %s's own habit say about %s: ask for the remark",
			f.Judge, f.Mark, f.Figure, f.Judge, f.Fitted.Text(1))
	}
	return notes
}

func PanelFlights(d answers.Panel) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "flight", Flexible: true, Min: 20},
		{Title: "scatter of a grade", Align: report.Right},
		{Title: "noise of the percent", Align: report.Right},
	}}
	for _, f := range d.Flights {
		t.Rows = append(t.Rows, []report.Cell{report.Text(f.Flight), report.Num(f.Scatter, words.GradeDecimals), report.Num(f.Noise, 1)})
	}
	return t
}

func PanelNotes(d answers.Panel) *report.Notes {
	notes := &report.Notes{Items: []report.Note{
		{Text: "leniency: grades above (+) or below (-) the judges compared with, drawn towards 0 by how much of the spread is chance; one pilot's sheets cannot tell a lenient judge from one who likes this pilot's flying"},
		{Text: "scatter: the standard deviation about the others, in grades; it says nothing of who is right"},
		{Text: words.NoiseExplained},
	}}
	if len(d.Parts) > 1 {
		AddNote(notes, "judges of different parts never sat together, not even through others, and are not compared")
	}
	return notes
}
