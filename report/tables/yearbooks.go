package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// InHandTable has a row a count of a pot, beside what should have been there; pots that
// are compared together have that in a row of their own.
func InHandTable(club answers.ClubYear) *report.Table {
	t := &report.Table{Title: words.InHandTitle, Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnPot, Wrapped: true, Min: 8},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnCounted, Align: report.Right},
		{Title: words.ColumnByLedger, Align: report.Right},
		{Title: words.ColumnDifference, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, h := range club.InHand {
		own, difference := report.Empty(), report.Empty()
		if h.Stands != nil && !h.Joined {
			own, difference = amountCell(h.Stands.Ledger), balanceCell(h.Stands.Difference)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(h.Date), report.Text(h.Pot), report.Text(h.Currency), amountCell(h.Amount), own, difference, report.Text(h.Remark),
		})
		if together := h.Together; together != nil {
			t.Rows = append(t.Rows, []report.Cell{
				report.Text(h.Date), report.Text(words.PotsTogether(together)), report.Text(h.Currency), amountCell(together.Amount), amountCell(h.Stands.Ledger), balanceCell(h.Stands.Difference), report.Empty(),
			})
		}
	}
	return t
}

// BudgetTable has a row a line of the budget, beside what came of it.
func BudgetTable(d answers.Year) *report.Table {
	t := &report.Table{Title: words.BudgetTitle(d), Key: 1, Columns: []report.Column{
		{Title: words.ColumnKind, Wrapped: true, Min: 12},
		{Title: words.ColumnIs},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnBudget, Align: report.Right},
		{Title: words.ColumnActual, Align: report.Right},
		{Title: words.ColumnOver, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, b := range d.Club.Budget {
		over := balanceCell(b.Actual.Minus(b.Amount))
		if d.NotBegun() {
			over = report.Empty()
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(words.KindSaid(b.Kind)), report.Text(words.CostOrIncome(b)), report.Text(b.Currency), amountCell(b.Amount), amountCell(b.Actual), over, report.Text(b.Remark),
		})
	}
	return t
}

// AgreedTable shows the result as the assembly agreed it beside the ledger's, where that
// has one, and by how much it differs, where the year is over.
func AgreedTable(d answers.Year) *report.Table {
	t := &report.Table{Title: words.AgreedTitle(d), Key: 1, Columns: []report.Column{
		{Title: words.ColumnCurrency},
		{Title: words.ColumnAgreed, Align: report.Right},
		{Title: words.ColumnByLedger, Align: report.Right},
		{Title: words.ColumnDifference, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, a := range words.AllAgreed(d) {
		own, difference := report.Empty(), report.Empty()
		if words.AgreedCompared(d, a.Currency) {
			own = balanceCell(a.Own)
			if !d.Running {
				difference = balanceCell(a.Difference)
			}
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(a.Currency), balanceCell(a.Amount), own, difference, report.Text(a.Remark),
		})
	}
	return t
}
