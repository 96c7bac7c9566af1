package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// YearOwed is who owes the club what, and since when; nothing where nobody does.
func YearOwed(d answers.Year) []report.Block {
	if len(d.Club.Owed) == 0 {
		return nil
	}
	t := &report.Table{Key: 1, Columns: []report.Column{
		{Title: words.ColumnWho, Flexible: true, Min: 12},
		{Title: words.ColumnAmount, Align: report.Right},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnSince},
		{Title: words.ColumnOldest, Wrapped: true, Min: 12},
	}}
	for _, o := range d.Club.Owed {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(o.Name), amountCell(o.Amount), report.Text(o.Currency), report.Text(o.Since), report.Text(words.OwedFor(o)),
		})
	}
	for _, total := range d.Club.OwedTotals {
		t.Footer = append(t.Footer, []report.Cell{report.Text("all"), amountCell(total.Amount), report.Text(total.Currency)})
	}
	return []report.Block{t}
}
