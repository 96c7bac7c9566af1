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
	return docSheet(words.ReadySheet, c.pagesTall(1), readyGrid, doc, words.ReadyLegend)
}

// readyGrid has names of gates in its first column, and room for their sentences: on one
// printed page what is too high is made smaller than what is too wide.
var readyGrid = grid{16, 15}

// readySections are the gates, after what is open and the headline with what coach
// and pilot said.
func readySections(d answers.Ready) []report.Section {
	first := []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: words.NoOpenMatters}, &report.Paragraph{Text: words.ReadySentence(d)}}}}
	if len(d.Open) > 0 {
		first = []report.Section{
			{Heading: words.OpenHeading, Blocks: []report.Block{tables.OpenNotes(d.Open)}},
			{Blocks: []report.Block{&report.Paragraph{Text: words.ReadySentence(d)}}},
		}
	}
	sections := append(first, report.Section{Heading: words.GatesHeading, Blocks: []report.Block{tables.GateTable(d)}})
	if len(words.SaidLines(d)) > 0 {
		sections = append(sections, report.Section{Heading: words.SaidHeading, Blocks: []report.Block{tables.SaidNotes(d)}})
	}
	var last []report.Section
	if len(d.Against) > 0 {
		last = append(last, report.Section{Heading: words.AgainstHeading, Blocks: []report.Block{tables.AgainstNotes(d)}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		last = append(last, report.Section{Heading: words.NeedsHeading(d), Blocks: []report.Block{needs}})
	}
	if len(last) == 2 { // side by side, as the page is wide and not high
		last = []report.Section{{Parts: last}}
	}
	sections = append(sections, last...)
	if text := words.FloorNote(d); text != "" {
		sections = append(sections, report.Section{Blocks: []report.Block{&report.Notes{Items: []report.Note{{Text: text}}}}})
	}
	return sections
}
