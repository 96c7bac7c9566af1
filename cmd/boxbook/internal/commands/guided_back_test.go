package commands

import (
	"path/filepath"
	"strings"
	"testing"

	"boxbook/cmd/boxbook/internal/entry"

	"github.com/stretchr/testify/require"
)

// eachFreeText runs the conversation of each kind that has a free text, and gives what is
// typed at each such question; before is what the question before it asks for.
func eachFreeText(t *testing.T, typed func(before, keys string) string, then func(kind *entry.Kind, whole, text string, asked int)) {
	t.Helper()
	asked := 0
	for _, kind := range entry.Kinds() {
		t.Run(kind.Name, func(t *testing.T) {
			whole := answerer{t: t, kind: &kind}
			whole.run()
			a := answerer{t: t, kind: &kind}
			before, here := "", 0
			a.step = func(_ int, question, keys string) string {
				f := a.field(question)
				if f == nil || keys == "?\r" {
					return keys
				}
				if f.Shape == entry.Text && before != "" {
					here++
					keys = typed(before, keys)
				}
				before = f.Name
				return keys
			}
			a.run()
			asked += here
			require.Equal(t, exitDone, a.code, a.said)
			then(&kind, whole.text, a.text, here)
		})
	}
	require.Greater(t, asked, 20)
}

// TestBackByNameFromEachFreeText goes back by the name of the question before, from each
// question that takes any text: none of it becomes the text.
func TestBackByNameFromEachFreeText(t *testing.T) {
	eachFreeText(t, func(before, keys string) string { return "back " + before + "\r\r" + keys },
		func(_ *entry.Kind, whole, text string, _ int) { require.Equal(t, whole, text) })
}

// TestBackInQuotesIsText writes words that would go back in quotes: they are the text, also
// where the answer stands on the line again.
func TestBackInQuotesIsText(t *testing.T) {
	eachFreeText(t, func(before, keys string) string {
		if keys == "\r" {
			return keys
		}
		return `"back ` + before + "\"\r"
	}, func(kind *entry.Kind, _, text string, asked int) {
		if asked > 0 {
			require.Contains(t, text, `"back `, kind.Name)
		}
	})
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "note")
	k.answer("the flight", "last")
	k.answer("a note", "?")
	k.expect(`text that would go back stands in quotes: "back flight"`)
	k.answer("a note", `"back flight"`)
	k.answer("a note", "back")
	k.answer(`a note: "back flight"`, "")
	k.answer("a note", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), `note         "back flight"`)
}

// TestBackWhereAFlagAnswered says why a question that a flag answered is not gone back to,
// and takes no text for it.
func TestBackWhereAFlagAnswered(t *testing.T) {
	dir, _ := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "note", "--flight", "last")
	k.answer("a note", "back flight")
	k.expect(`flight was given by --flight; in quotes it is text: "back flight"`)
	k.answer("a note", "back to the old line")
	k.answer("a note", "\x03")
	require.Equal(t, exitInterrupted, k.exit())
}

