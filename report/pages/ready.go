package pages

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// ReadyOptions say how much of a readiness page is shown.
type ReadyOptions struct {
	All bool // every gate with its evidence, and what would change it
}

// Ready is the page of a pilot's readiness for the next category. Open matters of
// safety stand first, whatever the policy asks.
func Ready(d answers.Ready, o ReadyOptions) report.Document {
	d = words.SayReady(d)
	doc := report.Document{Title: words.ReadyTitle(d.To), Data: d, Caution: words.ReadyCaution}
	verdict := []string{words.NoOpenMatters, words.ReadySentence(d)}
	if len(d.Open) > 0 {
		doc.Sections, verdict = []report.Section{openSection(d.Open)}, verdict[1:]
	}
	if expired := words.ReadyExpired(d); expired != "" {
		verdict = append(verdict, expired)
	}
	headline := paragraphs(verdict)
	if said := words.SaidLines(d); len(said) > 0 {
		headline = append(headline, &report.Paragraph{Text: strings.Join(said, "\n")})
	}
	doc.Sections = append(doc.Sections, report.Section{Blocks: headline})
	if o.All {
		doc.Subtitle = words.ReadySubtitle(d)
		doc.Main = tables.GateTable(d)
		doc.Sections = append(doc.Sections, wholeReady(d)...)
		return doc
	}
	doc.Main = tables.ReadyTable(d)
	gates := []report.Block{tables.ReadyBrief(d)}
	if against := words.AgainstLine(d); against != "" {
		gates = append(gates, &report.Paragraph{Text: against})
	}
	doc.Sections = append(doc.Sections, report.Section{Blocks: gates}, report.Section{Blocks: []report.Block{&report.Paragraph{Text: words.MoreOfReady(d), Command: true}}})
	return doc
}

// wholeReady are all gates with their evidence, what speaks against and what would
// change it.
func wholeReady(d answers.Ready) []report.Section {
	sections := []report.Section{{Heading: words.GatesHeading, Blocks: []report.Block{tables.GateFacts(d)}}}
	if against := tables.AgainstNotes(d); len(against.Items) > 0 {
		sections = append(sections, report.Section{Heading: words.AgainstHeading, Blocks: []report.Block{against}})
	}
	if needs := tables.NeedNotes(d); len(needs.Items) > 0 {
		sections = append(sections, report.Section{Heading: words.NeedsHeading(d), Blocks: []report.Block{needs}})
	}
	if text := words.FloorNote(d); text != "" {
		floor := &report.Notes{}
		tables.AddNote(floor, "%s", text)
		sections = append(sections, report.Section{Blocks: []report.Block{floor}})
	}
	return sections
}
