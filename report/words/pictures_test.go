package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"
)

// TestStakeNames holds that a row is of one family alone only where its kind has no
// other row.
func TestStakeNames(t *testing.T) {
	kind := func(kind, says, group string) answers.FaultKind {
		return answers.FaultKind{Kind: kind, Says: says, Group: group, Points: report.Int(90)}
	}
	rows := []answers.FaultKind{
		kind("line-angle", "line at the wrong angle", "1"), kind("bank", "bank off", "2-rolling"),
		kind("radius", "radius changed", "7"), kind("line-angle", "line at the wrong angle", "7"), kind("radius", "radius changed", ""),
	}
	var names []string
	for _, row := range rows {
		names = append(names, words.StakeName(row, rows))
	}
	assert.Equal(t, []string{
		"line at the wrong angle (noted in lines and angles)", "bank off (noted in rolling turns alone)",
		"radius changed (noted in loops, part loops and eights)", "line at the wrong angle (noted in loops, part loops and eights)", "radius changed",
	}, names)
	assert.Equal(t, "Most at stake: line at the wrong angle (noted in lines and angles), 90.00 points as noted.", words.StakeFinding(rows[0], rows))
}

// The picture of the families says what its signs are, beside a sentence with percents as
// flown: the lowest of these need not be the lowest sign.
func TestFamiliesPictureSaysWhatItShows(t *testing.T) {
	key := words.LevelKey(answers.Families{Limits: answers.FamiliesLimits{Confidence: report.Float(.9)}})
	assert.Equal(t, []string{
		"Signs: the adjusted percent, each figure once however often it was flown, without zeros and what chance explains; the percent as flown is another.",
		"Bars: its range at 90% confidence.",
	}, key)
}
