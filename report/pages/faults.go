package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Faults is the page of a pilot's faults: what is open, what comes back, every
// kind, the coach against the panels.
func Faults(t analysis.Recurring) report.Document {
	d := answers.FaultsOf(t)
	title := t.Pilot.Name + ", faults"
	if t.Season != 0 {
		title += fmt.Sprintf(", season %d", t.Season)
	}
	doc := report.Document{Title: title, Subtitle: words.FaultsSentence(d), Data: d, Caution: words.FaultsCaution}
	if len(d.Open) > 0 {
		doc.Sections = append(doc.Sections, openSection(d))
	}
	if len(d.Kinds) > 0 {
		doc.Sections = append(doc.Sections,
			report.Section{Heading: "What comes back", Blocks: []report.Block{tables.RecurringNotes(d)}},
			report.Section{Heading: "Faults by kind and family", Blocks: []report.Block{tables.KindTable(d), tables.KindNotes(d)}},
		)
	}
	if d.Calibration.N > 0 {
		doc.Sections = append(doc.Sections, calibrationSection(d.Calibration))
	}
	return doc
}

// openSection lists what must be put right before anything else.
func openSection(d answers.Faults) report.Section {
	notes := &report.Notes{}
	for _, o := range d.Open {
		text := o.Says
		if text == "" {
			text = o.Kind
		}
		text += ", " + o.Flight
		if o.Remark != "" {
			text += ": " + o.Remark
		}
		tables.AddNote(notes, "%s", text)
	}
	explained := &report.Paragraph{Text: "No matter of grades. Each stays open until `closed KIND` stands in a later flight, or `closed DATE PILOT KIND`."}
	return report.Section{Heading: "Open, before anything else", Blocks: []report.Block{notes, explained}}
}

// calibrationSection shows how far the noted faults explain the grades given.
func calibrationSection(c answers.Calibration) report.Section {
	facts := &report.Facts{Items: []report.Fact{
		{Label: "expected less given, mean", Value: report.Signed(c.Bias, words.MeanDecimals)},
	}}
	if c.Spread.Known() {
		tables.AddFact(facts, "spread (standard deviation)", report.Num(c.Spread, words.MeanDecimals))
	}
	tables.AddFact(facts, "figures", tables.CountCell(c.N))
	notes := &report.Notes{Items: []report.Note{
		{Text: "expected: 10 less the seen faults; given: the panel's mean. Above 0 the panels took more than the faults noted account for, below 0 less"},
	}}
	if c.Zeroed > 0 {
		tables.AddNote(notes, "%s made 0 as a matter of fact, which no sum of faults explains", season.Counted(c.Zeroed, "of the figures was", "of the figures were"))
	}
	return report.Section{Heading: "Coach against panel", Blocks: []report.Block{facts, notes}}
}
