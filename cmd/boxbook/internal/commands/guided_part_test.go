package commands

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// A coach who writes into a file of the coach's own is told at once where a line
// cannot go, and has the draft of a review beside that file.
func TestACoachWritesIntoAFileOfTheirOwn(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../../../data/demo")))
	book := filepath.Join(dir, "longmere.boxbook")
	before := textOf(t, book)

	k := startTalk(t, dir, "log", "fault", "-f", "coach/marek.boxbook", "--asof", "2026-11-25")
	k.answer("the flight", "2026-09-12/yuki/known")
	k.expect("stands in longmere.boxbook, not in coach/marek.boxbook")
	k.expect("as a review: boxbook log review -f coach/marek.boxbook --asof 2026-11-25\n")
	k.expect("the flight")
	k.key("\x03")
	require.Equal(t, exitInterrupted, k.exit())

	k = startTalk(t, dir, "log", "review", "-f", "longmere.boxbook", "--into", "coach/marek.boxbook", "--asof", "2026-11-25")
	k.answer("the flight", "2026-09-12/yuki/known")
	k.answer("the coach", "marek")
	k.expect("a fault")
	k.key("\x03")
	k.expect("the draft is kept")
	require.Equal(t, exitInterrupted, k.exit())
	require.Empty(t, draftsIn(t, dir))
	require.NotEmpty(t, draftsIn(t, filepath.Join(dir, "coach")))

	k = startTalk(t, dir, "log", "review", "-f", "coach/marek.boxbook", "--asof", "2026-11-25")
	k.answer("continue with it?", "yes")
	k.answer("a fault", "1 radius seen at 0:41")
	k.answer("a fault", "")
	k.answer("a video", "")
	k.answer("a note", "hers")
	k.answer("a note", "")
	k.answer("write it?", "yes")
	k.expect("added a review of 2026-09-12/yuki/known to coach/marek.boxbook")
	require.Equal(t, exitDone, k.exit())
	require.Equal(t, before, textOf(t, book))
	require.Contains(t, textOf(t, filepath.Join(dir, "coach", "marek.boxbook")), "fault        1 radius seen at 0:41")
}

// A word that only begins like one that the ledger has is a new word: nobody's
// cost is given another kind.
func TestABeginningOfAFreeWordIsNotTakenForTheWhole(t *testing.T) {
	dir := t.TempDir()
	text := "pilot ines\n\ncost 2026-01-10 fuel-abroad 5 EUR for ines\n"
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	k := startTalk(t, dir, "log", "cost", "--date", "2026-02-01", "--amount", "7 EUR", "--for", "ines", "--asof", "2026-11-25")
	k.answer("what it was for", "fuel")
	k.expect(`did you mean "fuel-abroad"?`)
	k.answer("what it was for", "fuel")
	k.answer("the contest", "")
	for _, question := range []string{"who paid", "whether the club", "the receipt", "a remark"} {
		k.answer(question, "")
	}
	k.answer("write it?", "yes")
	require.Equal(t, exitDone, k.exit())
	require.Equal(t, text+"cost 2026-02-01 fuel 7 EUR for ines\n", textOf(t, path))
}

// The year's result in another currency is not refused because of the one that
// is there: what is still to be asked stands for nothing.
func TestAYearIsNotRefusedForACurrencyThatWasNotTyped(t *testing.T) {
	dir := t.TempDir()
	text := "pilot ines\n\nagreed 2025 10.00 EUR\nin-hand 2026-01-01 bank 5.00 EUR\nrate 2025 USD 1.05 CHF\n"
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	for _, c := range []struct{ kind, want string }{
		{"agreed", "agreed 2025 95.00 CHF\n"},
		{"in-hand", "in-hand 2026-01-01 bank 95.00 CHF\n"},
		{"rate", "rate 2025 EUR 0.95 CHF\n"},
	} {
		k := startTalk(t, dir, "log", c.kind, "--asof", "2026-11-25")
		switch c.kind {
		case "rate":
			k.answer("the year", "2025")
			k.answer("currency to be valued", "EUR")
			k.answer("what one of it is", "0.95")
			k.answer("in the year's own", "CHF")
		case "agreed":
			k.answer("the year", "2025")
			k.answer("with its currency", "95.00 EUR")
			k.expect("2025")
			k.answer("with its currency", "95.00 CHF")
			k.answer("a remark", "")
		default:
			k.answer("the date", "2026-01-01")
			k.answer("where it was", "bank")
			k.answer("with its currency", "95.00 CHF")
			k.answer("a remark", "")
		}
		k.answer("write it?", "yes")
		require.Equal(t, exitDone, k.exit())
		text += c.want
		require.Equal(t, text, textOf(t, path))
	}
}
