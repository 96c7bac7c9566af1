package pages

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Forecast is the page of a forecast, with the record of past ones; with the making
// of the level where all is asked for.
func Forecast(d answers.Forecast, all bool) report.Document {
	d = words.SayForecast(d)
	doc := report.Document{Title: words.ForecastTitle(d.Sequence), Subtitle: words.ForecastSubtitle(d), Data: d, Caution: words.ForecastCaution}
	doc.Sections = []report.Section{{Blocks: append(paragraphs(words.ForecastSentences(d)), tables.ForecastNotes(d))}}
	if len(d.Figures) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.FigureForecastsHeading, Blocks: []report.Block{tables.FigureForecasts(d)}})
	}
	level := words.LevelSentences(d.Level)
	switch {
	case all && len(level) > 0:
		doc.Sections = append(doc.Sections, report.Section{Heading: words.LevelHeading, Blocks: []report.Block{&report.Paragraph{Text: strings.Join(level, " ")}}})
	case !all:
		doc.Sections = append(doc.Sections, furtherSection(words.Further("forecast", d.Pilot, d.Sequence)))
	}
	return doc
}
