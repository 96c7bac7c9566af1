package commands

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// springFlown is a ledger with a flight, and a coach.
const springFlown = twoFigures + "\ncoach marek\n\nflight 2026-04-18 ines known\n  contest spring\n  sequence s\n  1 8 8\n  2 7 6.5\n"

// TestANewCoachIsAddedOnTheWay adds a coach whom the ledger lacks where a person says
// so, before a block and into a flight that is there.
func TestANewCoachIsAddedOnTheWay(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "review")
	k.answer("the flight", "last")
	k.expect("taken as 2026-04-18/ines/known")
	k.answer("the coach (marek)", "marec")
	k.expect(`did you mean "marek"?`)
	k.answer("(yes, no, new): ", "?")
	k.expect("yes takes marek, no and back ask again, new adds marec to the ledger as a coach")
	k.answer("(yes, no, new): ", "no")
	k.answer("the coach (marek)", "bea")
	k.answer(`no coach is called "bea"; add one? (yes, no): `, "y")
	k.answer("the full name", "Bea Ito")
	k.answer("a fault", "1 radius")
	for _, question := range []string{"a fault", "a video", "a note"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "coach bea\n  name      \"Bea Ito\"\n\nreview 2026-04-18/ines/known by bea\n  fault        1 radius\n")

	// Where flags say all that is needed, nobody is asked.
	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2", "--kind", "heading", "--by", "zoe")
	require.Equal(t, exitInvalid, exitOf(k, `no coach is called "zoe"`))

	k = startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "2", "--by", "zoe")
	k.answer("the kind of fault", "heading")
	for _, question := range []string{"how much", "the code", "seen by", "where it is"} {
		k.answer(question, "")
	}
	k.answer(`no coach is called "zoe"; add one? (yes, no): `, "yes")
	k.answer("the full name", "")
	k.answer("a remark", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  fault        2 heading by zoe\n")
	require.Contains(t, textOf(t, path), "\ncoach zoe\n")
	check := startTalk(t, dir, "check")
	require.Equal(t, exitDone, check.exit())
}

// TestADraftSetAsideIsTakenUpAgain goes on with a draft that no set aside, by the
// command that is shown; it stays apart from the one that is under way.
func TestADraftSetAsideIsTakenUpAgain(t *testing.T) {
	dir, path := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "note", "--flight", "last")
	k.answer("a note", "gusts")
	k.answer("a note", "\x03")
	k.expect("the draft is kept")
	k.exit()
	k = startTalk(t, dir, "log", "note")
	k.answer("continue with it?", "no")
	const again = "boxbook log note --draft .book.boxbook.note.draft.1"
	k.expect("taken up again by: " + again)
	k.answer("the flight", "last")
	k.key("\x03")
	k.exit()
	require.Len(t, draftsIn(t, dir), 2)

	k = startTalk(t, dir, "log", "note")
	k.expect("a draft was set aside; it is taken up by: " + again)
	k.key("\x03")
	k.exit()

	arguments := strings.Fields(again)[1:]
	k = startTalk(t, dir, arguments...)
	k.expect("the draft: 2026-04-18/ines/known")
	k.expect("a note")
	k.key("\x03")
	k.expect("`" + again + "` continues with it")
	require.Equal(t, exitInterrupted, k.exit())
	k = startTalk(t, dir, arguments...)
	k.answer("a note", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "  note         \"gusts\"\n")
	left := draftsIn(t, dir)
	require.Equal(t, []string{filepath.Join(dir, ".book.boxbook.note.draft")}, left)

	// A draft of another kind, no draft, no file, nobody to ask.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "half"), []byte("half of it"), 0o600))
	require.Equal(t, exitUsage, exitOf(startTalk(t, dir, "log", "fault", "--draft", left[0]), "is a draft of another kind of entry"))
	require.Equal(t, exitUsage, exitOf(startTalk(t, dir, "log", "note", "--draft", "half"), "half is no draft"))
	require.Equal(t, exitFile, exitOf(startTalk(t, dir, "log", "note", "--draft", "nothing"), "cannot read the draft nothing"))
	require.Equal(t, "half of it", textOf(t, filepath.Join(dir, "half")))
	t.Chdir(dir)
	var said bytes.Buffer
	require.Equal(t, exitUsage, run([]string{"log", "note", "--draft", left[0]}, readmeStreams(&said)))
	require.Contains(t, said.String(), "there is nobody to ask")
}

