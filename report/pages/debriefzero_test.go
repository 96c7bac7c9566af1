package pages

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
)

// A figure that came to 0 is said by its marks: a hard zero, a perception zero, or
// 0.0, which is a grade.
func TestDebriefTellsZerosApart(t *testing.T) {
	for marks, want := range map[string]string{
		"0 0 0":    "graded 0.0 by every judge, which is not a hard zero",
		"PZ PZ PZ": "perception zero from every judge",
		"HZ HZ HZ": "hard zero from every judge who gave a mark",
		"HZ HZ 7":  "hard zero from 2 of the 3 judges who gave a mark, more than half: 0 from every judge",
		"PZ 0 0":   "0 from every judge, not all of them the same kind of zero",
	} {
		l := faultBook(t, "pilot ines\nsequence s\n  1 K 10\n  2 K 12\nflight 2026-04-18 ines known\n  sequence s\n  panel A B C\n  1 7 7 7\n  2 "+marks+"\n")
		text := textOf(t, Debrief(answers.DebriefOf(l, l.Flights[0])))
		assert.Contains(t, strings.Join(strings.Fields(text), " "), "figure 2: 120.00 points lost; "+want+"; the reason is not in the ledger", marks)
	}
}
