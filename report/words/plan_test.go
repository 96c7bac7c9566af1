package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// Neighbours that are not told apart are named.
func TestPlanSentences(t *testing.T) {
	item := func(group string, apart bool) answers.PlanItem {
		return answers.PlanItem{Group: group, Gain: report.Float(1), Low: report.Float(0), High: report.Float(2), Apart: apart}
	}
	d := answers.Plan{Sequence: "known-26", Items: []answers.PlanItem{item("7", false), item("5", true), item("1", true)}}
	assert.Equal(t, "The next points are in 7 loops, part loops and eights: about 1.0 percent points on known-26, if it is flown as its best quarter was. The first and the second are not told apart.", words.PlanSentence(d))
	assert.Equal(t, "1 and 2: not told apart, their intervals overlap by more than half", words.PlanNotes(d)[0])
	d.Items[0].Apart = true
	assert.NotContains(t, words.PlanSentence(d), "not told apart")
	assert.Len(t, words.PlanNotes(d), 1)
}

// What a gain rests on, and how sure it is, follow from the numbers of the answer.
func TestPlanEvidence(t *testing.T) {
	d := answers.Plan{Confidence: report.Float(.95), Items: []answers.PlanItem{{
		Group: "7", Gain: report.Float(1.26), Low: report.Float(0), High: report.Float(2), Level: report.Float(71.4), Best: report.Float(78.6),
		Share: report.Float(.234), LostPerFlight: report.Float(33.3), Figures: 1,
	}}}
	said := words.SayPlan(d)
	assert.Equal(t, "now about 71 %, own best quarter about 79 %, 23 % of the next sequence's K, 33 points lost a flight, 1 figure", said.Items[0].Evidence)
	assert.Empty(t, d.Items[0].Evidence)
	assert.Equal(t, "1.3 percent points (0.0 to 2.0, 95 % sure)", words.GainWords(d, d.Items[0]))
	assert.Equal(t, said, words.SayPlan(said))
}

// What is lacking is said with its own numbers.
func TestPlanLacks(t *testing.T) {
	for want, lack := range map[string]answers.Lack{
		"1 contest flight with marks (2 more with an official total only); at least six are needed": {Reason: code.FewFlights, Flights: 1, Least: 6, Bare: 2},
		"1 family was flown; at least two are needed":                                               {Reason: code.FewFamilies, Families: 1, LeastFamilies: 2},
		"no family has two figures":                                                                 {Reason: code.NoTwoFigures},
		"no family's best quarter lies above its level beyond chance":                               {Reason: code.NoRise},
	} {
		d := words.SayPlan(answers.Plan{Lack: &lack})
		assert.Equal(t, want, d.Why)
		assert.Equal(t, "Cannot tell where the next points are: "+want+".", words.PlanSentence(d))
	}
}
