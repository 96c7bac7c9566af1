package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// A confidence is said as times where it is such a fraction.
func TestTimesOutOf(t *testing.T) {
	for confidence, want := range map[float64]string{
		.8: "four times out of five", .9: "nine times out of ten", .75: "three times out of four", .95: "19 times out of 20",
		2. / 3: "two times out of three", .99: "99 % of the time", .5: "two times out of four",
	} {
		assert.Equal(t, want, words.TimesOutOf(report.Float(confidence)))
	}
}

// Another confidence, another span: the sentence, the titles and the notes follow.
func TestForecastWordsFollowTheAnswer(t *testing.T) {
	d := answers.Forecast{
		Sequence: "next", Flights: 6, Days: 1095, Confidence: report.Float(.9), Unseen: []string{"6", "spins"},
		Percent: report.Float(65.12), Low: report.Float(60), High: report.Float(70), Past: answers.Past{Inside: 1, Of: 1},
	}
	assert.Equal(t, "About 65.1 %; nine times out of ten between 60.0 and 70.0 %.", words.ForecastSentence(d))
	assert.Equal(t, "90 % from", words.RangeFrom(d.Confidence))
	assert.Equal(t, "from 6 contest flights of the last three years", words.ForecastSubtitle(d))
	assert.Equal(t, []string{
		"not graded in a contest in the last three years: 6 tailslides, spins; the range is wide because of them",
		"its own record: 1 of 1 past flight lay inside the range forecast from the flights before",
		"percent is before penalties, positioning and harmony included",
	}, words.ForecastNotes(d))
	d.Days = 400
	assert.Equal(t, "from 6 contest flights of the last 400 days", words.ForecastSubtitle(d))
	d.Days = 365
	assert.Equal(t, "from 6 contest flights of the last year", words.ForecastSubtitle(d))
}

// What is lacking is said with its own numbers.
func TestForecastLacks(t *testing.T) {
	for want, lack := range map[string]answers.Lack{
		"1 contest flight with marks in the last two years; at least six are needed":             {Reason: code.FewFlights, Flights: 1, Least: 6},
		"every flight scored the same, 70.0 %, so that nothing can be said of the spread":        {Reason: code.SameScore, Percent: report.Float(70)},
		"all of the flights are of one contest; flights at two contests at the least are needed": {Reason: code.OneContest},
		"the grades flown do not differ, so that nothing can be said of their spread":            {Reason: code.NoSpread},
		"the grades flown do not allow a range":                                                  {Reason: code.NoRange},
	} {
		d := words.SayForecast(answers.Forecast{Days: 730, Lack: &lack})
		assert.Equal(t, want, d.Why)
		assert.Equal(t, "Cannot tell: "+want+".", words.ForecastSentence(d))
	}
}

// What the command says of itself names the days and the confidence of the
// analysis.
func TestForecastHelp(t *testing.T) {
	assert.Contains(t, words.ForecastHelp(), words.TimesOutOf(report.Float(answers.ForecastConfidence)))
	assert.Contains(t, words.ForecastHelp(), "flown in the last two years cost")
	assert.Equal(t, "a forecast rests on all contest flights of the two years up to today, and --asof sets another day", words.ForecastSpan())
}
