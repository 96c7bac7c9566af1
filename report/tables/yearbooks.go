package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// InHandTable has a row a count of a pot, beside what should have been there.
func InHandTable(club answers.ClubYear) *report.Table {
	t := &report.Table{Title: words.InHandTitle, Key: 2, Columns: []report.Column{
		{Title: words.ColumnDate},
		{Title: words.ColumnPot, Flexible: true, Min: 8},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnCounted, Align: report.Right},
		{Title: words.ColumnByLedger, Align: report.Right},
		{Title: words.ColumnDifference, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, h := range club.InHand {
		own, difference := report.Empty(), report.Empty()
		if h.Own != nil {
			own, difference = amountCell(*h.Own), balanceCell(*h.Difference)
		}
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(h.Date), report.Text(h.Pot), report.Text(h.Currency), amountCell(h.Amount), own, difference, report.Text(h.Remark),
		})
	}
	return t
}

// BudgetTable has a row a line of the budget, beside what came of it.
func BudgetTable(d answers.Year) *report.Table {
	t := &report.Table{Title: words.BudgetTitle(d), Key: 1, Columns: []report.Column{
		{Title: words.ColumnKind, Flexible: true, Min: 8},
		{Title: words.ColumnIs},
		{Title: words.ColumnCurrency},
		{Title: words.ColumnBudget, Align: report.Right},
		{Title: words.ColumnActual, Align: report.Right},
		{Title: words.LessBudget(d), Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	for _, b := range d.Club.Budget {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(b.Kind), report.Text(words.CostOrIncome(b)), report.Text(b.Currency), amountCell(b.Amount), amountCell(b.Actual), balanceCell(b.Actual.Minus(b.Amount)), report.Text(b.Remark),
		})
	}
	return t
}

// AgreedTable shows the result that the assembly took note of beside the
// ledger's.
func AgreedTable(d answers.Year) *report.Table {
	t := &report.Table{Title: words.AgreedTitle(d), Key: 1, Columns: []report.Column{
		{Title: words.ColumnCurrency},
		{Title: words.ColumnAgreed, Align: report.Right},
		{Title: words.ColumnByLedger, Align: report.Right},
		{Title: words.ColumnDifference, Align: report.Right},
		{Title: words.ColumnRemark, Drop: 1},
	}}
	all := d.AgreedElse
	if d.Agreed != nil {
		all = append([]answers.Agreed{*d.Agreed}, all...)
	}
	for _, a := range all {
		t.Rows = append(t.Rows, []report.Cell{
			report.Text(a.Currency), balanceCell(a.Amount), balanceCell(a.Own), balanceCell(a.Difference), report.Text(a.Remark),
		})
	}
	return t
}
