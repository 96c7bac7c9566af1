package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// level is a level with everything known.
func level() answers.Level {
	return answers.Level{
		Percent: report.Float(68.04), Low: report.Float(66.5), High: report.Float(70.25), Drift: report.Float(-1.84), Steady: report.Float(.62),
		Next: &answers.Range{Low: report.Float(63.1), High: report.Float(72.7)}, Of: 15, Contests: 10, Category: "intermediate",
		AsOf: "2026-11-25", On: "2026-11-25", Confidence: report.Float(.8),
		Limits: answers.LevelLimits{Days: 730, Flights: 4, Contests: 3, DriftDays: 150, HoldsLow: report.Float(.7), HoldsHigh: report.Float(.86)},
	}
}

func TestLevelSentences(t *testing.T) {
	said := func(change func(d *answers.Level)) string {
		d := level()
		change(&d)
		return strings.Join(words.LevelSentences(d), " ")
	}
	assert.Equal(t, "Level now: 68% (67 to 70 at 80% confidence), from 15 flights at 10 contests, intermediate, in the last two years. "+
		"The next flight: 63 to 73% (80% confidence). Drift by this model of two years, which looks at flights of all sequences and begins by taking form as steady: -1.8 percentage points in 150 days; the chance that form is steady is 62%.",
		said(func(*answers.Level) {}))
	late := said(func(d *answers.Level) { d.On, d.Qualified = "2026-07-01", []code.Reason{code.TooLongAfter} })
	assert.Contains(t, late, "Level on 2026-07-01, the last flight, too long before 2026-11-25 to say where the pilot stood that day: 68% (")
	assert.Contains(t, late, " A next flight then: 63 to 73% (80% confidence).", "which says nothing of the next one")
	three := said(func(d *answers.Level) { d.Contests, d.Qualified = 3, []code.Reason{code.NoDriftSeen} })
	assert.Contains(t, three, "Three contests cannot show a drift; the range holds 70 to 86% in simulation.")
	assert.NotContains(t, three, "Drift")
	assert.Contains(t, said(func(d *answers.Level) { d.Qualified = []code.Reason{code.SameScore} }), " The same score each time.")
	assert.Contains(t, said(func(d *answers.Level) { d.Contests, d.Qualified = 3, []code.Reason{code.NoDriftSeen, code.SameScore} }), " The same score each time.")
	assert.Contains(t, said(func(d *answers.Level) { d.Steady = report.Float(.9999) }), "steady is 99%", "nothing is certain")

	none := func(d *answers.Level) { d.Percent, d.Of, d.Contests, d.Reason = report.Number{}, 3, 2, code.FewFlights }
	assert.Equal(t, "Level now: cannot tell from 3 flights at 2 contests, intermediate, in the last two years; at least four flights at three contests are needed.", said(none))
	assert.Contains(t, said(func(d *answers.Level) { none(d); d.Then = "2025-12-31" }), "Level on 2025-12-31: cannot tell from 3 flights")
	assert.Contains(t, said(func(d *answers.Level) { d.Then = "2025-12-31" }), "Level on 2025-12-31: 68% (")
	assert.Empty(t, said(func(d *answers.Level) { *d = answers.Level{} }), "nothing was flown")
	assert.Equal(t, "No contest flight in the last two years has a percent.", words.NoLevel(level()))
}
