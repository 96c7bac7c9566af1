package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// faultSections are the section on a flight's faults; none where it has none.
func faultSections(d answers.Flight) []report.Section {
	if len(d.Faults) == 0 {
		return nil
	}
	var blocks []report.Block
	if text := words.ExpectedSentence(d); text != "" {
		blocks = append(blocks, &report.Paragraph{Text: text})
	}
	blocks = append(blocks, tables.FaultTable(d.Faults))
	if len(d.Expected) > 0 {
		blocks = append(blocks, tables.ExpectedTable(d.Expected))
	}
	return []report.Section{{Heading: words.FaultsHeading, Blocks: append(blocks, tables.FaultNotes(d.Faults, d.Expected))}}
}
