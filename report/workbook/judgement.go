package workbook

import (
	"strings"

	"boxbook/report"
	"boxbook/report/workbook/xlsx"
)

const (
	panelName = "Panel"
	readyName = "Readiness"
)

// panelSheet is the page of the judges.
func panelSheet(c *content) xlsx.Sheet {
	return docSheet(panelName, c.docs.panel, "leniency, scatter, noise and lone grades: "+statNote)
}

// readySheet is the page of the gates, with the caution at its foot.
func readySheet(c *content) xlsx.Sheet {
	return docSheet(readyName, readyTable(c.docs.ready), "gates: "+statNote)
}

func docSheet(name string, doc report.Document, legend string) xlsx.Sheet {
	return xlsx.Sheet{
		Name: name, FrozenRows: 1, HeadRows: 1, LastColumn: docColumns(doc), Legend: legend,
		Fill: func(b *xlsx.Book) {
			w := newDocWriter(b, doc, 1)
			w.title(doc.Title, doc.Subtitle)
			w.document(doc)
		},
	}
}

// readyTable takes each gate's state out of the words beside its name, so that
// a reader can sort by it.
func readyTable(doc report.Document) report.Document {
	sections := make([]report.Section, len(doc.Sections))
	copy(sections, doc.Sections)
	for i, section := range sections {
		if section.Heading != "Gates" {
			continue
		}
		facts, ok := section.Blocks[0].(*report.Facts)
		if !ok {
			continue
		}
		sections[i].Blocks = []report.Block{gateTable(facts)}
	}
	doc.Sections = sections
	return doc
}

func gateTable(facts *report.Facts) *report.Table {
	t := &report.Table{Columns: []report.Column{{Title: "gate"}, {Title: "state"}, {Title: "evidence", Flexible: true}}}
	for _, f := range facts.Items {
		state, evidence, _ := strings.Cut(f.Value.String(), ": ")
		t.Rows = append(t.Rows, []report.Cell{report.Text(f.Label), report.Text(state).Toned(f.Value.Tone), report.Text(evidence)})
	}
	return t
}
