package words_test

import (
	"math/big"
	"testing"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/words"

	"github.com/stretchr/testify/assert"
)

// TestReachedFromTheMarks: what a target takes is said to be counted from the marks where
// the official total is another, and what lacks from that.
func TestReachedFromTheMarks(t *testing.T) {
	points := func(tenths int64) report.Number { return report.Exact(big.NewRat(tenths, 10)) }
	d := answers.WhatIf{
		After: answers.WhatScore{Points: points(9411)}, Official: points(9271),
		Reach: &answers.WhatItTakes{Winner: true, Points: points(9505), Behind: points(234)},
	}
	const counted = "what it takes is counted from the marks, 941.10 points; the official total is 927.10"
	assert.Equal(t, []string{counted + ", and from that 23.40 points are lacking instead of 9.40"}, words.WhatIfNotes(d))
	d.Reach.Behind = report.Number{}
	assert.Equal(t, []string{counted}, words.WhatIfNotes(d))
	d.Official = report.Number{}
	assert.Empty(t, words.WhatIfNotes(d))
}
