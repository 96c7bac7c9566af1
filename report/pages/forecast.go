package pages

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/analysis"
)

// Forecast is the page of a forecast, with the record of past ones.
func Forecast(a analysis.ForecastAnswer, past analysis.ForecastPast) report.Document {
	d := answers.ForecastOf(a, past)
	doc := report.Document{Title: words.ForecastTitle(d.Sequence), Data: d, Caution: words.ForecastCaution}
	doc.Subtitle = fmt.Sprintf("from %s of the last two years", season.Counted(d.Flights, "contest flight", "contest flights"))
	doc.Sections = []report.Section{{Blocks: []report.Block{&report.Paragraph{Text: words.ForecastSentence(d)}, tables.ForecastNotes(d)}}}
	if len(d.Figures) > 0 {
		doc.Sections = append(doc.Sections, report.Section{Heading: "By figure", Blocks: []report.Block{tables.FigureForecasts(d)}})
	}
	return doc
}
