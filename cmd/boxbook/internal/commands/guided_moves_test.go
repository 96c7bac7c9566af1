package commands

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// figuresAsked begins the figures of a sequence, and answers the first three.
func figuresAsked(t *testing.T) (k *talk, path string) {
	t.Helper()
	dir, path := ledgerIn(t, "pilot ines\n")
	k = startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	for n, figure := range []string{"K 14", "K 9", "K 8"} {
		k.answer([]string{"figure 1", "figure 2", "figure 3"}[n], figure)
	}
	return k, path
}

// TestFiguresAreMovedAsRowsAre takes the number of a figure behind insert and remove, from
// whatever figure is asked for; says which figures there are; and ends no sequence at the
// place that was made, with figures behind it.
func TestFiguresAreMovedAsRowsAre(t *testing.T) {
	k, path := figuresAsked(t)
	k.answer("figure 4, or Enter for none: ", "insert")
	k.expect("nothing stands at figure 4")
	k.answer("figure 4, or Enter for none: ", "insert 9")
	k.expect("there is no figure 9 yet; the figures are 1 to 3")
	k.answer("figure 4, or Enter for none: ", "remove 9 ")
	k.expect("there is no figure 9 yet; the figures are 1 to 3")
	k.answer("figure 4, or Enter for none: ", "remove K 9")
	k.expect("remove and a figure's number: remove 4")
	k.answer("figure 4, or Enter for none: ", "insert 2")
	k.answer("figure 2: ", "")
	k.expect("others stand behind it: type this figure, or remove takes its place out")
	k.answer("figure 2: ", "-")
	k.expect("others stand behind it")
	k.answer("figure 2: ", "remove")
	k.expect("the empty place is taken out")
	k.answer("figure 2, or Enter for none: K 9", "insert")
	k.answer("figure 2: ", "K 12")
	k.answer("figure 3, or Enter for none: K 9", "remove 1")
	k.expect("taken out: K 14")
	k.answer("figure 1: K 12", "insert 1 K 14")
	k.answer("figure 2, or Enter for none: K 12", "")
	k.answer("figure 3, or Enter for none: K 9", "insert 2 K 10")
	k.answer("figure 2, or Enter for none: K 10", "")
	k.answer("figure 3, or Enter for none: K 12", "")
	k.answer("figure 4, or Enter for none: K 9", "")
	k.answer("figure 5, or Enter for none: K 8", "")
	k.answer("figure 6, or Enter for none: ", "")
	for _, question := range []string{"the K of positioning", "the K of harmony", "the total K"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            K 14\n  2            K 10\n  3            K 12\n  4            K 9\n  5            K 8\n")
}

// TestFiguresOfAFlagStay says so, and loses none of them.
func TestFiguresOfAFlagStay(t *testing.T) {
	dir, _ := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20",
		"--figure", "K 14", "--figure", "K 9z", "--figure", "K 8")
	k.answer("a short name", "free-26")
	k.answer("K 9z", "insert K 12")
	k.expect("the figures were given by --figure, and stay where they are")
	k.answer("K 9z", "remove 1")
	k.expect("the figures were given by --figure, and stay where they are")
	k.key("\x03")
	k.exit()
}