// TestBackFromAQuestionAboutAnAnswer goes back from the questions whether a name is new:
// to the name, or by name to an answer before.
func TestBackFromAQuestionAboutAnAnswer(t *testing.T) {
	dir, path := ledgerIn(t, strings.Replace(springFlown, "pilot ines\n", "pilot ines\npilot mara\n", 1))
	k := startTalk(t, dir, "log", "flight", "--asof", "2026-04-19")
	k.answer("the date", "2026-04-19")
	k.answer("the pilot", "marra")
	k.answer(`did you mean "mara"? (yes, no, new): `, "?")
	k.expect("no and back ask again")
	k.answer(`did you mean "mara"? (yes, no, new): `, "back")
	k.expect("the pilot (ines, mara): marra")
	k.key("zoe\r")
	k.answer("add one? (yes, no): ", "back programme")
	k.expect("nothing was answered for programme yet")
	k.answer("add one? (yes, no): ", "back date")
	k.expect("the date [2026-04-19]: 2026-04-19")
	k.key("\r")
	k.expect("the pilot (ines, mara): zoe")
	k.key("\r")
	k.answer("add one? (yes, no): ", "back")
	k.expect("the pilot (ines, mara): zoe")
	k.key("ines\r")
	k.answer("the contest, - for none [spring]: ", "")
	k.answer("the programme", "known")
	k.answer("the sequence", "")
	k.answer("[A B]: ", "back programme")
	k.answer("the programme", "")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())
	require.NotContains(t, textOf(t, path), "zoe")

	// A flag's name is asked for where it is gone back to; so is an amount whose currency is asked.
	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2", "--kind", "heading", "--by", "bea")
	require.Equal(t, exitInvalid, exitOf(k, `no coach is called "bea"`))
	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2", "--by", "bea")
	k.answer("the kind of fault", "heading")
	for _, question := range []string{"how much", "the code", "seen by", "where it is"} {
		k.answer(question, "")
	}
	k.answer("add one? (yes, no): ", "back")
	k.expect("the coach (marek), or Enter for none: bea")
	k.key("\x03")
	k.exit()
	k = startTalk(t, dir, "log", "in-hand", "--date", "2026-03-01", "--pot", "bank")
	k.answer("the amount with its currency", "80.50")
	k.answer("its currency, such as EUR: ", "back")
	k.expect("the amount with its currency, such as 95.00 EUR: 80.50")
	k.key("\x03")
	k.exit()
}

// TestBackFromTheLastLook goes back by name from the question whether to write.
func TestBackFromTheLastLook(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "note")
	k.answer("the flight", "last")
	k.answer("a note", "gusty")
	k.answer("a note", "")
	k.answer("write it?", "back video")
	k.expect("nothing was answered for video yet")
	k.answer("write it?", "back flight")
	k.expect("the flight [2026-04-18/ines/known]: 2026-04-18/ines/known")
	k.key("\r")
	k.answer("gusty", "")
	k.answer("a note", "")
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), `note         "gusty"`)
}

// TestBackFromANameOnTheWay goes back from the full name of a pilot and of a contest that
// are added on the way to a flight.
func TestBackFromANameOnTheWay(t *testing.T) {
	dir, path := ledgerIn(t, "")
	k := startTalk(t, dir, "log", "flight", "--asof", "2026-04-20")
	k.answer("the date", "2026-04-18")
	k.answer("the pilot", "inez")
	k.answer("the full name", "back pilot")
	k.expect("the pilot")
	k.key("ines\r")
	k.answer("the full name", "back to front")
	k.answer("the contest", "sprong")
	k.answer("its days", "")
	k.answer("its full name", "back contest")
	k.expect("the contest")
	k.key("spring\r")
	k.answer("its days", "")
	k.answer("its full name", "back pilot name")
	k.answer("the full name, or Enter for none: back to front", "")
	k.answer("spring", "")
	k.answer("its days", "")
	k.answer("its full name", "back date")
	k.expect("the date [2026-04-20]: 2026-04-18")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())
	require.Empty(t, textOf(t, path))
}

// newSequence begins a flight in a ledger without its sequence, and types one of three
// figures and positioning.
func newSequence(t *testing.T) (k *talk, path string) {
	t.Helper()
	dir, path := ledgerIn(t, "pilot ines\n")
	k = startTalk(t, dir, "log", "flight", "--asof", "2026-04-20")
	k.answer("the date", "2026-04-18")
	k.answer("the pilot", "ines")
	k.answer("the contest", "")
	k.answer("the programme", "known")
	k.answer("the sequence", "s")
	k.answer("its category", "sportsman")
	for n, figure := range []string{`K 10 "loop"`, `K 12 "roll"`, `K 8 "spin"`} {
		k.answer([]string{"figure 1", "figure 2", "figure 3"}[n], figure)
	}
	k.answer("figure 4", "")
	k.answer("the K of positioning", "20")
	k.answer("the K of harmony", "")
	k.answer("the total K", "")
	return k, path
}

