package workbook

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// readySheet is the page of the gates, with the caution at its foot.
func readySheet(c *content) xlsx.Sheet {
	doc := report.Document{}
	if c.book.Ready != nil {
		d := words.SayReady(*c.book.Ready)
		doc = report.Document{
			Title: words.ReadyTitle(d.To) + ", " + c.book.Pilot.Name, Subtitle: "as of " + d.AsOf + ", " + words.ReadySubtitle(d), Sections: readySections(d), Caution: words.ReadyCaution,
		}
	}
	return docSheet(words.ReadySheet, c.pagesTall(1), doc, words.ReadyLegend)
}

// readySections are the gates, after what is open and the headline with what coach
// and pilot said.
func readySections(d answers.Ready) []report.Section {
	open := report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.NoOpenMatters}}}
	if len(d.Open) > 0 {
		open = report.Section{Heading: words.OpenHeading, Blocks: []report.Block{tables.OpenNotes(d.Open)}}
	}
	sections := []report.Section{
		open,
		{Blocks: []report.Block{&report.Paragraph{Text: words.ReadySentence(d)}}},
		{Heading: words.GatesHeading, Blocks: []report.Block{tables.GateTable(d)}},
	}
	if len(d.Said) > 0 {
		sections = append(sections, report.Section{Heading: words.SaidHeading, Blocks: []report.Block{tables.SaidNotes(d)}})
	}
	if len(d.Against) > 0 {
		sections = append(sections, report.Section{Heading: words.AgainstHeading, Blocks: []report.Block{tables.AgainstNotes(d)}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		sections = append(sections, report.Section{Heading: words.NeedsHeading(d), Blocks: []report.Block{needs}})
	}
	if text := words.FloorNote(d); text != "" {
		sections = append(sections, report.Section{Blocks: []report.Block{&report.Notes{Items: []report.Note{{Text: text}}}}})
	}
	return sections
}
