package commands

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// twoContests is a ledger with a sequence and two contests to log flights of.
const twoContests = "pilot ines\n\nsequence s\n  category sportsman\n  programme known\n  1 K 10 \"loop\"\n  2 K 12 \"roll\"\n\n" +
	"contest spring 2026-04-18..2026-04-19\n  panel A B\n\ncontest autumn 2026-09-05..2026-09-06\n  panel A B\n"

// atMarks begins a flight of a contest and types its first row.
func atMarks(t *testing.T, dir, date, marks string) *talk {
	k := startTalk(t, dir, "log", "flight", "--pilot", "ines", "--date", date, "--programme", "known", "--sequence", "s", "--panel", "A B")
	return k.rowOne(marks)
}

func (k *talk) rowOne(marks string) *talk {
	for range 9 {
		k.asked()
		if all := k.all(); strings.HasSuffix(all, "loop: ") {
			k.key(marks + "\r")
			k.expect(" 2  K 12  roll: ")
			return k
		}
		k.key("\r")
	}
	require.FailNow(k.t, "no figure is asked for", "%s", k.all())
	return nil
}

// Two conversations of a kind beside one ledger keep a draft each, whichever ends
// first, and each says truly what goes on with its own.
func TestTwoConversationsKeepTwoDrafts(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, "book.boxbook"), []byte(twoContests), 0o644))
	first := atMarks(t, dir, "2026-04-18", "8 7.5")
	second := startTalk(t, dir, "log", "flight", "--date", "2026-09-05", "--programme", "known")
	second.expect("another boxbook log flight is under way here")
	second.expect("the draft of this one is .book.boxbook.flight.draft.1")
	second.rowOne("6 6.5")
	first.key("\x03")
	first.expect("the draft is kept, `boxbook log flight` continues with it")
	require.Equal(t, exitInterrupted, first.exit())
	second.key("\x03")
	second.expect("the draft is kept, `boxbook log flight --draft .book.boxbook.flight.draft.1` continues with it")
	require.Equal(t, exitInterrupted, second.exit())

	again := startTalk(t, dir, "log", "flight")
	again.expect("there is a draft: 2026-04-18")
	other := startTalk(t, dir, "log", "flight", "--draft", ".book.boxbook.flight.draft.1")
	other.expect("the draft: 2026-09-05")
	third := startTalk(t, dir, "log", "flight", "--draft", ".book.boxbook.flight.draft.1")
	third.expect("another boxbook log flight is going on with .book.boxbook.flight.draft.1")
	require.Equal(t, exitUsage, third.exit())
	again.answer("continue with it?", "no")
	again.expect("the draft is set aside as .book.boxbook.flight.draft.2")
	again.key("\x03")
	again.exit()
	other.key("\x03")
	other.exit()
	for name, date := range map[string]string{".book.boxbook.flight.draft.1": "2026-09-05", ".book.boxbook.flight.draft.2": "2026-04-18"} {
		kept, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		require.Contains(t, string(kept), date)
	}
	files, err := os.ReadDir(dir)
	require.NoError(t, err)
	require.Len(t, files, 3, "no lock stays: %v", files)
}

// An error that comes into the ledger during a conversation is no answer's: it is said
// once, and the draft is kept.
func TestLedgerThatBreaksMeanwhileStopsTheConversation(t *testing.T) {
	for name, c := range map[string]struct {
		change func(t *testing.T, path string)
		said   string
		exit   int
	}{
		"error": {func(t *testing.T, path string) {
			require.NoError(t, os.WriteFile(path, []byte(twoContests+"\n<<<<<<< HEAD\n"), 0o644))
		}, "book.boxbook:15 now has an error", exitInvalid},
		"gone": {func(t *testing.T, path string) { require.NoError(t, os.Remove(path)) }, "book.boxbook is gone; nothing was written", exitFile},
	} {
		for answer, row := range map[string]string{"answered": "6.5 7", "Enter": ""} {
			t.Run(name+", "+answer, func(t *testing.T) {
				dir := t.TempDir()
				path := filepath.Join(dir, "book.boxbook")
				require.NoError(t, os.WriteFile(path, []byte(twoContests), 0o644))
				k := atMarks(t, dir, "2026-04-18", "8 7.5")
				c.change(t, path)
				k.key(row + "\r")
				k.expect(c.said)
				k.expect("the draft is kept; once that is put right, `boxbook log flight` continues with it")
				require.Equal(t, c.exit, k.exit())

				require.NoError(t, os.WriteFile(path, []byte(twoContests), 0o644))
				k = startTalk(t, dir, "log", "flight")
				k.answer("continue with it?", "yes")
				k.expect(" 2  K 12  roll: ")
			})
		}
	}
}

// A ledger that is gone at the last question is not begun anew.
func TestLedgerThatIsGoneIsNotBegunAnew(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "book.boxbook")
	require.NoError(t, os.WriteFile(path, []byte(twoContests), 0o644))
	k := atMarks(t, dir, "2026-04-18", "8 7.5")
	k.key("7 7\r")
	k.nothingMore()
	k.expect("write it?")
	require.NoError(t, os.Remove(path))
	k.key("yes\r")
	k.expect("book.boxbook is gone; nothing was written")
	require.Equal(t, exitFile, k.exit())
	require.NoFileExists(t, path)
}