// TestANumberIsARowWhileMarksAreTyped goes back to a row by its number, and to a figure
// of the sequence by that word.
func TestANumberIsARowWhileMarksAreTyped(t *testing.T) {
	k, path := newSequence(t)
	k.answer("the judges", "A B")
	k.answer("[figure]: ", "back date")
	k.expect("the date [2026-04-20]: 2026-04-18")
	k.key(strings.Repeat("\r", 13))
	k.answer("in the order of the marks", "")
	k.answer("[figure]: ", "")
	k.answer(" 1  K 10  loop: ", "8 8")
	k.answer(" 2  K 12  roll: ", "back 2")
	k.expect("nothing was answered for 2 yet; `back figure 2` goes to that figure of the sequence")
	k.answer(" 2  K 12  roll: ", "back positioning")
	k.expect("nothing was answered for positioning yet")
	k.answer(" 2  K 12  roll: ", "?")
	k.expect("back 1 to that line, back figure 2 to figure 2 of the sequence")
	k.answer(" 2  K 12  roll: ", "7 7")
	k.answer(" 3  K 8   spin: ", "back 1")
	k.answer(" 1  K 10  loop: 8 8", "")
	k.answer(" 2  K 12  roll: 7 7", "back figure 3")
	k.answer(`K 8 "spin"`, "")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())
	require.Equal(t, "pilot ines\n", textOf(t, path))
}

// threeFigures is a flight's ledger with three figures and positioning.
const threeFigures = "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10 \"loop\"\n  2 K 12 \"roll\"\n  3 K 8 \"spin\"\n  positioning K 5\n\n" +
	"contest spring 2026-04-18..2026-04-19\n  panel A B\n"

// marksAsked begins the marks of a flight by figure or by sheet.
func marksAsked(t *testing.T, layout string) (k *talk, path string) {
	t.Helper()
	dir, path := ledgerIn(t, threeFigures)
	k = startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known")
	k.answer("[A B]: ", "")
	k.answer("[figure]: ", layout)
	return k, path
}

// TestRowsOneRowOffAreMoved makes room for a row that was left out, and takes one out that
// was one too many: the others are offered at their places, and none is lost without a word.
func TestRowsOneRowOffAreMoved(t *testing.T) {
	k, path := marksAsked(t, "")
	k.answer(" 1  K 10  loop: ", "insert")
	k.expect("nothing stands at figure 1")
	k.answer(" 1  K 10  loop: ", "?")
	k.expect("one row off: insert 4 makes room at row 4, remove 4 takes that row out")
	k.answer(" 1  K 10  loop: ", "8 8")
	k.answer(" 2  K 12  roll: ", "6 6") // of the spin
	k.answer(" 3  K 8   spin: ", "5 5") // of positioning
	k.answer("positioning: ", "insert 9")
	k.expect("there is no row 9 here; the rows are 1 to positioning")
	k.answer("positioning: ", "insert 2")
	k.answer(" 2  K 12  roll: ", "7 7")
	k.answer(" 3  K 8   spin: 6 6", "")
	k.answer("positioning: 5 5", "")
	k.answer("a penalty", "back 1")
	k.answer(" 1  K 10  loop: 8 8", "insert")
	k.expect("no row is left for what stood at positioning: 5 5")
	k.expect(" 1  K 10  loop: ")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit(), k.everything())

	k = startTalk(t, filepath.Dir(path), "log", "flight")
	k.answer("continue with it?", "")
	k.answer(" 1  K 10  loop: ", "remove")
	k.expect("the empty place is taken out")
	k.answer(" 1  K 10  loop: 8 8", "insert 1 9 9")
	k.answer(" 1  K 10  loop: 9 9", "")
	k.answer(" 2  K 12  roll: 8 8", "")
	k.answer(" 3  K 8   spin: 7 7", "remove 1")
	k.expect("taken out: 9 9")
	k.answer(" 1  K 10  loop: 8 8", "")
	k.answer(" 2  K 12  roll: 7 7", "")
	k.answer(" 3  K 8   spin: 6 6", "")
	k.answer("positioning: ", "5 5")
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            8    8\n  2            7    7\n  3            6    6\n  positioning  5    5\n")

	dir, _ := ledgerIn(t, threeFigures)
	k = startTalk(t, dir, "log", "flight", "--sequence", "s", "--date", "2026-04-18", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--row", "8 8", "--row", "7 7")
	k.answer("[A B]: ", "")
	k.answer(" 3  K 8   spin: ", "insert 2")
	k.expect("the rows were given by --row, and stay where they are")
	k.key("\x03")
	k.exit()
}

