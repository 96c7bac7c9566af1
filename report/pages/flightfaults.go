package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// faultSections are the section on a flight's faults; none where it has none.
func faultSections(faults []answers.Fault, expected []answers.Expected) []report.Section {
	if len(faults) == 0 {
		return nil
	}
	var blocks []report.Block
	if text := words.ExpectedSentence(expected); text != "" {
		blocks = append(blocks, &report.Paragraph{Text: text})
	}
	blocks = append(blocks, tables.FaultTable(faults))
	if len(expected) > 0 {
		blocks = append(blocks, tables.ExpectedTable(expected))
	}
	return []report.Section{{Heading: "Faults", Blocks: append(blocks, tables.FaultNotes(faults, expected))}}
}
