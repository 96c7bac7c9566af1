package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Year is the treasurer's page: one thought first, then what it rests on.
func Year(d answers.Year) report.Document {
	doc := report.Document{Title: words.YearTitle(d.Year), Data: d}
	add := func(heading string, blocks ...report.Block) {
		if len(blocks) > 0 {
			doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
		}
	}
	add("", &report.Paragraph{Text: words.YearThought(d)})
	add(words.PilotsHeading, yearPilots(d)...)
	add(words.MoneyHeading, yearMoney(d)...)
	if len(d.Contests) > 0 {
		add(words.ContestsHeading, yearContests(d)...)
	}
	if len(d.Categories) > 0 {
		add(words.CategoriesHeading, tables.YearCategoryTable(d))
	}
	if len(d.Settle) > 0 {
		add(words.PaymentsHeading, tables.YearPaymentTable(d), tables.YearPaymentNotes(d))
	}
	return doc
}

// yearPilots is who flew what, and who did which duties.
func yearPilots(d answers.Year) []report.Block {
	var blocks []report.Block
	if pilots := tables.YearPilotTable(d); len(pilots.Rows) > 0 {
		blocks = append(blocks, pilots, tables.YearPilotNotes(d))
	}
	if duties := tables.DutyTable(d); len(duties.Rows) > 0 {
		blocks = append(blocks, duties)
	}
	return blocks
}

// yearMoney is everything about money but the payments: balances, what they
// are in one currency, costs by kind, the club's costs and income.
func yearMoney(d answers.Year) []report.Block {
	var blocks []report.Block
	for _, total := range d.Totals {
		blocks = append(blocks, tables.BalanceTable(d, total))
	}
	if len(blocks) > 0 {
		blocks = append(blocks, tables.BalanceNotes(d))
	}
	if d.Club.Converted != nil && len(blocks) > 0 {
		blocks = append(blocks, tables.ConvertedTable(d), tables.ConvertedNotes(d))
	}
	for _, total := range d.PilotCostTotals {
		blocks = append(blocks, tables.CostTable(d, total))
	}
	if table := tables.PilotIncomeTable(d); len(table.Rows) > 0 {
		blocks = append(blocks, table)
	}
	for _, result := range d.Club.Result {
		blocks = append(blocks, tables.ClubTable(d.Club, result))
	}
	if d.Later > 0 {
		blocks = append(blocks, tables.LaterNotes(d))
	}
	return blocks
}

// yearContests is where was flown, and the results as printed.
func yearContests(d answers.Year) []report.Block {
	blocks := []report.Block{tables.YearContestTable(d)}
	if results := tables.YearResultTable(d); len(results.Rows) > 0 {
		blocks = append(blocks, results)
	}
	return append(blocks, tables.YearContestNotes(d))
}
