package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season/analysis"
)

// Ready is the page of a pilot's readiness for the next category.
func Ready(r analysis.Readiness) report.Document {
	d := answers.ReadyOf(r)
	doc := report.Document{
		Title: words.ReadyTitle(d.To), Subtitle: fmt.Sprintf("policy %s; no rule book has its values", d.Policy),
		Data: d, Caution: words.ReadyCaution,
	}
	doc.Sections = append(doc.Sections,
		report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.ReadySentence(d)}}},
		report.Section{Heading: "Gates", Blocks: []report.Block{tables.GateFacts(d)}},
	)
	if len(d.Against) > 0 {
		against := &report.Notes{}
		for _, text := range d.Against {
			tables.AddNote(against, "%s", text)
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: "What speaks against", Blocks: []report.Block{against}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		heading := "What would change it"
		if d.To == "" {
			heading = "What would change a gate"
		}
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Blocks: []report.Block{needs}})
	}
	if r.Floor.Floor > 0 {
		floor := &report.Notes{}
		tables.AddNote(floor, "floor of %s in ladder %s: %d %s; figures from published pages of various years, the rules in force decide",
			d.To, d.Ladder, r.Floor.Floor, r.Floor.Unit)
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{floor}})
	}
	return doc
}
