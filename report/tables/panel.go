package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// PanelJudges has a row a judge of a part, counted from 1.
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

// FlagTable has a row a lone grade.
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

// PanelFlights has a row a flight with its panel's scatter and noise.
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
