package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// JudgeTable has a row a judge with the judge's own total.
func JudgeTable(d answers.Flight) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{{Title: words.ColumnJudge}, {Title: words.ColumnTotal, Align: report.Right}}}
	if d.Noise.Known() {
		t.Columns = append(t.Columns, report.Column{Title: words.ColumnLeniency, Align: report.Right},
			report.Column{Title: words.ColumnGiveOrTake, Align: report.Right}, report.Column{Title: words.ColumnScatter, Align: report.Right})
	}
	for _, j := range d.Judges {
		total := num(j.Total)
		if !j.Total.Known() {
			total = report.Text(words.OpenCell)
		}
		row := []report.Cell{report.Text(j.Name), total}
		if d.Noise.Known() {
			row = append(row, report.Signed(j.Leniency, words.GradeDecimals), report.Num(j.SE, words.GradeDecimals), report.Num(j.Scatter, words.GradeDecimals))
		}
		t.Rows = append(t.Rows, row)
	}
	for _, name := range d.Missing {
		row := make([]report.Cell, len(t.Columns))
		row[0], row[1] = report.Text(name), report.Text(words.MissingCell)
		t.Rows = append(t.Rows, row)
	}
	return t
}
