package pages

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report/answers"
	"boxbook/season"
)

// sixRows are six flights' grades of known-26.
var sixRows = []string{"6 7.5 8 7 5 7", "7 7 7.5 8 5.5 8", "6.5 8 7.5 7.5 5 7", "7 7.5 7 7 6.5 7.5", "6 7 7.5 7 6 7", "7.5 8 8 7 5.5 6.5"}

const nextSequence = `
sequence next
  category advanced
  1 7.4.1.1:10   "round loop"
  2 2.2.3.1:22
  3 9.10.3.4:13
`

func forecastPage(t testing.TB, book, sequence string) (string, answers.Forecast) {
	t.Helper()
	l := faultBook(t, book)
	for _, seq := range l.Sequences {
		if seq.Handle == sequence {
			doc := Forecast(answers.ForecastOf(l, l.Pilots[0], seq, nil), true)
			return oneLine(textOf(t, doc)), doc.Data.(answers.Forecast)
		}
	}
	require.Fail(t, "no sequence "+sequence)
	return "", answers.Forecast{}
}

// Mean and range in one sentence, what was never flown, the record of past
// forecasts, a row a figure by label or codes.
func TestForecastPage(t *testing.T) {
	text, d := forecastPage(t, familyHead+nextSequence+flownRows(sixRows...), "next")
	assert.Contains(t, text, "By grades given at sportsman, on 2026-08-18, the last flight with marks: about "+d.Percent.Text(0)+"% if nothing is zeroed; but not known before the first flight there: no panel has graded the pilot at advanced, nor rolling turns or negative flick rolls in the last two years. "+
		"Four times out of five between "+d.Low.Text(0)+" and "+d.High.Text(0)+"%, if advanced is judged alike: too long ago to say for 2026-12-01.")
	assert.Contains(t, text, "never flown: rolling turns, negative flick rolls (family 9.10) - the ranges of figures 2 and 3 are wider because of that")
	assert.Contains(t, text, "of 2 past flights inside the 80% range forecast from the flights before")
	assert.Contains(t, text, "round loop")
	assert.Contains(t, text, "2.2.3.1")
	assert.True(t, d.NewCategory)
	require.Len(t, d.Figures, 3)

	text, d = forecastPage(t, familyHead+flownRows(sixRows...), "known-26")
	assert.NotContains(t, text, "never flown")
	assert.Contains(t, text, "without codes: figure 6 - the range of figure 6 is wider because of that")
	assert.NotContains(t, text, "not graded")
	assert.Empty(t, d.Unseen)
	raw, err := json.Marshal(d)
	require.NoError(t, err)
	assert.Contains(t, string(raw), `"unseen":[]`)
	assert.Contains(t, string(raw), `"newCategory":false`)
}

// What is lacking is said, and no number with it.
func TestForecastPageOfTooLittle(t *testing.T) {
	text, d := forecastPage(t, familyHead+flownRows(sixRows[:3]...), "known-26")
	assert.Contains(t, text, "Cannot tell from flights at sportsman: 3 contest flights with graded figures and codes in the last two years; at least four are needed.")
	assert.False(t, d.Percent.Known())
	assert.NotContains(t, text, "By figure")
	assert.NotContains(t, text, "past forecasts")

	text, _ = forecastPage(t, familyHead+flownRows("7 7 7 7 7 7", "7 7 7 7 7 7", "7 7 7 7 7 7", "7 7 7 7 7 7"), "known-26")
	assert.NotContains(t, text, "NaN")
}

// Season and forecast tell one level of one day.
func TestForecastHasTheLevelOfTheSeason(t *testing.T) {
	l := faultBook(t, familyHead+nextSequence+flownRows(sixRows...))
	p := l.Pilots[0]
	d := answers.ForecastOf(l, p, l.SequenceNamed("next"), nil)
	require.True(t, d.Level.Percent.Known())
	assert.Equal(t, answers.SeasonOf(l, season.Selection{Pilot: p}).Level, d.Level)
}
