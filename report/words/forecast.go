package words

import (
	"fmt"

	"boxbook/report"
	"boxbook/report/answers"
)

// FigureForecastsHeading stands over the grades of a forecast.
const FigureForecastsHeading = "By figure"

// SayForecast fills the sentence of an answer: why there is no forecast.
func SayForecast(d answers.Forecast) answers.Forecast {
	d.Why = ""
	if d.Lack != nil {
		d.Why = lack(*d.Lack).forecast(d.Days)
	}
	return d
}

// ForecastSubtitle says what a forecast is made from.
func ForecastSubtitle(d answers.Forecast) string {
	return fmt.Sprintf("from %s of %s", Counted(d.Flights, "contest flight", "contest flights"), lastDays(d.Days))
}

// ForecastSentence is the forecast, or why there is none.
func ForecastSentence(d answers.Forecast) string {
	if !d.Percent.Known() {
		return "Cannot tell: " + d.Why + "."
	}
	return fmt.Sprintf("About %s %%; %s between %s and %s %%.",
		d.Percent.Text(1), TimesOutOf(d.Confidence), d.Low.Text(1), d.High.Text(1))
}

// ForecastNotes say what a reader must know beside a forecast.
func ForecastNotes(d answers.Forecast) []string {
	var notes []string
	if len(d.Unseen) > 0 {
		notes = append(notes, UnseenWords(d.Unseen, d.Days)+"; the range is wide because of them")
	}
	if d.NewCategory {
		notes = append(notes, "the category was never flown, and is judged by its own standard: this forecast does not know it")
	}
	if d.Past.Of > 0 {
		notes = append(notes, fmt.Sprintf("its own record: %d of %s lay inside the range forecast from the flights before",
			d.Past.Inside, Counted(d.Past.Of, "past flight", "past flights")))
	}
	return append(notes, "percent is before penalties, positioning and harmony included")
}

// UnseenWords says for which groups a forecast has nothing to go by, over so many
// days. They may have been flown before, or have official totals only.
func UnseenWords(groups []string, days int) string {
	return "not graded in a contest in " + lastDays(days) + ": " + GroupTitles(groups)
}

// RangeFrom is the title of the column that a range of a confidence begins in.
func RangeFrom(confidence report.Number) string { return Confidence(confidence) + " from" }

// ForecastHelp says what the command of that name does.
func ForecastHelp() string {
	return `Show what a pilot would score on a sequence, from what the elements of the
figures flown in ` + lastDays(answers.ForecastDays) + ` cost: percent with the range that holds it
` + TimesOutOf(report.Float(answers.ForecastConfidence)) + `, the same by figure, and what was never flown. --asof
sets the day that it is made on.`
}

// ForecastSpan says what a forecast rests on, where another span is asked for.
func ForecastSpan() string {
	return "a forecast rests on all contest flights of the " + span(answers.ForecastDays) + " up to today, and --asof sets another day"
}
