package words_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// A change that is or may be there stands beside how often chance gives it.
func TestPilotFormHasItsChance(t *testing.T) {
	for _, c := range []struct {
		word   answers.TrendWord
		chance report.Number
		want   string
	}{
		{answers.MayImprove, report.Float(.19), "may be improving (chance alone: one season in five)"},
		{answers.Declining, report.Float(.0001), "declining (chance alone: less than one season in 100)"},
		{answers.CannotTell, report.Number{}, "cannot tell"},
		{"", report.Number{}, ""},
	} {
		require.Equal(t, c.want, words.PilotForm(answers.PilotLine{Word: c.word, Chance: c.chance}))
	}
}

// What is in the way and what cannot be told yet are told apart; where nothing comes
// back, why.
func TestPilotStepAndBack(t *testing.T) {
	d := words.SayPilots(answers.Pilots{Pilots: []answers.PilotLine{{To: "advanced", Missing: []string{"threshold", "zeros", "lows"}, Untold: []string{"threshold"}}, {To: "unlimited"}}})
	require.Equal(t, "advanced: zeros, low penalties; cannot tell: level", words.PilotStep(d.Pilots[0]))
	require.Equal(t, []string{"level", "zeros", "low penalties"}, d.Pilots[0].Titles)
	require.Equal(t, "unlimited: nothing, by the ledger", words.PilotStep(d.Pilots[1]))
	limits := answers.PilotsLimits{BackFlights: 3}
	require.Equal(t, "no flight reviewed in two years", words.PilotBack(answers.PilotLine{}, limits))
	require.Equal(t, "2 flights reviewed, too few", words.PilotBack(answers.PilotLine{Reviewed: 2}, limits))
	require.Equal(t, "nothing", words.PilotBack(answers.PilotLine{Reviewed: 3}, limits))
	back := answers.PilotLine{Reviewed: 8, Recurring: "heading", Says: "off heading", Seen: 3, Exposed: 8, Undrilled: true, Drills: []string{}}
	require.Equal(t, "off heading, 3 of 8", words.PilotBack(back, limits), "the empty column of drills says it")
	back.Drills = []string{"radius"}
	require.Equal(t, "off heading, 3 of 8, no drill", words.PilotBack(back, limits), "the drill beside it is on something else")
	back.DrillEnded = "2026-11-07"
	require.Equal(t, "off heading, 3 of 8, its drill ended", words.PilotBack(back, limits))
	back.Undrilled = false
	require.Equal(t, "off heading, 3 of 8", words.PilotBack(back, limits))
}

// What a trend has too little of is named.
func TestPilotFormSaysWhatLacks(t *testing.T) {
	few := answers.PilotLine{Word: answers.TooFew, WordReason: answers.TrendFewContests}
	assert.Equal(t, "too few contests to tell", words.PilotForm(few))
	few.WordReason = answers.TrendFewFlights
	assert.Equal(t, "too few flights to tell", words.PilotForm(few))
	few.WordReason = answers.TrendFewAlike
	assert.Equal(t, "too few flights of one sequence to tell", words.PilotForm(few))
}

// A pilot's row has the level now and the range of the next flight; of long ago the day,
// and no next flight.
func TestPilotLevels(t *testing.T) {
	p := answers.PilotLine{Level: answers.Level{Percent: report.Float(78.6), Low: report.Float(73.2), High: report.Float(84), Next: &answers.Range{Low: report.Float(71), High: report.Float(87)}, Confidence: report.Float(.8), On: "2026-09-13"}}
	assert.Equal(t, "79%", words.PilotLevel(p))
	assert.Equal(t, "71 to 87%", words.PilotNext(p))
	p.Level.Qualified = []code.Reason{code.TooLongAfter}
	assert.Equal(t, "79%, 2026-09-13", words.PilotLevel(p))
	assert.Empty(t, words.PilotNext(p))
	assert.Empty(t, words.PilotLevel(answers.PilotLine{}))
	assert.Empty(t, words.PilotNext(answers.PilotLine{}))
}

// A level and a step that are not of the category flown last are said to be of which.
func TestPilotsNameTheCategory(t *testing.T) {
	level := answers.Level{Percent: report.Float(66.6), Low: report.Float(62), High: report.Float(73), Next: &answers.Range{Low: report.Float(60), High: report.Float(75)}, Confidence: report.Float(.8), Category: "intermediate"}
	d := words.SayPilots(answers.Pilots{Pilots: []answers.PilotLine{{Pilot: "ines", Category: "sportsman", Level: level, From: "intermediate", To: "advanced", Missing: []string{"zeros"}}}})
	assert.Equal(t, "67% at intermediate", words.PilotLevel(d.Pilots[0]))
	assert.Equal(t, "intermediate to advanced: zeros", words.PilotStep(d.Pilots[0]))
	said := strings.Join(words.PilotsNotes(d), "\n")
	assert.Contains(t, said, "level, next flight: in percent, now, in the category of the row, where another is named in that: the highest one flown in ")
	d.Pilots[0].Category = "intermediate"
	assert.Equal(t, "67%", words.PilotLevel(d.Pilots[0]))
	assert.Equal(t, "advanced: zeros", words.PilotStep(d.Pilots[0]))
	assert.Contains(t, strings.Join(words.PilotsNotes(d), "\n"), "in the category of the row; four times")
}

// Notes explain the columns that are shown alone.
func TestPilotsNotesOfShownColumns(t *testing.T) {
	said := strings.Join(words.PilotsNotes(answers.Pilots{Pilots: []answers.PilotLine{{Pilot: "ines"}}}), "\n")
	for _, column := range []string{"trend:", "drill: open", "level:", "next flight"} {
		assert.NotContains(t, said, column)
	}
	p := answers.PilotLine{Pilot: "ines", Word: answers.CannotTell, Drills: []string{"radius"}, Level: answers.Level{Percent: report.Float(70), Low: report.Float(68), High: report.Float(72), Confidence: report.Float(.8), On: "2026-07-21", Qualified: []code.Reason{code.TooLongAfter}}}
	said = strings.Join(words.PilotsNotes(answers.Pilots{Pilots: []answers.PilotLine{p}}), "\n")
	for _, column := range []string{"trend:", "drill: open", "level: in percent, now or on the day named, in the category of the row"} {
		assert.Contains(t, said, column)
	}
	assert.NotContains(t, said, "next flight", "of long ago there is none")
}
