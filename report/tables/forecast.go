package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
	"boxbook/season/analysis"
)

func ForecastNotes(d answers.Forecast) *report.Notes {
	notes := &report.Notes{}
	if len(d.Unseen) > 0 {
		AddNote(notes, "%s; the range is wide because of them", analysis.UnseenWords(d.Unseen))
	}
	if d.NewCategory {
		AddNote(notes, "the category was never flown, and is judged by its own standard: this forecast does not know it")
	}
	if d.Past.Of > 0 {
		AddNote(notes, "its own record: %d of %s lay inside the range forecast from the flights before", d.Past.Inside, season.Counted(d.Past.Of, "past flight", "past flights"))
	}
	AddNote(notes, "percent is before penalties, positioning and harmony included")
	return notes
}

func FigureForecasts(d answers.Forecast) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: "fig", Align: report.Right},
		{Title: "figure", Flexible: true, Min: 10},
		{Title: "grade", Align: report.Right},
		{Title: "80 % from", Align: report.Right},
		{Title: "to", Align: report.Right},
	}}
	for i, f := range d.Figures {
		t.Rows = append(t.Rows, []report.Cell{
			CountCell(f.Number), report.Text(d.Labels[i]), report.Num(f.Mean, 1), report.Num(f.Low, 1), report.Num(f.High, 1),
		})
	}
	return t
}
