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
	return []report.Section{{Heading: words.FaultsHeading, Blocks: append(blocks, tables.FaultNotes(d))}}
}

// reviewSections are the section on a flight's videos and what was noted at them;
// none where it has neither.
func reviewSections(d answers.Flight) []report.Section {
	var blocks []report.Block
	if videos := tables.VideoFacts(d); len(videos.Items) > 0 {
		blocks = append(blocks, videos)
	}
	if notes := tables.ReviewNotes(d); len(notes.Items) > 0 {
		blocks = append(blocks, notes)
	}
	if len(blocks) == 0 {
		return nil
	}
	return []report.Section{{Heading: words.ReviewsHeading, Blocks: blocks}}
}
