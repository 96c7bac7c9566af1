package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

var familiesLimits = answers.FamiliesLimits{TrendLimits: trendLimits, Chance: report.Float(.1), Families: 3, Confidence: report.Float(.9)}

// What is flat, and what cannot be told from chance, is counted.
func TestMovingSentence(t *testing.T) {
	families := func(said ...answers.TrendWord) answers.Families {
		d := answers.Families{Limits: familiesLimits}
		for _, word := range said {
			d.Groups = append(d.Groups, answers.Group{Group: "7", Trend: answers.Trend{Word: word}})
		}
		return d
	}
	assert.Equal(t, "No family's trend can be told from chance.", words.MovingSentence(families(answers.CannotTell, answers.TooFew)))
	assert.Equal(t, "Flat against the rest, within 3 points either way: 1 family.", words.MovingSentence(families(answers.Flat, answers.TooFew)))
	assert.Equal(t, "Flat against the rest, within 3 points either way: 1 family. No other family's trend can be told from chance.",
		words.MovingSentence(families(answers.Flat, answers.CannotTell)))
	assert.Equal(t, "Not ruled out as chance: spins may be declining (-4.2 points; chance alone gives this about one season in 7).", words.MovingSentence(answers.Families{Groups: []answers.Group{
		{Group: "spins", Trend: answers.Trend{N: 6, P: report.Float(0.13), Season: report.Float(-4.2), Word: answers.MayDecline}},
		{Group: "7", Trend: answers.Trend{Word: answers.TooFew}},
	}}))
}

// The note says whose change crosses a gap where not all do, and how sure
// ranges are where they differ.
func TestFamilyTrendNotesOfSome(t *testing.T) {
	group := func(key string, confidence, gap float64) answers.Group {
		return answers.Group{Group: key, Trend: answers.Trend{
			N: 6, Season: report.Float(1), Confidence: report.Float(confidence), LongestGap: report.Float(gap), Word: answers.CannotTell,
		}}
	}
	d := answers.Families{Limits: familiesLimits, Groups: []answers.Group{group("7", 0.9167, 200), group("5", 0.98, 30)}}
	assert.Equal(t, "7 loops, part loops and eights: the change is drawn across a gap of up to 200 days without a flight that can be compared", words.GapNote(d))
	assert.Equal(t, "from, to: the range of the change, between 91 % and 98 % sure", words.ConfidenceNote(d))
}

// What the levels lack is said by its reason.
func TestLevelsThatCannotBeCompared(t *testing.T) {
	for reason, want := range map[answers.FamiliesReason]string{
		answers.FewFamilies:  "2 families were flown; at least three are needed.",
		answers.NoTwoFigures: "no family has two figures.",
		answers.NoScatter:    "within each family the figures never differ against their flight, so that nothing can be said of chance.",
	} {
		d := answers.Families{Groups: make([]answers.Group, 2), Reason: reason, Limits: familiesLimits}
		assert.Equal(t, "The levels of the families cannot be compared: "+want, words.WeakSentence(d))
	}
}
