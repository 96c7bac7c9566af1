package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// panelSection shows the judges' totals, and what the grades say of the panel.
func panelSection(d answers.Flight) report.Section {
	section := report.Section{Heading: words.JudgesHeading, Blocks: []report.Block{tables.JudgeTable(d)}}
	if notes := words.FlightPanelNotes(d); len(notes) > 0 {
		section.Blocks = append(section.Blocks, tables.Notes(notes))
	}
	return section
}