// TestRulingsFollowTheirFigures has a ruling name the figure of its marks when rows are
// moved, lets it go with marks that are taken out, and asks again.
func TestRulingsFollowTheirFigures(t *testing.T) {
	k, path := marksAsked(t, "")
	k.answer(" 1  K 10  loop: ", "hz 8")
	k.answer(" 2  K 12  roll: ", "hz 7") // of the spin
	k.answer(" 3  K 8   spin: ", "5 5")  // of positioning
	k.answer("positioning: ", "6 6")
	k.answer("a penalty", "")
	k.answer("a ruling", "1 zero")
	k.answer("a ruling", "2 fill")
	k.answer("a ruling", "back row 2")
	k.answer(" 2  K 12  roll: hz 7", "insert")
	k.expect("no row is left for what stood at positioning: 6 6")
	k.expect("the ruling on figure 2 follows its marks: 3 fill")
	k.answer(" 2  K 12  roll: ", "8 8")
	k.answer(" 3  K 8   spin: hz 7", "")
	k.answer("positioning: 5 5", "")
	k.answer("a penalty", "")
	k.answer("a ruling of the chief judge, such as 1 zero, or Enter for none: 1 zero", "")
	k.answer("a ruling of the chief judge, or Enter for no more: 3 fill", "back row 1")
	k.answer(" 1  K 10  loop: hz 8", "remove")
	k.expect("the ruling on figure 1 went with its marks: 1 zero")
	k.expect("the ruling on figure 3 follows its marks: 2 fill")
	k.answer(" 1  K 10  loop: 8 8", "")
	k.answer(" 2  K 12  roll: hz 7", "")
	k.answer(" 3  K 8   spin: 5 5", "")
	k.answer("positioning: ", "6 6")
	k.answer("a penalty", "")
	k.answer("a ruling of the chief judge, such as 2 zero, or Enter for none: 2 fill", "")
	k.answer("a ruling of the chief judge, or Enter for no more: ", "")
	for _, question := range []string{"the official", "the place", "the field", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  resolve      2 fill\n")
}

// TestRulingsOfAFlagAreHeldAgainstTheMarksAgain moves a flag's ruling that was taken with
// its figure, and takes one that has not been asked for as it is.
func TestRulingsOfAFlagAreHeldAgainstTheMarksAgain(t *testing.T) {
	dir, path := ledgerIn(t, threeFigures)
	k := startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--resolve", "2 zero")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 hz") // of the roll
	k.answer(" 2  K 12  roll: ", "insert 1")
	k.answer(" 1  K 10  loop: ", "8 8")
	k.answer(" 2  K 12  roll: 8 hz", "")
	k.answer(" 3  K 8   spin: ", "7 hz")
	k.answer("positioning: ", "7 7")
	k.answer("a penalty", "") // the ruling is taken
	k.answer("the official", "back row 1")
	k.answer(" 1  K 10  loop: 8 8", "remove")
	k.expect("the ruling on figure 2 follows its marks: 1 zero")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())

	k = startTalk(t, filepath.Dir(path), "log", "flight")
	k.answer("continue with it?", "")
	k.answer(" 1  K 10  loop: 8 hz", "")
	k.answer(" 2  K 12  roll: 7 hz", "back 1")
	k.answer(" 1  K 10  loop: 8 hz", "8 8")
	k.answer(" 2  K 12  roll: 7 hz", "")
	k.answer(" 3  K 8   spin: 7 7", "")
	k.answer("positioning: ", "7 7")
	k.answer("a penalty", "")
	k.expect("a ruling of the chief judge, such as 2 zero, or Enter for none: 1 zero")
	k.key("\x03")
	k.exit()
}

// TestARulingIsAskedAgainWhereItsMarksChange holds a flag's ruling that was taken against
// the marks of a sheet that were typed anew.
func TestARulingIsAskedAgainWhereItsMarksChange(t *testing.T) {
	dir, _ := ledgerIn(t, threeFigures)
	k := startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--resolve", "1 zero")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", "sheet")
	k.answer("sheet A, figures 1 to 3, positioning: ", "hz 7 7 7")
	k.answer("sheet B, figures 1 to 3, positioning: ", "8 8 8 8")
	k.answer("a penalty", "")
	k.answer("the official", "back A")
	k.answer("positioning: hz 7 7 7", "insert 1 8")
	k.answer("positioning: 8 hz 7 7", "")
	k.answer("sheet B, figures 1 to 3, positioning: 8 8 8 8", "")
	k.answer("a penalty", "")
	k.expect("the marks have changed here since this was answered")
	k.expect("nothing is undecided")
	k.key("\x03")
	k.exit()
}
