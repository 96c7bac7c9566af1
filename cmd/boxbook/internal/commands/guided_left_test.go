package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestAnotherAnswerAtTheJudgesTotals says that a place and the flight's total are none of
// the judges', and leaves the question by Enter.
func TestAnotherAnswerAtTheJudgesTotals(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--sequence", "s", "--programme", "known",
		"--panel", "A B", "--row", "8 8", "--row", "7 7", "--penalty", "low 6")
	k.answer("the official total", "158")
	k.answer("the judges' totals", "158,0")
	k.expect("158,0 is the flight's total; here each judge's is meant, 2 in the order of the panel")
	k.answer("the judges' totals", "\x152/9")
	k.expect("2 of 9 is a place, which is asked for next; here each judge's total is meant")
	k.answer("the judges' totals", "")
	k.expect("2 of 9 is a place")
	k.expect("(it is not taken; Enter leaves it out)")
	k.answer("or Enter for none: ", "")
	k.answer("the place", "2 of 9")
	for _, question := range []string{"the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  official     158\n  place        2 of 9\n")
}

// TestARefusedTextIsLeftByEnter asks plainly where Enter sends again what was refused, of
// one answer and of a list.
func TestARefusedTextIsLeftByEnter(t *testing.T) {
	dir, path := ledgerIn(t, springFlown+"\ncoach otto\n")
	k := startTalk(t, dir, "log", "review")
	k.answer("the flight", "last")
	k.answer("the coach", "otto")
	k.answer("a fault", "1 nosuch")
	k.answer("a fault", "")
	k.expect("(- in its place leaves it out)")
	k.answer("a fault", "")
	k.expect("(it is not taken; Enter leaves it out)")
	k.answer("a fault, such as 1 timing felt at 1:12, or Enter for none: ", "")
	k.answer("a video", "")
	k.answer("a note", "wings level late")
	k.answer("a note", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.NotContains(t, textOf(t, path), "nosuch")
}
