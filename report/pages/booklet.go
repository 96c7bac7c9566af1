package pages

import (
	"slices"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Booklet is a season to read: the answers and the picture first, with the season before
// beside it, then what comes back, drills, plan, readiness, families and panels as their
// own pages have them, then every flight, folded.
func Booklet(b answers.Book) report.Document {
	if b.Ready != nil {
		said := words.SayReady(*b.Ready)
		b.Ready = &said
	}
	doc := report.Document{Title: b.Pilot.Name, Subtitle: words.BookletSubtitle(b), Caution: words.SeasonCaution, Data: b}
	first := report.Section{Blocks: []report.Block{picture(charts.Percent, b.Season)}}
	for _, said := range append(openFirst(b), words.BookletSentences(b)...) {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: said}}})
	}
	if b.Season.Beside != nil {
		first.Blocks = append(first.Blocks, tables.BesideBrief(b.Season))
	}
	doc.Sections = append(doc.Sections, first)
	add := func(heading string, page report.Document) {
		doc.Sections = append(doc.Sections, report.Section{Heading: heading, Parts: withoutCommands(page.Sections)})
	}
	add(words.FaultsTitle, Faults(b.Faults, true))
	add(words.DrillsTitle, Drills(b.Drills, false))
	add(words.BookletPart(b, words.PlanTitle(b.Plan.Sequence), b.Plan.Category), Plan(b.Plan, true))
	if b.Ready != nil {
		add(words.ReadyTitle(b.Ready.To), Ready(*b.Ready, ReadyOptions{}))
	}
	add(words.BookletPart(b, words.FamiliesTitle, b.Families.Category), Families(b.Families, true))
	add(words.PanelTitle, Panel(b.Panel, true))
	doc.Sections = append(doc.Sections, report.Section{Heading: words.FlightsHeading, Parts: bookletFlights(b)})
	return doc
}

// withoutCommands are sections without the sentences that name a command: a file
// has none.
func withoutCommands(sections []report.Section) []report.Section {
	names := func(b report.Block) bool {
		p, ok := b.(*report.Paragraph)
		return ok && p.Command
	}
	var out []report.Section
	for _, s := range sections {
		s.Blocks = slices.DeleteFunc(slices.Clone(s.Blocks), names)
		out = append(out, s)
	}
	return out
}

// openFirst are the open matters, which stand before every answer.
func openFirst(b answers.Book) []string {
	var said []string
	for _, o := range b.Faults.Open {
		said = append(said, words.OpenNow(o))
	}
	return said
}

// bookletFlights are the flights, the latest first: sheet, score, losses, faults,
// notes.
func bookletFlights(b answers.Book) []report.Section {
	var sections []report.Section
	for i := len(b.Flights) - 1; i >= 0; i-- {
		d := words.SayFlight(b.Flights[i])
		section := report.Section{Heading: words.BookletFlight(d), Folded: true}
		if d.Marked {
			section.Blocks = []report.Block{tables.SheetTable(d), tables.SheetNotes(d)}
		}
		section.Blocks = append(section.Blocks, tables.ScoreFacts(d), tables.Notes(words.ScoreNotes(d)))
		if said := words.OfficialDisagrees(d); said != "" {
			section.Blocks = append(section.Blocks, &report.Paragraph{Text: said})
		}
		if d.Lost != nil {
			section.Parts = append(section.Parts, report.Section{Heading: words.LostHeading, Blocks: []report.Block{picture(charts.Losses, d.Lost)}})
		}
		section.Parts = append(section.Parts, faultSections(d)...)
		section.Parts = append(section.Parts, reviewSections(d)...)
		sections = append(sections, section)
	}
	return sections
}
