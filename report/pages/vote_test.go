package pages

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"boxbook/report/answers"
)

// The words beside a row say what the scoring decided, under every rule for half
// of the judges.
func TestWordsOfHardZeros(t *testing.T) {
	const head = "pilot ines\nsequence s\n  category sportsman\n  1 K 10\nrules ours\n  hard-zero majority\n  half "
	for _, c := range []struct{ half, marks, want string }{
		{"fill", "HZ HZ 7 8", "hard zero from 2 of the 4 judges who gave a mark, exactly half, which the rule style fills: filled with 7.50"},
		{"zero", "HZ HZ 7 8", "hard zero from 2 of the 4 judges who gave a mark, exactly half: the rule style makes it 0"},
		{"undecided", "HZ HZ 7 8", "hard zero from 2 of the 4 judges who gave a mark, exactly half: undecided until `resolve` records the chief judge's ruling"},
		{"fill", "HZ AV 7 8", "hard zero from 1 of the 3 judges who gave a mark, a minority; not seen by 1 judge: filled with 7.50"},
		{"zero", "HZ HZ AV 8", "hard zero from 2 of the 3 judges who gave a mark, more than half: 0 from every judge"},
		{"fill", "AV 7 7 8", "not seen by 1 judge: filled with 7.33"},
		{"fill", "- - - -", "no judge gave a mark: undecided, from 0 to full marks, until `resolve` records a ruling"},
	} {
		l := faultBook(t, head+c.half+"\nflight 2026-05-01 ines known\n  sequence s\n  rules ours\n  panel A B C D\n  1 "+c.marks+"\n")
		assert.Contains(t, oneLine(textOf(t, Flight(answers.FlightOf(l.Flights[0]), FlightOptions{}))), "figure 1: "+c.want, c.marks)
	}
}
