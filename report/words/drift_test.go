package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// The season's page says its level with the drift only where a steady form is hardly
// possible and the drift is of some size.
func TestStrongDriftIsSaidWithTheLevel(t *testing.T) {
	said := func(drift, steady float64, qualified ...code.Reason) string {
		level := answers.Level{
			Percent: report.Float(72), Low: report.Float(70), High: report.Float(73), Next: &answers.Range{Low: report.Float(69), High: report.Float(75)},
			Drift: report.Float(drift), Steady: report.Float(steady), Of: 12, Contests: 6, Confidence: report.Float(.8), Qualified: qualified,
			Limits: answers.LevelLimits{Days: 730, DriftDays: 150},
		}
		sentences := words.SeasonSentences(answers.Season{Level: level})
		return sentences[len(sentences)-1]
	}
	const without = "Level now: about 72%; four times out of five it lies between 70 and 73%, and the next flight between 69 and 75%."
	assert.Equal(t, "Level now: about 72%, drifting by +5.7 percentage points in 150 days by the model of all sequences in the last two years; four times out of five it lies between 70 and 73%, and the next flight between 69 and 75%.", said(5.72, .0006))
	assert.Contains(t, said(-8.03, .03), "about 72%, drifting by -8.0 percentage points in 150 days by the model of all sequences in the last two years;")
	assert.Equal(t, without, said(5.72, .06), "it may be steady")
	assert.Equal(t, without, said(.9, .01), "it is small")
	assert.Equal(t, without, said(5.72, .01, code.NoDriftSeen))
}
