package commands

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestARefusedFigureStandsOnTheLineAgain ends no sequence by the Enter that follows a
// figure that was refused.
func TestARefusedFigureStandsOnTheLineAgain(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	k.answer("figure 1: ", "insert K 14")
	k.answer("figure 1: K 14", "")
	k.answer("figure 2, or Enter for none: ", `1.2.6.1:10, 9.11.1.4:3 "spin"`)
	k.answer(`figure 2, or Enter for none: 1.2.6.1:10, 9.11.1.4:3 "spin"`, "")
	k.expect("(- in its place leaves it out)")
	k.answer(`1.2.6.1:10, 9.11.1.4:3 "spin"`, `1.2.6.1:10 9.11.1.4:3 "spin"`)
	k.answer("figure 3, or Enter for none: ", "7.4.1.1:10 loop")
	k.expect("figure 3, or Enter for none: 7.4.1.1:10 loop")
	k.key("\x03") // a draft keeps it
	require.Equal(t, exitInterrupted, k.exit(), k.everything())

	k = startTalk(t, dir, "log", "sequence", "--asof", "2026-04-20")
	k.answer("continue with it?", "")
	k.expect(`so far: K 14; 1.2.6.1:10 9.11.1.4:3 "spin"`)
	k.answer("figure 3, or Enter for none: 7.4.1.1:10 loop", "")
	k.answer("figure 3, or Enter for none: 7.4.1.1:10 loop", "-")
	k.answer("the K of positioning", "a 20")
	k.answer("the K of positioning, such as 20, or Enter for none: a 20", "20")
	k.answer("the K of harmony", "")
	k.answer("the total K", "48")
	k.answer("the total K, as printed, such as 14, or Enter for none: 48", "47")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            K 14\n  2            1.2.6.1:10 9.11.1.4:3   \"spin\"\n  positioning  K 20\n  total        K 47\n")
}

// TestWhatStandsBeneathTheMarksIsNotLeftOutByASlip has a refused penalty, total and place
// on the line again.
func TestWhatStandsBeneathTheMarksIsNotLeftOutByASlip(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s", "--row", "8 7", "--row", "7 7", "--panel", "A B", "--asof", "2026-05-01")
	k.answer("a penalty", "lo 20")
	k.answer("a penalty, such as low 20, or Enter for none: lo 20", "low 20")
	k.answer("a penalty, or Enter for no more: ", "")
	k.answer("the official total", "100,5x")
	k.answer("or Enter for none: 100,5x", "-")
	k.answer("the place", "3 from 9")
	k.answer("or Enter for none: 3 from 9", "3 of 9")
	k.answer("the field", "")
	k.answer("a video", "")
	k.answer("a note", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "place        3 of 9")
}

// TestADraftSaysWhatAListHas says the penalties that a draft has where their question is
// asked again, once.
func TestADraftSaysWhatAListHas(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s", "--row", "8 7", "--row", "7 7", "--panel", "A B", "--asof", "2026-05-01")
	k.answer("a penalty", "low 20")
	k.expect("a penalty, or Enter for no more: ")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())
	require.NotContains(t, k.everything(), "so far")

	k = startTalk(t, dir, "log", "flight", "--asof", "2026-05-01")
	k.answer("continue with it?", "")
	k.expect("so far: low 20")
	k.answer("a penalty, or Enter for no more: ", "out 30")
	k.answer("a penalty, or Enter for no more: ", "")
	for _, question := range []string{"the official", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.NotContains(t, k.everything(), "so far: low 20; ")
	require.Contains(t, textOf(t, path), "penalty      low 20\n  penalty      out 30\n")
}
