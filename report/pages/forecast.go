package pages

import (
	"strings"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
)

// Forecast is the page of a forecast, with the record of past ones.
func Forecast(d answers.Forecast) report.Document {
	d = words.SayForecast(d)
	doc := report.Document{Title: words.ForecastTitle(d.Sequence), Subtitle: words.ForecastSubtitle(d), Data: d, Caution: words.ForecastCaution}
	first := []report.Block{&report.Paragraph{Text: words.ForecastSentence(d)}}
	if level := words.LevelSentences(d.Level); len(level) > 0 {
		first = append(first, &report.Paragraph{Text: strings.Join(level, " ")})
	}
	doc.Sections = []report.Section{{Blocks: append(first, tables.ForecastNotes(d))}}
	if len(d.Figures) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: words.FigureForecastsHeading, Blocks: []report.Block{tables.FigureForecasts(d)}})
	}
	return doc
}
