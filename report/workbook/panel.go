package workbook

import (
	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/report/workbook/xlsx"
)

// panelSheet is the page of the judges.
func panelSheet(c *content) xlsx.Sheet {
	doc := report.Document{Title: c.titleOf(words.PanelTitle), Sections: panelSections(words.SayPanel(c.book.Panel))}
	return docSheet(words.PanelSheet, c.pagesTall(1), usualGrid, doc, words.PanelLegend)
}

func panelSections(d answers.Panel) []report.Section {
	var said report.Section
	for _, text := range words.PanelSentences(d) {
		said.Blocks = append(said.Blocks, &report.Paragraph{Text: text})
	}
	sections := []report.Section{said}
	for i := range d.Parts {
		sections = append(sections, report.Section{Heading: words.PartHeading(i+1, len(d.Parts)), Blocks: []report.Block{tables.PanelJudges(d, i+1)}})
	}
	if len(d.Flags) > 0 {
		sections = append(sections, report.Section{Heading: words.LoneGradesHeading, Blocks: []report.Block{tables.FlagTable(d.Flags), tables.Notes(words.LoneNotes(d.Flags))}})
	}
	if len(d.Flights) > 0 {
		sections = append(sections, report.Section{Heading: words.PanelFlightsHeading, Blocks: []report.Block{tables.PanelFlights(d), tables.Notes(words.PanelNotes(d))}})
	}
	return sections
}

// docSheet is a sheet of sections, one under the other, fitted on so many pages.
func docSheet(name string, pages int, g grid, doc report.Document, legend string) xlsx.Sheet {
	return xlsx.Sheet{
		Name: name, PagesTall: pages, FrozenRows: 1, HeadRows: 1, LastColumn: docColumns(doc, g), Legend: legend,
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, doc, 1, g)
			w.title(doc.Title, doc.Subtitle)
			w.document(doc)
		},
	}
}