// TestADraftOfAnotherFlightIsNotMixed keeps a draft of another pilot or day than the
// flags say: Enter sets it aside, and the command that takes it up stays in one piece.
func TestADraftOfAnotherFlightIsNotMixed(t *testing.T) {
	book := "pilot ines\npilot milo\n"
	for _, flags := range [][]string{{"--pilot", "ines", "--date", "2026-04-18"}, {"--pilot", "milo", "--date", "19.4.2026"}} {
		dir, path := ledgerIn(t, book)
		k := startTalk(t, dir, "log", "practice", "--asof", "2026-05-01")
		k.answer("the date", "2026-04-18")
		k.answer("the pilot", "milo")
		k.expect("the sequence")
		k.key("\x03")
		k.exit()
		kept := textOf(t, draftsIn(t, dir)[0])

		k = startTalk(t, dir, append([]string{"log", "practice", "--note", "x", "--asof", "2026-05-01"}, flags...)...)
		k.answer("continue with it? (yes, no) [no]: ", "")
		k.expect("\n    boxbook log practice --draft .book.boxbook.practice.draft.1 --asof 2026-05-01\n")
		for _, question := range []string{"the sequence", "the flight's category", "a video"} {
			k.answer(question, "")
		}
		k.answer("write it?", "yes")
		require.Equal(t, exitDone, k.exit(), k.everything())
		left := draftsIn(t, dir)
		require.Len(t, left, 1)
		require.Equal(t, kept, textOf(t, left[0]))
		require.Contains(t, textOf(t, path), "note         \"x\"")
	}
	// The same flight, written otherwise, is gone on with.
	dir, _ := ledgerIn(t, book)
	k := startTalk(t, dir, "log", "practice", "--pilot", "milo", "--asof", "2026-05-01")
	k.answer("the date", "2026-04-18")
	k.expect("the sequence")
	k.key("\x03")
	k.exit()
	k = startTalk(t, dir, "log", "practice", "--pilot", "mil", "--date", "18.4.2026", "--asof", "2026-05-01")
	k.answer("continue with it? (yes, no) [yes]: ", "")
	k.expect("the sequence")
	k.key("\x03")
	k.exit()
}

// exitOf waits for what boxbook says, and gives its exit code.
func exitOf(k *talk, said string) int {
	k.t.Helper()
	k.expect(said)
	return k.exit()
}

// TestTheLatestPanelIsProposed proposes the panel of the contest's last flight where
// that was another than the contest's; a sheet that is missing makes none.
func TestTheLatestPanelIsProposed(t *testing.T) {
	other := strings.Replace(springFlown, "  sequence s\n", "  sequence s\n  panel A D\n", 1)
	dir, path := ledgerIn(t, other)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s")
	k.expect("proposed is the panel of 2026-04-18/ines/known; the contest has A B")
	k.answer("[A D]: ", "")
	k.expect("[figure]: ")
	k.key("\x03")
	k.exit()
	require.Equal(t, other, textOf(t, path))

	short := strings.Replace(springFlown, "  sequence s\n  1 8 8\n  2 7 6.5\n", "  sequence s\n  panel B missing A\n  1 8\n  2 7\n", 1)
	for _, text := range []string{springFlown, short} {
		dir, _ = ledgerIn(t, text)
		k = startTalk(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s")
		k.expect("[A B]: ")
		require.NotContains(t, k.everything(), "proposed")
		k.key("\x03")
		k.exit()
	}
	missing := strings.Replace(short, "missing A", "missing C", 1)
	dir, _ = ledgerIn(t, missing)
	k = startTalk(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s")
	k.expect("[B missing C]: ")
}

// TestWhatAnAnswerIsTakenForIsSaid says what the beginning of a name was taken for,
// and nothing where the name was typed whole or Enter took it.
func TestWhatAnAnswerIsTakenForIsSaid(t *testing.T) {
	dir, path := ledgerIn(t, twoFigures)
	k := startTalk(t, dir, "log", "contest", "--handle", "autumn")
	k.answer("its days", "2026-10-03")
	k.answer("its full name", "Autumn")
	k.answer("its site", "")
	k.answer("the last day", "")
	k.answer("its ladder", "uk")
	k.answer("its rule style", "drop")
	k.expect("taken as drop-extremes")
	k.answer("its judges", "")
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Contains(t, textOf(t, path), "drop-extremes")
	require.Equal(t, 1, strings.Count(k.everything(), "taken as"))
}

// TestAFaultOfAnotherFigureIsAskedAbout doubts a kind that no element of the figure
// can show.
func TestAFaultOfAnotherFigureIsAskedAbout(t *testing.T) {
	dir, _ := ledgerIn(t, strings.Replace(springFlown, "1 K 10 \"loop\"", "1 7.4.1.1:10 \"loop\"", 1))
	k := startTalk(t, dir, "log", "fault", "--flight", "last", "--figure", "1")
	k.answer("the kind of fault", "spin-stop")
	k.expect("no element of figure 1 can show a spin-stop fault; figure 2 could")
	k.answer("the kind of fault", "radius")
	k.expect("how much")
}

// TestAMendedListIsNotDoubtedAgain says once that a panel has another number of judges
// than the contest's: who mends one name of it has read that, and is asked on.
func TestAMendedListIsNotDoubtedAgain(t *testing.T) {
	dir, _ := ledgerIn(t, springFlown)
	k := startTalk(t, dir, "log", "flight", "--date", "2026-04-19", "--pilot", "ines", "--contest", "spring", "--programme", "known", "--sequence", "s")
	const doubt = "the panel of spring has 2 judges, and this names 3 (type it again if it"
	k.answer("[A B]: ", "A B X")
	k.expect(doubt)
	k.answer("[A B]: ", "A B C")
	k.answer("[figure]: ", "back")
	require.Equal(t, 1, strings.Count(k.everything(), "and this names 3"))
	k.answer("[A B]: ", "\x15A B C D")
	k.expect("and this names 4")
	k.key("\x03")
	k.exit()
}