// TestMarksOfASheetAreMoved does the same within the marks of one judge.
func TestMarksOfASheetAreMoved(t *testing.T) {
	k, path := marksAsked(t, "sheet")
	k.answer("sheet A, figures 1 to 3, positioning: ", "insert 2 7")
	k.expect("nothing stands at figure 2")
	k.answer("sheet A, figures 1 to 3, positioning: ", "?")
	k.expect("in marks that stand on the line insert 4 7.5 puts one at figure 4, remove 4 takes one out")
	k.answer("sheet A, figures 1 to 3, positioning: ", "8 6 5")
	k.expect("sheet A has 3 marks")
	k.answer("positioning: 8 6 5", "insert 2 75")
	k.answer("positioning: 8 75 6 5", "remove 1")
	k.expect("taken out: 8")
	k.answer("positioning: 75 6 5", "remove 9")
	k.expect("there is no row 9 here; the rows are 1 to positioning")
	k.answer("positioning: 75 6 5", "insert 1")
	k.answer("the mark of figure 1: ", "back")
	k.answer("positioning: 75 6 5", "insert 1")
	k.answer("the mark of figure 1: ", "remove 2")
	k.expect("one mark is asked for, such as 7.5; nothing was moved")
	k.answer("positioning: 75 6 5", "insert 1")
	k.answer("the mark of figure 1: ", "9")
	k.answer("positioning: 9 75 6 5", "")
	k.answer("sheet B, figures 1 to 3, positioning: ", "back A")
	k.answer("positioning: 9 7.5 6 5", "insert 1 8")
	k.expect("no place is left at the end for: 5")
	k.answer("positioning: 8 9 7.5 6", "")
	k.answer("sheet B, figures 1 to 3, positioning: ", "8 8 8 8")
	k.nothingMore()
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "sheet A      8    9    7.5  6")
}

// TestAFigureTooManyIsTakenOut takes one of a sequence's figures out, and keeps those behind it.
func TestAFigureTooManyIsTakenOut(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n")
	k := startTalk(t, dir, "log", "sequence", "--handle", "free-26", "--category", "sportsman", "--programme", "free", "--catalogue", "-", "--asof", "2026-04-20")
	k.answer("figure 1", "remove")
	k.expect("nothing stands at figure 1")
	for n, figure := range []string{"K 14", "K 9", "K 8"} {
		k.answer([]string{"figure 1", "figure 2", "figure 3"}[n], figure)
	}
	k.answer("figure 4", "back 2")
	k.expect("figure 2, or Enter for none: K 9")
	k.key("remove\r")
	k.expect("taken out: K 9")
	k.expect("figure 2, or Enter for none: K 8")
	k.key("\r")
	k.answer("figure 3, or Enter for none: ", "")
	for _, question := range []string{"the K of positioning", "the K of harmony", "the total K"} {
		k.answer(question, "")
	}
	k.answer("write it?", "y")
	require.Equal(t, exitDone, k.exit(), k.everything())
	require.Contains(t, textOf(t, path), "  1            K 14\n  2            K 8\n")
}

// TestADoubtedAnswerOutlastsBack offers an answer again that was doubted for the sake of
// one before, which was the slip.
func TestADoubtedAnswerOutlastsBack(t *testing.T) {
	dir, path := ledgerIn(t, "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10\n")
	k := startTalk(t, dir, "log", "flight", "--asof", "2026-11-22", "--pilot", "ines", "--contest", "fenwick", "--programme", "known", "--sequence", "s")
	k.answer("the date", "2026-11-12")
	k.answer("its days", "2026-11-21..2026-11-22")
	k.expect(`2026-11-12 is outside contest "fenwick"`)
	k.answer("its days", "back date")
	k.answer("the date", "\x152026-11-21")
	k.answer("its days [2026-11-21]: 2026-11-21..2026-11-22", "")
	for _, question := range []string{"full name", "its rule style"} {
		k.answer(question, "")
	}
	k.answer("its judges", "A B")
	k.expect("the judges")
	require.NotContains(t, textOf(t, path), "fenwick")
}
