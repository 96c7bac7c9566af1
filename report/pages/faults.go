package pages

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Faults is the page of a pilot's faults: what is open, what comes back, every
// kind, the coach against the panels.
func Faults(d answers.Faults) report.Document {
	doc := report.Document{Title: words.FaultsTitle, Subtitle: words.FaultsSentence(d), Data: d, Caution: words.FaultsCaution}
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d))
	}
	if len(d.Kinds) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: words.RecurringHeading, Blocks: []report.Block{tables.RecurringNotes(d)}},
			report.Section{Heading: words.KindsHeading, Blocks: []report.Block{tables.KindTable(d), tables.KindNotes(d)}},
		)
	}
	if d.Calibration.N > 0 {
		doc.Sections = append(doc.Sections, calibrationSection(d.Calibration))
	}
	return doc
}

// openSection lists what must be put right before anything else.
func openSection(d answers.Faults) report.Section {
	return report.Section{Heading: words.OpenHeading, Blocks: []report.Block{tables.OpenNotes(d), &report.Paragraph{Text: words.OpenExplained}}}
}

// calibrationSection shows how far the noted faults explain the grades given.
func calibrationSection(c answers.Calibration) report.Section {
	return report.Section{Heading: words.CoachHeading, Blocks: []report.Block{tables.CalibrationFacts(c), tables.CalibrationNotes(c)}}
}
