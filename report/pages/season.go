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

// Season is the page of a pilot's season: what happened, the flights, the picture,
// the season beside; where all is asked for also the contests, the tests, and what
// is ahead.
func Season(d answers.Season, all bool) report.Document {
	doc := report.Document{Title: words.SeasonTitle, Subtitle: words.SeasonSubtitle(d), Data: d, Main: tables.SeasonData(d)}
	if section := verdictSection(d); len(section.Blocks) > 0 {
		doc.Sections = append(doc.Sections, section)
	}
	if len(d.Flights) > 0 {
		doc.Sections = append(doc.Sections, flownSection(d, all))
	}
	if d.Beside != nil {
		doc.Sections = append(doc.Sections, besideSection(d, all))
	}
	if all {
		doc.Sections = append(doc.Sections, wholeSeason(d)...)
		return doc
	}
	if len(d.Flights) == 0 && len(d.Contests) > 0 { // a season of which the results alone are known
		doc.Sections = append(doc.Sections, contestsSection(d))
	}
	if ahead := words.AheadLine(d); ahead != "" {
		doc.Sections = append(doc.Sections, report.Section{Blocks: []report.Block{&report.Paragraph{Text: ahead}}})
	}
	doc.Sections = append(doc.Sections, furtherSection(words.Further("season", d.Pilot)))
	return doc
}

// besideSection sets the season beside another; with what the numbers are of
// where all is asked for.
func besideSection(d answers.Season, all bool) report.Section {
	if all {
		return report.Section{Heading: words.BesideHeading(d), Blocks: []report.Block{tables.Filled(tables.BesideTable(d)), tables.Notes(words.BesideNotes(d))}}
	}
	return report.Section{Blocks: []report.Block{tables.BesideBrief(d)}}
}

// furtherSection says where to go next.
func furtherSection(text string) report.Section {
	return report.Section{Blocks: []report.Block{&report.Paragraph{Text: text, Command: true}}}
}

// flownSection are the flights with their picture.
func flownSection(d answers.Season, all bool) report.Section {
	var section report.Section
	if all {
		section.Heading, section.Blocks = words.FlightsHeading, []report.Block{tables.Whole(tables.Filled(tables.SeasonShown(d))), tables.SeasonNotes(d, true), tables.PercentSeries(d), tables.SeasonFacts(d)}
	} else {
		section.Blocks = []report.Block{tables.Filled(tables.SeasonBrief(d)), tables.SeasonNotes(d, false)}
		if d.Mean.Known() {
			section.Blocks = append(section.Blocks, tables.PercentSeries(d))
		}
	}
	section.Blocks = append(section.Blocks, picture(charts.Percent, d))
	return section
}

// wholeSeason are the level, the tests, the contests, and what is ahead.
func wholeSeason(d answers.Season) []report.Section {
	var sections []report.Section
	if said := words.SeasonLevel(d); len(said) > 0 {
		sections = append(sections, report.Section{Heading: words.LevelHeading, Blocks: []report.Block{&report.Paragraph{Text: strings.Join(said, " ")}}})
	}
	if section := trendSection(d); len(section.Blocks) > 0 {
		sections = append(sections, section)
	}
	if len(d.Contests) > 0 {
		sections = append(sections, contestsSection(d))
	}
	if section := aheadSection(d); len(section.Blocks) > 0 {
		sections = append(sections, section)
	}
	return sections
}

// contestsSection are the contests' results as printed beside the sum of their flights.
func contestsSection(d answers.Season) report.Section {
	return report.Section{Heading: words.ContestsHeading, Blocks: []report.Block{tables.Whole(tables.Filled(tables.ContestTable(d))), tables.ContestNotes(d)}}
}

// aheadSection is what comes up: contests, and what runs out.
func aheadSection(d answers.Season) report.Section {
	section := report.Section{Heading: words.AheadHeading}
	for _, table := range []*report.Table{tables.AheadTable(d), tables.ExpiryTable(d)} {
		if len(table.Rows) > 0 {
			section.Blocks = append(section.Blocks, tables.Filled(table))
		}
	}
	return section
}

// verdictSection says what happened, and what must be known beside it.
func verdictSection(d answers.Season) report.Section {
	section, notes := report.Section{}, &report.Notes{}
	if said := words.SeasonSentences(d); len(said) > 0 {
		section.Blocks = paragraphs(said)
	}
	for _, t := range d.Trends {
		for _, note := range words.TrendNotes(t.Trend, d.Limits.TrendLimits) {
			tables.AddNote(notes, "%s%s", words.WhoseTrend(d, t), note)
		}
	}
	if len(notes.Items) > 0 {
		section.Blocks = append(section.Blocks, notes)
	}
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
	if len(section.Blocks) > 0 {
		section.Blocks = append(section.Blocks, tables.Notes([]string{words.TestExplained}))
	}
	for _, m := range d.Moves {
		section.Blocks = append(section.Blocks, &report.Paragraph{Text: words.MoveSentence(m, d.Limits)})
	}
	return section
}
