package workbook

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// accountsSheet is the treasurer's year: the tables of the program's page, with
// the sums of their cells as formulas.
func accountsSheet(c *content) xlsx.Sheet {
	return newAccounts(*c.book.Year).sheet()
}

// sheet is the sheet of a year's tables.
func (a accounts) sheet() xlsx.Sheet {
	return xlsx.Sheet{
		Name: words.AccountsSheet, FrozenRows: 1, HeadRows: 1, LastColumn: docColumns(a.doc),
		Legend: words.AccountsLegend,
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, a.doc, 1)
			w.sums = a.sums
			w.title(a.doc.Title, a.doc.Subtitle)
			w.document(a.doc)
		},
	}
}

// accounts are the tables of a year and the formulas over them.
type accounts struct {
	doc  report.Document
	sums map[*report.Table]tableSums
}

func newAccounts(d answers.Year) accounts {
	a := accounts{sums: map[*report.Table]tableSums{}}
	a.doc.Title = words.YearTitle(d.Year) + ", accounts"
	a.doc.Subtitle = words.AccountsExplained
	a.add("", &report.Paragraph{Text: words.YearThought(d)})
	a.add(words.OwedHeading, tables.YearOwed(d)...)
	a.add(words.PilotsHeading, tables.YearPilots(d)...)
	a.add(words.MoneyHeading, a.money(d)...)
	a.add(words.ContestsHeading, tables.YearContests(d)...)
	a.add(words.CategoriesHeading, tables.YearCategories(d)...)
	a.add(words.PaymentsHeading, tables.YearPayments(d)...)
	return a
}

// add adds a section of what there is.
func (a *accounts) add(heading string, blocks ...report.Block) {
	if len(blocks) > 0 {
		a.doc.Sections = append(a.doc.Sections, report.Section{Heading: heading, Blocks: blocks})
	}
}

// money are the blocks about money, in which sums follow their parts.
func (a *accounts) money(d answers.Year) []report.Block {
	money := tables.YearMoneyOf(d)
	for _, t := range money.Balances {
		a.sums[t] = balanceSums
	}
	for _, t := range money.Costs {
		a.sums[t] = costSums
	}
	for _, t := range money.Club {
		a.sums[t] = clubSums
	}
	return money.Blocks()
}

// balanceSums adds up each closing balance, and all of them beneath.
func balanceSums(d docTable, column, row, foot int) string {
	switch {
	case foot == 0:
		return d.columnSum(column)
	case foot == body && column == d.table.Column(tables.BalanceClosing):
		return closing(d, column, row)
	}
	return ""
}

// closing adds up a balance: its columns from the opening one on.
func closing(d docTable, column, row int) string {
	formula := ""
	for part := 1; part < column; part++ {
		sign := "+"
		switch {
		case d.table.Columns[part].Key == tables.BalanceShare:
			sign = "-"
		case part == 1:
			sign = ""
		}
		formula += sign + d.cell(part, row)
	}
	return formula
}

// costSums adds up each pilot's costs, and each kind's beneath.
func costSums(d docTable, column, row, foot int) string {
	switch {
	case foot == 0:
		return d.columnSum(column)
	case foot == body && column == d.table.Column(tables.CostSum):
		return fmt.Sprintf("SUM(%s:%s)", d.cell(1, row), d.cellBefore(column, row))
	}
	return ""
}

// clubSums adds up income and costs, and subtracts them.
func clubSums(d docTable, column, row, foot int) string {
	switch foot {
	case 0:
		return d.columnSum(column)
	case 1:
		return d.cell(d.table.Column(tables.ClubIncome), row-1) + "-" + d.cell(d.table.Column(tables.ClubCosts), row-1)
	}
	return ""
}

// columnSum is the sum of a column's body.
func (d docTable) columnSum(column int) string {
	return fmt.Sprintf("SUM(%s:%s)", d.cell(column, d.head+1), d.cell(column, d.head+d.rows))
}

// cell names a cell of a table's column, cellBefore the one at its left.
func (d docTable) cell(column, row int) string { return xlsx.At(d.at[column], row) }

func (d docTable) cellBefore(column, row int) string { return xlsx.At(d.at[column]-1, row) }
