package commands

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pilotsBook is what the conversations here begin with.
const pilotsBook = "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10 \"loop\"\n  2 K 12 \"roll\"\n  3 K 9\n"

// TestARowThatWasCutOffIsReplacedLater goes on with half a row once: after that it is an
// answer like any other, which typing replaces.
func TestARowThatWasCutOffIsReplacedLater(t *testing.T) {
	dir, path := ledgerIn(t, pilotsBook)
	flags := []string{"log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "-", "--programme", "known", "--sequence", "s", "--panel", "A B C", "--asof", "2026-04-20"}
	k := startTalk(t, dir, flags...)
	k.answer("marks by figure", "")
	k.expect(" 1  K 10  loop: ")
	k.key("8 6 \x03")
	require.Equal(t, exitInterrupted, k.exit())

	k = startTalk(t, dir, "log", "flight", "--asof", "2026-04-20")
	k.answer("continue with it?", "")
	k.expect("8 6")
	k.key(" 8.5\r")
	k.answer(" 2  K 12  roll: ", "back")
	k.answer("8 6 8.5", "6.5 6 7")
	k.answer(" 2  K 12  roll: ", "7 7 7")
	k.answer(" 3  K 9", "8 8 8")
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            6.5  6    7\n")
}

// TestSoloPracticeHasNoJudges logs a practice flight that nobody graded: no judges, no
// marks, and a note says that it was flown. None is nobody's name, in a contest neither.
func TestSoloPracticeHasNoJudges(t *testing.T) {
	for _, nobody := range []string{"", "-", "none"} {
		dir, path := ledgerIn(t, twoFigures)
		k := startTalk(t, dir, "log", "practice", "--sequence", "s", "--date", "2026-04-20", "--asof", "2026-04-20")
		k.answer("the pilot [ines]: ", "")
		k.answer("the judges, in the order of the marks, such as A B, or Enter for none: ", nobody)
		k.answer("a video", "")
		k.answer("a note", "")
		k.expect("this is needed")
		k.answer("a note", "twice through, alone")
		k.answer("a note, or Enter for no more", "")
		k.answer("write it?", "y")
		require.Equal(t, exitDone, k.exit(), k.everything())
		require.NotContains(t, k.everything(), "marks by figure")
		require.Contains(t, textOf(t, path), "flight 2026-04-20 ines practice\n  sequence     s\n  note         \"twice through, alone\"\n")
	}
	dir, _ := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "-", "--asof", "2026-04-20")
	k.answer("the programme", "known")
	k.answer("the judges", "none")
	k.expect("this is needed")
	k.answer("the judges", "A")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "-") // nothing on the one sheet
	k.expect("2  K 12  roll: ")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())

	k = startTalk(t, dir, "log", "practice", "--sequence", "s", "--date", "2026-04-20", "--pilot", "ines", "--row", "8", "--asof", "2026-04-20")
	k.answer("the judges", "none")
	k.expect("this is needed") // for the marks that were given
	k.key("\x03")
	k.exit()
}

// TestBackToAFigure goes back to a figure by its number; what stands behind it is taken
// again by Enter, and the heading is not said again.
func TestBackToAFigure(t *testing.T) {
	dir, path := ledgerIn(t, strings.Replace(twoFigures, "\"roll\"\n", "\"roll\"\n  3 K 8\n", 1))
	k := startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "back 1")
	k.expect("nothing was answered for 1 yet")
	k.answer(" 1  K 10  loop: ", "8 7")
	k.answer(" 2  K 12  roll: ", "8 8")
	k.answer(" 3  K 8", "back 1")
	k.expect(" 1  K 10  loop: 8 7")
	k.key("7 7\r")
	k.expect(" 2  K 12  roll: 8 8")
	k.key("\r")
	k.answer(" 3  K 8", "9 9")
	k.answer("a penalty", "back 2")
	k.expect(" 2  K 12  roll: 8 8")
	k.key("\r")
	k.expect(" 3  K 8")
	k.key("\r")
	require.LessOrEqual(t, strings.Count(k.everything(), "judges: A B"), 2)
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            7    7\n  2            8    8\n  3            9    9\n")
}

// TestACostIsAskedOfTheContestNearest asks first what it was, since most costs belong to
// no contest; proposes the contest of the week first; says what the numbers behind names
// are, and does not ask whether each has the amount where shares divide it.
func TestACostIsAskedOfTheContestNearest(t *testing.T) {
	dir, _ := ledgerIn(t, "pilot ines\npilot milo\ncontest early 2024-05-11..2024-05-12\ncontest late 2026-05-09..2026-05-10\n")
	k := startTalk(t, dir, "log", "cost", "--asof", "2024-05-13")
	k.answer("what it was for", "fuel")
	k.answer("the amount", "90.00 EUR")
	k.answer("the contest it belongs to (early, late)", "early")
	k.answer("the date, such as 2026-04-18, or Enter for the contest's first day: ", "")
	k.answer("who it was for", "?")
	k.expect("shares, not amounts")
	k.answer("who it was for", "ines 2 milo 1")
	k.expect("who paid")
	require.NotContains(t, k.everything(), "whether each")
	k.key("\x03")
	k.exit()
}

