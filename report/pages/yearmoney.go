package pages

import (
	"fmt"
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// yearMoney is everything about money but the payments: balances, what they
// are in one currency, costs by kind, the club's costs and income.
func yearMoney(d answers.Year) []report.Block {
	var blocks []report.Block
	for _, currency := range answers.AccountCurrencies(d) {
		blocks = append(blocks, tables.BalanceTable(d, currency))
	}
	if len(blocks) > 0 {
		blocks = append(blocks, tables.BalanceNotes(d))
	}
	if d.Club.Converted != nil && len(blocks) > 0 {
		blocks = append(blocks, tables.ConvertedTable(d), tables.ConvertedNotes(d))
	}
	for _, currency := range answers.KindCurrencies(answers.PilotCosts(d)) {
		blocks = append(blocks, tables.CostTable(d, currency))
	}
	if table := tables.PilotIncomeTable(d); len(table.Rows) > 0 {
		blocks = append(blocks, table)
	}
	club := slices.Concat(d.Club.Costs, d.Club.Income)
	for _, currency := range answers.KindCurrencies(club) {
		blocks = append(blocks, tables.ClubTable(d, currency))
	}
	if d.Later > 0 {
		blocks = append(blocks, &report.Notes{Items: []report.Note{{Text: fmt.Sprintf(
			"%s dated after %s %s not counted", words.Counted(d.Later, "entry", "entries"), d.Asof, words.PluralWord(d.Later, "is", "are"))}}})
	}
	return blocks
}
