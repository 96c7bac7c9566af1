package tables

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// PilotsTable has a row a pilot.
func PilotsTable(d answers.Pilots) *report.Table {
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnPilot},
		{Title: words.ColumnReview, Align: report.Right},
		{Title: words.ColumnOpen, Align: report.Right},
		{Title: words.ColumnCategory},
		{Title: words.ColumnFlights, Align: report.Right},
		{Title: words.ColumnLastFlown},
		{Title: words.ColumnForm, Wrapped: true, Min: 14},
		{Title: words.ColumnLevel, Align: report.Right},
		{Title: words.ColumnNext, Align: report.Right},
		{Title: words.ColumnBack, Wrapped: true, Min: 14},
		{Title: words.ColumnOpenDrill},
		{Title: words.ColumnStep, Wrapped: true, Min: 14},
		{Title: words.ColumnExpires, Wrapped: true, Min: 10},
	}}
	for _, p := range d.Pilots {
		open, expires := CountCell(p.Open), report.Empty()
		if p.Open > 0 {
			open = open.Toned(report.Bad)
		}
		if len(p.Expires) > 0 {
			expires = report.Text(words.ExpiresWords(p.Expires))
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(p.Pilot), CountCell(p.Review), open, report.Text(p.Category), CountCell(p.Flights), report.Text(p.LastFlown),
			report.Text(words.PilotForm(p)), report.Text(words.PilotLevel(p)), report.Text(words.PilotNext(p)), report.Text(words.PilotBack(p, d.Limits)), report.Text(strings.Join(p.Drills, ", ")), report.Text(words.PilotStep(p)), expires,
		})
	}
	return t
}

// PilotsNotes explain the columns.
func PilotsNotes(d answers.Pilots) *report.Notes { return notesOf(words.PilotsNotes(d)) }
