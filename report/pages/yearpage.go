package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// yearDocument is the page for people: one thought first, then what it rests
// on.
func yearDocument(d answers.Year) report.Document {
	doc := report.Document{Title: words.YearTitle(d.Year), Data: d}
	add := func(heading string, blocks ...report.Block) {
		if len(blocks) > 0 {
			doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: blocks})
		}
	}
	add("", &report.Paragraph{Text: words.YearThought(d)})
	add("Pilots", yearPilots(d)...)
	add("Money", yearMoney(d)...)
	if len(d.Contests) > 0 {
		add("Contests", yearContests(d)...)
	}
	if len(d.Categories) > 0 {
		add("Categories", tables.YearCategoryTable(d))
	}
	if len(d.Settle) > 0 {
		add("Payments", tables.YearPaymentTable(d), tables.YearPaymentNotes(d))
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

func yearContests(d answers.Year) []report.Block {
	blocks := []report.Block{tables.YearContestTable(d)}
	results := &report.Table{Title: "results as printed", Key: 2, Columns: []report.Column{
		{Title: "contest", Flexible: true, Min: 16},
		{Title: "pilot", Flexible: true, Min: 12},
		{Title: "result", Align: report.Right},
		{Title: "place", Align: report.Right},
	}}
	for _, c := range d.Contests {
		for _, r := range c.Results {
			results.Rows = append(results.Rows, []report.Cell{report.Text(c.Name), report.Text(r.Name), report.Text(r.Printed), tables.PlaceCell(r.Place, r.Of)})
		}
	}
	if len(results.Rows) > 0 {
		blocks = append(blocks, results)
	}
	return append(blocks, &report.Notes{Items: []report.Note{
		{Text: fmt.Sprintf("contests that began in %d; entries: pilots with a flight or a result; costs: all that stand with the contest", d.Year)},
	}})
}
