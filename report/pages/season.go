package pages

import (
	"slices"
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/charts"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Season is the page of a pilot's season.
func Season(d answers.Season) report.Document {
	doc := report.Document{Title: words.SeasonTitle, Subtitle: words.SeasonSubtitle(d), Data: d}
	if section := verdictSection(d); len(section.Blocks) > 0 {
		doc.Sections = append(doc.Sections, section)
	}
	if d.Beside != nil {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.BesideHeading(d), Blocks: []report.Block{tables.BesideTable(d), tables.Notes(words.BesideNotes(d))},
		})
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, report.Section{
			Heading: words.FlightsHeading, Blocks: []report.Block{tables.SeasonTable(d), tables.SeasonNotes(d), tables.PercentSeries(d), tables.SeasonFacts(d)},
		})
	}
	if section := trendSection(d); len(section.Blocks) > 0 {
		doc.Sections = append(doc.Sections, section)
	}
	if len(d.Contests) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.ContestsHeading, Blocks: []report.Block{tables.ContestTable(d), tables.ContestNotes(d)}})
	}
	if section := aheadSection(d); len(section.Blocks) > 0 {
		doc.Sections = append(doc.Sections, section)
	}
	return doc
}

// aheadSection is what comes up: contests, and what runs out.
func aheadSection(d answers.Season) report.Section {
	section := report.Section{Heading: words.AheadHeading}
	for _, table := range []*report.Table{tables.AheadTable(d), tables.ExpiryTable(d)} {
		if len(table.Rows) > 0 {
			section.Blocks = append(section.Blocks, table)
		}
	}
	return section
}

// verdictSection is each category's trend in a sentence, where the pilot stands
// now, and what must be known beside it.
func verdictSection(d answers.Season) report.Section {
	section, notes := report.Section{}, &report.Notes{}
	for _, t := range d.Trends {
		whose := words.WhoseTrend(d, t)
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: whose + words.TrendSentence(t.Trend, d.Limits.TrendLimits)})
		for _, note := range words.TrendNotes(t.Trend, d.Limits.TrendLimits) {
			tables.AddNote(notes, "%s%s", whose, note)
		}
	}
	if said := words.LevelSentences(d.Level); len(said) > 0 {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: strings.Join(said, " ")})
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
	section.Blocks = append(section.Blocks, picture(charts.Percent(d))...)
	return section
}

// trendSection is what the verdicts rest on, then what a change of category
// did.
func trendSection(d answers.Season) report.Section {
	section := report.Section{Heading: words.TrendHeading}
	for _, t := range d.Trends {
		facts := tables.TrendFigures(t.Trend)
		if len(facts.Items) == 0 {
			continue
		}
		if len(d.Trends) > 1 {
			facts.Items = slices.Insert(facts.Items, 0, report.Fact{Label: "category", Value: report.Text(words.CategoryWord(t.Category))})
		}
		section.Blocks = append(section.Blocks, facts)
	}
	for _, m := range d.Moves {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.MoveSentence(m, d.Limits)})
	}
	return section
}
