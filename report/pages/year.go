package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Year is the treasurer's page: one thought first, then what it rests on.
func Year(d answers.Year) report.Document {
	doc := report.Document{Title: words.YearTitle(d.Year), Subtitle: words.YearSpan(d), Data: d}
	add := func(heading string, blocks ...report.Block) {
		if len(blocks) > 0 {
			doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
		}
	}
	add("", &report.Paragraph{Text: words.YearThought(d)})
	add(words.OwedHeading, tables.YearOwed(d)...)
	add(words.PilotsHeading, tables.YearPilots(d)...)
	add(words.MoneyHeading, tables.YearMoneyOf(d).Blocks()...)
	add(words.ContestsHeading, tables.YearContests(d)...)
	add(words.CategoriesHeading, tables.YearCategories(d)...)
	add(words.PaymentsHeading, tables.YearPayments(d)...)
	return doc
}