// TestAForgottenFigureIsInserted goes back to the figure behind it and puts it there; the
// draft survives a stop right after.
func TestAForgottenFigureIsInserted(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	k.answer("figure 1", "insert K 14")
	k.expect("nothing stands here to insert it before; type it alone")
	k.answer("figure 1", "K 14")
	k.answer("figure 2", "?")
	k.expect(`insert 2 makes room at figure 2, insert 2 K 12 "humpty" offers it there`)
	k.answer("figure 2", "K 9")
	k.answer("figure 3", "K 8")
	k.answer("figure 4", "")
	k.answer("the K of positioning", "")
	k.answer("the K of harmony", "")
	k.answer("the total K", "43")
	k.expect("12 are missing: a figure left out, or a mistyped K?")
	k.expect(`"back" to the one behind it, then insert K 12`)
	for range 5 {
		k.answer(": ", "back")
	}
	k.expect("figure 2, or Enter for none: K 9")
	k.key("insert K 12z\r")
	k.expect("K 9")
	k.key("insert K 12 \"humpty\"\r")
	k.expect("figure 3, or Enter for none: K 9")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())

	k = startTalk(t, dir, "log", "sequence", "--asof", "2026-04-20")
	k.answer("continue with it?", "")
	k.answer("figure 3, or Enter for none: K 9", "")
	k.answer("figure 4, or Enter for none: K 8", "")
	k.answer("figure 5", "")
	k.answer("the K of positioning", "")
	k.answer("the K of harmony", "")
	k.answer("the total K", "43")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            K 14\n  2            K 12                   \"humpty\"\n  3            K 9\n  4            K 8\n")
}

// TestAFigureLeftOutIsNamedByItsK says how a figure is inserted where the printed total
// has more K than the lines, with the K that is missing, and of no other answer.
func TestAFigureLeftOutIsNamedByItsK(t *testing.T) {
	dir, _ := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	k.answer("figure 1", "K 14")
	k.answer("figure 2", "K 9")
	k.answer("figure 3", "")
	k.answer("the K of positioning", "10")
	k.answer("the K of harmony", "")
	for _, wrong := range []string{"abc", "20"} {
		k.answer("the total K", wrong)
	}
	k.expect("the total K")
	require.NotContains(t, k.everything(), "insert")
	k.key("K 45\r")
	k.expect("12 are missing, or 22 if it is the figures' alone: a figure left out, or a mistyped K?")
	k.expect("a figure left out: \"back\" to the one behind it, then insert K 12, or insert K 22\n")
	k.key("\x03")
	k.exit()
}

// TestAnOddNumberIsDoubtedOnce asks again for the K of a line that is more than all
// figures have, and for a panel of another number of judges than the contest's.
func TestAnOddNumberIsDoubtedOnce(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	k.answer("figure 1", "K 14")
	k.answer("figure 2", "K 9")
	k.answer("figure 3", "K 10")
	k.answer("figure 4", "")
	k.answer("the K of positioning", "34")
	k.expect("K 34 is more than all figures have together, 33 (type it again if it is right)")
	k.answer("the K of positioning", "23")
	k.answer("the K of harmony", "K 46")
	k.expect("K 46 is more than all figures have together, 33 (type it again if it is right)")
	k.answer("the K of harmony", "46")
	k.answer("the total K", "102")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  harmony      K 46\n")

	dir, path = ledgerIn(t, twoFigures)
	k = startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known")
	k.answer("[A B]: ", "A missing B")
	k.answer("[figure]: ", "back")
	k.expect("the judges")
	k.key("A\r")
	k.expect("the panel of spring has 2 judges, and this names 1 (type it again if it is right)")
	k.answer("[A B]: ", "A")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8")
	k.answer(" 2  K 12  roll: ", "8")
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  panel        A\n")
}

