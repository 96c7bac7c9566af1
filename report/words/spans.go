package words

import (
	"math"

	"boxbook/report"
)

// mostOutOf is the largest number of times that a confidence is said out of.
const mostOutOf = 20

// TimesOutOf says a confidence as times: 0.8 is "four times out of five"; one
// that is no such fraction is said as percent of the time.
func TimesOutOf(confidence report.Number) string {
	for of := 2; of <= mostOutOf; of++ {
		times := confidence.Float64() * float64(of)
		if whole := math.Round(times); math.Abs(times-whole) < 1e-9 && whole > 1 && whole < float64(of) {
			return NumberWord(int(whole)) + " times out of " + NumberWord(of)
		}
	}
	return Confidence(confidence) + " of the time"
}

// yearDays are the days of a year, near enough to say how long a span is.
const yearDays = 365

// span says a number of days, as years where it is whole years.
func span(days int) string {
	if years := days / yearDays; years > 1 && days%yearDays == 0 {
		return NumberWord(years) + " years"
	}
	return Counted(days, "day", "days")
}

// daysTo says the days up to one that is not today; "" is today.
func daysTo(days int, day string) string {
	if day == "" {
		return lastDays(days)
	}
	if days == yearDays {
		return "the year to " + day
	}
	return "the " + span(days) + " to " + day
}

// lastDays says the days up to one.
func lastDays(days int) string {
	if days == yearDays {
		return "the last year"
	}
	return "the last " + span(days)
}
