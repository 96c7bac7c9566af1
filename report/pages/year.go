package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Year is the treasurer's page: how the club did and who owes it what, then what
// that rests on; whole adds every table there is. csv is the payments.
func Year(d answers.Year, whole bool) report.Document {
	doc := report.Document{Title: words.YearPageTitle(d), Data: d}
	add := func(heading string, blocks ...report.Block) {
		for i, block := range blocks {
			if t, ok := block.(*report.Table); ok && whole && t != doc.Main {
				blocks[i] = tables.Whole(t)
			}
		}
		if len(blocks) > 0 {
			doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
		}
	}
	if payments := tables.YearPaymentTable(d); len(payments.Rows) > 0 || !d.Quiet {
		doc.Main = payments
	}
	add("", &report.Paragraph{Text: words.YearThought(d)})
	owed, heading := tables.YearOwed(d), words.OwedHeading
	if whole {
		owed = append(owed, tables.YearUnpaid(d)...)
	}
	if len(owed) == 0 {
		heading = words.PaymentsHeading
	}
	if !whole {
		owed = append(owed, tables.YearAmong(d)...)
	}
	add(heading, owed...)
	sides := tables.IncomeAndCosts(d)
	if borne := words.BudgetBorne(d); borne != "" && !whole && len(sides) > 0 {
		sides = append(sides, tables.Notes([]string{borne}))
	}
	add(words.IncomeAndCosts(d), sides...)
	add(words.ContestCosts, tables.ContestCosts(d)...)
	add(words.PeopleHeading, tables.YearPeople(d)...)
	if whole {
		addWhole(d, add)
		return doc
	}
	add("", tables.YearAlso(d, false)...)
	if !d.Quiet {
		var mail []report.Block
		if first := words.BeforeMailing(d); first != "" {
			mail = append(mail, &report.Paragraph{Text: first})
		}
		add("", append(mail, &report.Paragraph{Text: words.WholeYear(d.Year), Command: true})...)
	}
	return doc
}

// addWhole adds what the first page sums up.
func addWhole(d answers.Year, add func(string, ...report.Block)) {
	add(words.PaymentsHeading, tables.YearPayments(d)...)
	add("", tables.YearAlso(d, true)...)
	add(words.PilotsHeading, tables.YearPilots(d)...)
	add(words.MoneyHeading, tables.YearMoneyOf(d).Blocks()...)
	add(words.EntriesHeading, tables.YearContests(d)...)
	add(words.CategoriesHeading, tables.YearCategories(d)...)
}
