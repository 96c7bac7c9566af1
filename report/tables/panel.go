package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// PanelJudges has a row a judge of a part, counted from 1.
func PanelJudges(d answers.Panel, part int) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Key: "judge", Title: words.ColumnJudge, Wrapped: true, Min: 8},
		{Key: "leniency", Title: words.ColumnLeniency, Align: report.Right},
		{Title: words.ColumnGiveOrTake, Align: report.Right},
		{Key: "scatter", Title: words.ColumnScatter, Align: report.Right},
		{Key: "grades", Title: words.ColumnGrades, Align: report.Right},
		{Key: "flights", Title: words.ColumnFlights, Align: report.Right},
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

// PanelJudgesBrief has a row a judge of a part without how sure a leniency is.
func PanelJudgesBrief(d answers.Panel, part int) *report.Table {
	return only(PanelJudges(d, part), "judge", "leniency", "scatter", "grades", "flights")
}

// FlagTable has a row a lone grade.
func FlagTable(flags []answers.Flag) *report.Table {
	t := &report.Table{Columns: []report.Column{
		{Title: words.ColumnFlight, Wrapped: true, Min: 20},
		{Title: words.ColumnFigure, Align: report.Right},
		{Title: words.ColumnJudge},
		{Title: words.ColumnMark, Align: report.Right},
		{Title: words.ColumnOthersSay, Align: report.Right},
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
		{Title: words.ColumnFlight, Wrapped: true, Min: 20},
		{Title: words.ColumnGradeScatter, Align: report.Right},
		{Title: words.ColumnPercentNoise, Align: report.Right},
	}}
	for _, f := range d.Flights {
		t.Rows = append(t.Rows, []report.Cell{report.Text(f.Flight), report.Num(f.Scatter, words.GradeDecimals), report.Num(f.Noise, 1)})
	}
	return t
}
