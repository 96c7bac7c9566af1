package tables

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// figureCell shows a figure's number, or the name of a weighted line.
func figureCell(f answers.FigureName) report.Cell {
	if f.Number > 0 {
		return CountCell(f.Number)
	}
	return report.Text(f.Line)
}

// ExportTable lays the rows out, a column a field.
func ExportTable(rows []answers.ExportRow) *report.Table {
	t := &report.Table{}
	for _, title := range []string{
		"flight", "date", "pilot", "contest", "category", "programme", "figure", "label", "k", "codes", "groups",
		"judge", "mark", "kind", "used", "points", "void",
	} {
		t.Columns = append(t.Columns, report.Column{Title: title})
	}
	for _, r := range rows {
		void := ""
		if r.Void {
			void = "void"
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(r.Flight), report.Text(r.Date), report.Text(r.Pilot), report.Text(r.Contest), report.Text(r.Category),
			report.Text(r.Programme), figureCell(r.Figure), report.Text(r.Label), CountCell(r.K),
			report.Text(strings.Join(r.Codes, " ")), report.Text(strings.Join(r.Groups, " ")),
			report.Text(r.Judge), report.Text(r.Mark), report.Text(string(r.Kind)),
			report.Num(r.Used, words.GradeDecimals), report.Num(r.Points, words.PointDecimals), report.Text(void),
		})
	}
	return t
}