// TestAFigureThatNobodyGradedIsLeftOutOfPractice says so before it is written, by rows and
// by sheets; of a contest flight it says what would decide it.
func TestAFigureThatNobodyGradedIsLeftOutOfPractice(t *testing.T) {
	for name, marks := range map[string][]string{
		"rows":   {"--row", "7 7", "--row", "- -", "--row", "8 8"},
		"sheets": {"--sheet", "A 7 - 8", "--sheet", "B 7 - 8"},
	} {
		t.Run(name, func(t *testing.T) {
			dir, path := ledgerIn(t, pilotsBook)
			k := startTalk(t, dir, append([]string{"log", "practice", "--date", "2026-04-18", "--pilot", "ines", "--sequence", "s", "--panel", "A B", "--asof", "2026-04-20"}, marks...)...)
			for _, question := range []string{"a video", "a note"} {
				k.answer(question, "")
			}
			k.expect("Nobody has a mark for figure 2: not graded, and left out of what is written.")
			require.NotContains(t, k.everything(), "ndecided")
			k.answer("write it?", "y")
			require.Equal(t, exitDone, k.exit(), k.everything())
			require.Regexp(t, `\n  1 +7 +7\n  3 +8 +8\n$`, textOf(t, path))
		})
	}
	dir, _ := ledgerIn(t, pilotsBook)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-18", "--pilot", "ines", "--contest", "-", "--programme", "known", "--sequence", "s", "--panel", "A B", "--row", "7 HZ", "--row", "- -", "--row", "8 8", "--asof", "2026-04-20")
	for _, question := range []string{"a penalty", "a ruling", "the official", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.expect("write it?")
	said := k.everything()
	require.Contains(t, said, "The flight is undecided, and left out of every statistic.")
	require.Contains(t, said, "`resolve 1 zero` or `resolve 1 fill`")
	require.Contains(t, said, "`resolve 2 zero`")
	k.key("\x03")
	k.exit()
}

// TestAReviewIsProposedForWhatWaits offers the latest flight that nobody has reviewed, and
// names the flights that a beginning could mean.
func TestAReviewIsProposedForWhatWaits(t *testing.T) {
	flight := func(day, more string) string {
		return "\nflight " + day + " ines known\n  sequence s\n  panel A\n  1 7\n  2 8\n  3 7.5\n" + more
	}
	dir, _ := ledgerIn(t, pilotsBook+"\ncoach dorn\n"+flight("2026-04-17", "")+flight("2026-04-18", "")+strings.Replace(flight("2026-04-18", "  reviewed by dorn\n"), "known", "known 2", 1)+flight("2026-04-19", "  fault 1 radius by dorn\n"))
	k := startTalk(t, dir, "log", "review", "--asof", "2026-04-20")
	k.expect("the flight (2026-04-18/ines/known, 2026-04-17/ines/known")
	k.key("2026-04-18\r")
	k.expect("\"2026-04-18\" names 2 flights: 2026-04-18/ines/known, 2026-04-18/ines/known/2")
	k.key("\x03")
	k.exit()
}

// TestWhoPaidIsAskedInItsOwnWords says what Enter takes, and of a wrong answer that it is
// nobody.
func TestWhoPaidIsAskedInItsOwnWords(t *testing.T) {
	dir, _ := ledgerIn(t, pilotsBook)
	k := startTalk(t, dir, "log", "cost", "--date", "2026-04-18", "--kind", "fuel", "--for", "ines", "--asof", "2026-04-20")
	k.answer("the amount", "43 EUR")
	k.answer("the contest", "")
	k.expect("who paid")
	k.expect("or Enter for the first named")
	k.key("43\r")
	k.expect(`no pilot, coach or person is called "43"`)
	k.key("\x03")
	k.exit()
	t.Chdir(dir)
	s := readmeStreams(new(bytes.Buffer))
	require.Equal(t, exitUsage, run([]string{"log", "cost", "--date", "2026-04-18", "--kind", "fuel", "--amount", "43 EUR", "--for", "ines", "--by", "43"}, s))
}

// TestBackToAFigureFromFreeText goes back from a question that takes any text as well, and
// keeps text that only begins with that word; quotes around all of a note are none of it.
func TestBackToAFigureFromFreeText(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 7")
	k.answer(" 2  K 12  roll: ", "8 8")
	for _, question := range []string{"a penalty", "the official", "the place", "the field"} {
		k.answer(question, "")
	}
	k.answer("a video", "back 7")
	k.expect("nothing was answered for 7 yet")
	k.answer("a video", "back N")
	k.expect("nothing was answered for N yet")
	k.answer("a video", "back 2")
	k.expect(" 2  K 12  roll: 8 8")
	k.key("7 7\r")
	for _, question := range []string{"a penalty", "the official", "the place", "the field"} {
		k.answer(question, "")
	}
	k.answer("a video", "back seat.mp4")
	k.answer("a video", "")
	k.answer("a note", `"gusty, rushed"`)
	k.answer("a note", `"gusty", "rushed"`)
	k.answer("a note", "back to the old line")
	k.answer("a note", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	text := textOf(t, path)
	require.Contains(t, text, "  2            7    7\n")
	require.Contains(t, text, "  video        \"back seat.mp4\"\n")
	require.Contains(t, text, "  note         \"gusty, rushed\"\n  note         \"\\\"gusty\\\", \\\"rushed\\\"\"\n  note         \"back to the old line\"\n")
}
