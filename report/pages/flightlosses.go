package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// lossSection is where the points went, with the faults noted on the figures; none
// where nothing was lost and no fault is noted.
func lossSection(d answers.Flight) []report.Section {
	section := report.Section{Heading: words.LossFaultHeading(d)}
	lost := d.Lost != nil && words.AnyLost(d.Lost)
	if lost {
		section.Blocks = []report.Block{picture(charts.Losses, d.Lost)}
	}
	switch {
	case len(d.Faults) > 0:
		section.Blocks = append(section.Blocks, tables.LossFaultTable(d), tables.FaultNotesInShort(d))
	case lost:
		section.Blocks = append(section.Blocks, tables.TopLossTable(d.Lost))
	default:
		return nil
	}
	return []report.Section{section}
}
