package words_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// The end of a reconciliation: how many marks fit, how often chance would, and
// what to do, one's own paper first.
func TestOfficialFoot(t *testing.T) {
	const end = "First compare these marks with your paper sheets: your own typing is the likelier slip. " +
		"Then ask the contest's office at once; time limits for protests are short and set by the rules in force."
	chance := func(kind string, share float64) answers.Chance {
		return answers.Chance{Kind: kind, Share: report.Float(share)}
	}
	for _, c := range []struct {
		official answers.Official
		want     string
	}{
		{answers.Official{}, end},
		{
			answers.Official{Fits: 1, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMark}}, Chances: []answers.Chance{chance("mark", .02)}},
			"1 mark would fit. By chance alone a single misread mark would explain about one in 50 of the wrong totals that are this near: the rarer, the better the clue. " + end,
		},
		{answers.Official{
			Fits: 5, Coarse: true, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMark}},
			Chances: []answers.Chance{chance("penalty", .1), chance("mark", .72), chance("k", 1)},
		}, "5 marks would fit, each alone. Printed too coarsely to tell; chance alone often fits: a penalty about one in ten, " +
			"a single misread mark about seven in ten and another K nearly all of the wrong totals that are this near: the rarer, the better the clue. " + end},
		{
			answers.Official{Coarse: true, Explanations: []answers.Explanation{{Kind: answers.ExplainedByRows}}},
			"Printed too coarsely to tell; chance alone often fits. " + end,
		},
		{
			answers.Official{Fits: 15, Explanations: []answers.Explanation{{Kind: answers.ExplainedByMarks}}, Chances: []answers.Chance{chance("marks", .0001)}},
			"15 pairs of marks would fit. By chance alone two misread marks would explain less than one in 1000 of the wrong totals that are this near: the rarer, the better the clue. " + end,
		},
	} {
		assert.Equal(t, c.want, words.OfficialFoot(&c.official))
	}
}

// Until a protest is probably out of time the office is asked at once; then the
// page says so.
func TestProtestProbablyTooLate(t *testing.T) {
	for days, late := range map[int]bool{0: false, answers.ProtestDays: false, answers.ProtestDays + 1: true} {
		foot := words.OfficialFoot(&answers.Official{Days: &days})
		assert.Equal(t, !late, strings.Contains(foot, "office at once"), days)
		assert.Equal(t, late, strings.Contains(foot, fmt.Sprintf("after %d days the time limits for protests, set by the rules in force, have probably passed", days)), days)
		assert.Contains(t, foot, "your own typing is the likelier slip")
	}
}

// [derived], by hand: 10 x 7.25 and 11 x 6.125 are 139.875, shown as 139.88. Cut off
// it is 139.87, and two lines rounded each may leave a cent; two cents are too many.
func TestRoundingIsNoSlip(t *testing.T) {
	s := sheet{rows: []string{"10: 7 7.5 7 7.5", "11: 6 6 6 6.5"}}
	const said = "a rounding of each figure's points, or decimals cut off, can leave as much"
	for official, rounded := range map[string]bool{"139.87": true, "139.89": true, "139.86": true, "139.85": false, "139.91": false, "139.7": false} {
		d := s.answer(t, official)
		assert.False(t, *d.Official.Agrees, official)
		assert.Equal(t, rounded, strings.Contains(words.OfficialSentence(d), said), "%s: %s", official, words.OfficialSentence(d))
	}
	assert.Contains(t, words.OfficialSentence(s.answer(t, "139.88")), "agrees")
}

// What is to be looked at first is what the difference may lie in: marks that the
// judges' own totals confirm are not it, nor is a mark where a penalty explains it.
func TestWhatToCompareFirst(t *testing.T) {
	assert.Contains(t, words.OfficialFoot(&answers.Official{Judges: []answers.OfficialJudge{{Agrees: true}}}),
		"The printed totals of the judges confirm the marks as typed: look at the sum, the penalties and the total as you typed it. Then ask")
	assert.Contains(t, words.OfficialFoot(&answers.Official{Judges: []answers.OfficialJudge{{Agrees: true}, {}}}), "your own typing is the likelier slip")
	assert.Contains(t, words.OfficialFoot(&answers.Official{Explanations: []answers.Explanation{{Kind: answers.ExplainedByPenalty}}}),
		"First compare the penalties with your paper sheets. Then ask")
}
