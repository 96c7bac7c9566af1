package tables

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// YearPilots is who flew what, and who did which duties.
func YearPilots(d answers.Year) []report.Block {
	var blocks []report.Block
	if pilots := YearPilotTable(d); len(pilots.Rows) > 0 {
		blocks = append(blocks, pilots, YearPilotNotes(d))
	}
	if duties := DutyTable(d); len(duties.Rows) > 0 {
		blocks = append(blocks, duties)
	}
	return blocks
}

// YearMoney is everything about money but the payments: balances, what they are
// in one currency, costs by kind, the club's costs and income.
type YearMoney struct {
	Balances []*report.Table // a currency each, as are Costs and Club
	Costs    []*report.Table
	Club     []*report.Table
	balances []report.Block // what stands beneath the balances
	income   []report.Block
	books    []report.Block // of the club, beside what the ledger has
}

// YearMoneyOf lays the year's money out.
func YearMoneyOf(d answers.Year) YearMoney {
	var m YearMoney
	for _, total := range d.Totals {
		m.Balances = append(m.Balances, BalanceTable(d, total))
	}
	if len(m.Balances) > 0 {
		m.balances = append(m.balances, BalanceNotes(d))
	}
	if d.Club.Converted != nil && len(m.Balances) > 0 {
		m.balances = append(m.balances, ConvertedTable(d), ConvertedNotes(d))
	}
	for _, total := range d.CostTotals {
		m.Costs = append(m.Costs, CostTable(d, total))
	}
	if table := PilotIncomeTable(d); len(table.Rows) > 0 {
		m.income = append(m.income, table)
	}
	for _, result := range d.Club.Result {
		m.Club = append(m.Club, ClubTable(d.Club.Books, result))
	}
	for _, table := range []*report.Table{AgreedTable(d), InHandTable(d.Club), BudgetTable(d)} {
		if len(table.Rows) > 0 {
			m.books = append(m.books, table)
		}
	}
	m.books = append(m.books, InHandNotes(d)...)
	if notes := words.BudgetNotes(d); len(notes) > 0 {
		m.books = append(m.books, Notes(notes))
	}
	if d.Later > 0 {
		m.books = append(m.books, LaterNotes(d))
	}
	return m
}

// Blocks are the money in the order in which it is read.
func (m YearMoney) Blocks() []report.Block {
	var blocks []report.Block
	add := func(tables []*report.Table, after []report.Block) {
		for _, t := range tables {
			blocks = append(blocks, t)
		}
		blocks = append(blocks, after...)
	}
	add(m.Balances, m.balances)
	add(m.Costs, m.income)
	add(m.Club, m.books)
	return blocks
}

// YearContests are the year's contests and their results as printed; nothing
// where there was none.
func YearContests(d answers.Year) []report.Block {
	if len(d.Contests) == 0 {
		return nil
	}
	blocks := []report.Block{YearContestTable(d)}
	if results := YearResultTable(d); len(results.Rows) > 0 {
		blocks = append(blocks, results)
	}
	return append(blocks, YearContestNotes(d))
}

// YearCategories are the year's categories; nothing where there was none.
func YearCategories(d answers.Year) []report.Block {
	if len(d.Categories) == 0 {
		return nil
	}
	return []report.Block{YearCategoryTable(d)}
}

// YearPayments are the payments that settle the year; nothing where all are
// even.
func YearPayments(d answers.Year) []report.Block {
	if len(d.Settle) == 0 {
		return nil
	}
	return []report.Block{YearPaymentTable(d), YearPaymentNotes(d)}
}
