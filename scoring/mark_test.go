package scoring_test

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/scoring"
)

// [common practice]: the symbols as judges write them.
func TestMarkString(t *testing.T) {
	for mark, want := range map[scoring.Mark]string{
		scoring.GradeOf(0):                "0.0",
		scoring.GradeOf(1):                "0.5",
		scoring.GradeOf(15):               "7.5",
		scoring.GradeOf(16):               "8.0",
		scoring.GradeOf(scoring.TopGrade): "10.0",
		{Kind: scoring.HardZero}:          "HZ",
		{Kind: scoring.ConfirmedHardZero}: "CHZ",
		{Kind: scoring.PerceptionZero}:    "PZ",
		{Kind: scoring.NotSeen}:           "AV",
		{Kind: scoring.Absent}:            "-",
	} {
		assert.Equal(t, want, mark.String())
	}
}

// Every grade is written as the number it is, and no two marks alike.
func TestMarkStringsDiffer(t *testing.T) {
	seen := map[string]bool{}
	for half := 0; half <= scoring.TopGrade; half++ {
		text := scoring.GradeOf(half).String()
		assert.Equal(t, strconv.FormatFloat(float64(half)/2, 'f', 1, 64), text)
		seen[text] = true
	}
	for _, kind := range markKinds {
		seen[scoring.Mark{Kind: kind}.String()] = true
	}
	assert.Len(t, seen, scoring.TopGrade+1+5)
}

// Only a hard zero in a row leaves a style open, at exactly half, and a row
// without any mark; the majority principle: [memory].
func TestOpenAndHasNumber(t *testing.T) {
	halfZero := scoring.Style{Half: scoring.HalfZero}
	for _, test := range []struct {
		marks           string
		style           scoring.Style
		open, hasNumber bool
	}{
		{"8.0 7.0", panelMean, false, true},
		{"8.0 HZ", panelMean, true, true},
		{"8.0 HZ AV", panelMean, true, true},
		{"PZ HZ", panelMean, true, true},
		{"8.0 HZ 7.0", panelMean, false, true},
		{"8.0 HZ HZ", panelMean, false, true},
		{"8.0 HZ", halfZero, false, true},
		{"8.0 HZ", asGraded, false, true},
		{"8.0 HZ CHZ", panelMean, false, true},
		{"HZ HZ", panelMean, false, false},
		{"HZ HZ", asGraded, false, true},
		{"CHZ AV", asGraded, false, false},
		{"AV -", panelMean, true, false},
		{"AV -", halfZero, true, false},
		{"AV -", asGraded, true, false},
	} {
		marks := figure(10, test.marks).Marks
		assert.Equal(t, test.open, scoring.Open(marks, test.style), "%s open", test.marks)
		assert.Equal(t, test.hasNumber, scoring.HasNumber(marks, test.style), "%s has a number", test.marks)
	}
}
