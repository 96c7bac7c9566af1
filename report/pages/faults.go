package pages

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// mostKinds is how many rows of kinds a page shows where not all are asked for.
const mostKinds = 11

// Faults is the page of a pilot's faults: what comes back, what is open, the
// kinds, the coach compared with the judges; every row and number where all is
// asked for.
func Faults(d answers.Faults, all bool) report.Document {
	doc := report.Document{Title: words.FaultsTitle, Data: d, Caution: words.FaultsCaution, Main: tables.KindTableForRows(d)}
	doc.Sections = append(doc.Sections, report.Section{Blocks: paragraphs(words.FaultsAnswers(d))})
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d.Open))
	}
	if all && len(d.Recurring) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.RecurringHeading, Blocks: []report.Block{tables.RecurringNotes(d)}})
	}
	if len(d.Kinds) > 0 {
		table, notes := tables.KindTableBrief(d, mostKinds), tables.KindNotes(d, all, mostKinds)
		if all {
			table = tables.KindTableWhole(d)
			if slices.ContainsFunc(d.Kinds, func(k answers.FaultKind) bool { return k.Group == "" }) {
				tables.AddNote(notes, "%s", words.NoOneFamilyExplained)
			}
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: words.KindsTitle(d), Blocks: []report.Block{picture(charts.Stake, d), table, notes}})
	}
	if section, ok := coachSection(d, all); ok {
		doc.Sections = append(doc.Sections, section)
	}
	return doc
}

// openSection lists what must be put right before anything else.
func openSection(open []answers.Open) report.Section {
	return report.Section{Heading: words.OpenHeading, Blocks: []report.Block{
		tables.OpenNotes(open), &report.Paragraph{Text: words.OpenExplained}, &report.Paragraph{Text: words.ClosedBy(open), Command: true},
	}}
}

// coachSection shows how far the noted faults explain the grades given; in a
// sentence, or all of it.
func coachSection(d answers.Faults, all bool) (report.Section, bool) {
	var section report.Section
	if c := d.Calibration; c.N > 0 && all {
		section = report.Section{Heading: words.CoachHeading, Blocks: []report.Block{tables.CalibrationFacts(c), tables.CalibrationNotes(c)}}
	} else if c.N > 0 {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.CoachSentence(c)})
	}
	if !all && len(d.Kinds) > 0 {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.Further("faults", d.Pilot), Command: true})
	}
	return section, len(section.Blocks) > 0
}
