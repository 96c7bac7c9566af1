package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// rulesSection says in plain words how the flight's rule style counts marks,
// and what of it came to bear on this flight.
func rulesSection(d answers.Flight) report.Section {
	return report.Section{Heading: words.RulesHeading, Blocks: []report.Block{
		&report.Paragraph{Text: words.RulesTitle(d)},
		tables.Notes(words.RulesText(*d.Style, len(d.Panel))),
		&report.Paragraph{Text: words.RulesFoot},
	}}
}
