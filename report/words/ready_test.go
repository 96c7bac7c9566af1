package words_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
	"boxbook/report/words"
	"boxbook/season/analysis/code"
)

// Ready is said of the record, and of nothing else.
func TestReadySentence(t *testing.T) {
	gates := []answers.Gate{{State: code.Met}, {State: code.Met}}
	d := answers.Ready{From: "sportsman", To: "intermediate", Verdict: code.Ready, Gates: gates}
	assert.Equal(t, "By this record, ready for intermediate: 2 of 2 gates met, 0 not met, 0 cannot be told.", words.ReadySentence(d))
	d.Gates = append(d.Gates, answers.Gate{State: code.CannotTell})
	d.Verdict = code.CannotTell
	assert.Equal(t, "Cannot tell: 2 of 3 gates met, 0 not met, 1 cannot be told.", words.ReadySentence(d))
	d.Gates = append(d.Gates, answers.Gate{State: code.NotMet})
	d.Verdict = code.NotYet
	assert.Equal(t, "Not yet: 2 of 4 gates met, 1 not met, 1 cannot be told.", words.ReadySentence(d))
}
