package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Statement is the page of one party.
func Statement(d answers.Statements) report.Document {
	s := d.Statements[0]
	return report.Document{
		Title: words.StatementTitle(s), Subtitle: words.StatementSpan(d, s), Data: d, Main: tables.StatementRows(d), Paper: report.OneSheet,
		Sections: []report.Section{{Blocks: []report.Block{thought(d, s)}}, {Blocks: tables.StatementBlocks(d, s)}},
	}
}

// Statements are the pages of several, each a part that begins a printed page.
func Statements(d answers.Statements) report.Document {
	doc := report.Document{Title: words.StatementsTitle(d), Data: d, Main: tables.StatementRows(d), Paper: report.OneSheet}
	if len(d.Statements) == 0 {
		doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: words.NoStatements(d)}}}}
	}
	for _, s := range d.Statements {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.StatementTitle(s), Blocks: []report.Block{&report.Paragraph{Text: words.StatementSpan(d, s)}},
			Parts: []report.Section{{Blocks: append([]report.Block{thought(d, s)}, tables.StatementBlocks(d, s)...)}},
		})
	}
	return doc
}

func thought(d answers.Statements, s answers.Statement) report.Block {
	return &report.Paragraph{Text: words.StatementThought(d, s)}
}
