package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// AheadTable has a row a contest that has not begun.
func AheadTable(d answers.Season) *report.Table {
	t := &report.Table{Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnContest, Wrapped: true, Min: 16},
		{Title: words.ColumnWhen, Align: report.Right},
		{Title: words.ColumnEntry},
		{Title: words.ColumnSequence},
	}}
	for _, c := range d.Ahead {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(c.Date), report.Text(c.Name), report.Text(words.InDays(c.Days)), report.Text(words.EntryWords(c)), report.Text(words.SequenceWords(c)),
		})
	}
	return t
}

// ExpiryTable has a row a thing that runs out soon, or did.
func ExpiryTable(d answers.Season) *report.Table {
	t := &report.Table{Title: words.ExpiresTitle(d.Limits), Key: 1, Columns: []report.Column{
		{Title: words.ColumnWhat, Wrapped: true, Min: 8},
		{Title: words.ColumnExpires},
		{Title: words.ColumnWhen, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, e := range d.Expires {
		when := report.Text(words.InDays(e.Days))
		if e.Days < 0 {
			when = when.Toned(report.Bad)
		}
		t.Rows = append(t.Rows, []report.Cell{report.Text(e.What), report.Text(e.Date), when, report.Text(e.Remark)})
	}
	return t
}
