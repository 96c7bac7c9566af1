package ledger

import (
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"
)

// bookOptions say how a ledger of these tests is read: without what the program
// ships, which they have no use for.
func bookOptions(path string) Options {
	return Options{Files: Disk{}, Main: path, Builtin: fstest.MapFS{}}
}

// noon is when the changes of these tests are made.
func noon() time.Time { return time.Date(2026, 4, 18, 12, 0, 0, 0, time.UTC) }

// journaled makes a change of several files with a journal, and gives its notes.
func journaled(t testing.TB, main, command string, change func(opts Options) error) []string {
	t.Helper()
	j, err := StartJournal(main, command, noon(), Watch{})
	require.NoError(t, err)
	defer j.Close()
	opts := bookOptions(main)
	opts.Journal = j
	require.NoError(t, change(opts))
	return j.Notes()
}

// changed gives a file of a ledger any other text, with a journal.
func changed(t testing.TB, main, path, text string) []string {
	t.Helper()
	return journaled(t, main, "rewrite", func(opts Options) error {
		return changeKept(path, opts.Journal, func(string) (string, error) { return text, nil }, agree)
	})
}

// takeBack takes the last change back; the error says why not.
func takeBack(main string) error {
	u, err := PlanUndo(bookOptions(main))
	if err == nil {
		_, err = u.TakeBack(bookOptions(main))
	}
	return err
}

// putBack puts back the last change that was taken back; the error says why not.
func putBack(main string) error {
	u, err := PlanPutBack(bookOptions(main))
	if err == nil {
		_, err = u.TakeBack(bookOptions(main))
	}
	return err
}

// journalOf is the file of a ledger's journal.
func journalOf(main string) string { return beside(main, JournalSuffix) }

// TestUndoTakesTextsBack holds that any text comes back byte by byte, whatever
// bytes it has.
func TestUndoTakesTextsBack(t *testing.T) {
	texts := []string{"", "pilot ines\n", "pilot ines", "pilot ines\r\n\r\n", "\xff\xfe no text at all \x00", "aaaa", "aa", "aaa", "pilot ines\npilot yuki\n"}
	path := newBook(t, "# the first\n")
	for _, text := range texts {
		require.Empty(t, changed(t, path, path, text))
	}
	for i := len(texts) - 1; i >= 0; i-- {
		requireFile(t, path, texts[i])
		require.NoError(t, takeBack(path))
	}
	requireFile(t, path, "# the first\n")
	require.EqualError(t, takeBack(path), "nothing to take back: no change that boxbook made in "+path+" is kept")
	requireAlone(t, filepath.Dir(path), ".book.boxbook.undo", "book.boxbook")
}

// TestJournalIsBounded holds how many changes are kept, and how much of them.
func TestJournalIsBounded(t *testing.T) {
	path := newBook(t, "")
	for i := range MaxUndo + 5 {
		require.Empty(t, changed(t, path, path, fmt.Sprint("# ", i)))
	}
	for range MaxUndo {
		require.NoError(t, takeBack(path))
	}
	requireFile(t, path, "# 4")
	require.ErrorContains(t, takeBack(path), "nothing to take back")

	// Four of these take more room than there is.
	large := strings.Repeat("# a line of a long ledger\n", MaxUndoBytes/4/26)
	for i := range 4 {
		require.Empty(t, changed(t, path, path, fmt.Sprint(i)+large))
	}
	require.Empty(t, changed(t, path, path, "#"))
	info, err := os.Stat(journalOf(path))
	require.NoError(t, err)
	require.Less(t, info.Size(), int64(MaxUndoBytes+(maxSums*sumSize+2)/3*4+4096))
	require.NoError(t, takeBack(path))
	requireFile(t, path, "3"+large)
}

// TestALargeChangeSaysThatItStays holds that a change without room in the
// journal is made, and that those before it are not taken for it.
func TestALargeChangeSaysThatItStays(t *testing.T) {
	path := newBook(t, strings.Repeat("x", MaxUndoBytes))
	before := textOfFile(t, path)
	require.Empty(t, changed(t, path, path, before+"\n"))
	require.Equal(t, []string{"this change cannot be taken back: it is larger than the 4 MiB that are kept"}, changed(t, path, path, "# all gone\n"))
	require.EqualError(t, takeBack(path), `the last change, "rewrite" of 2026-04-18 12:00, cannot be taken back: it is larger than the 4 MiB that are kept`)
	requireFile(t, path, "# all gone\n")
	require.Empty(t, changed(t, path, path, "# new\n"))
	require.NoError(t, takeBack(path))
	requireFile(t, path, "# all gone\n")
}

func textOfFile(t testing.TB, path string) string {
	t.Helper()
	raw, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(raw)
}

// TestUndoOfAnotherText holds that a text that was changed by hand is left as it
// is, with the first line that differs, and that the text itself decides.
func TestUndoOfAnotherText(t *testing.T) {
	path := newBook(t, "pilot ines\n")
	const is = "pilot ines\npilot yuki\n"
	require.Empty(t, changed(t, path, path, is))
	since := path + ` has changed since the last change that boxbook made, "rewrite" of 2026-04-18 12:00; nothing was taken back`
	for text, says := range map[string]string{
		"pilot ines\npilot mara\n":                 "\n  line 2 is now: pilot mara",
		"pilot ines\npilot yuki":                   "\n  line 2 is now: pilot yuki",
		"pilot ines\npilot yuki\n\tname \x1b[2J\n": "\n  line 3 is now: name \uFFFD[2J",
		"":           "\n  it now ends before line 1",
		"# x\n" + is: "\n  line 1 is now: # x",
		"pilot ines\n" + strings.Repeat("ä", 61):    "\n  line 2 is now: " + strings.Repeat("ä", 60) + " ...",
		"pilot ines\npilot yuki\n" + "pilot mara\n": "\n  line 3 is now: pilot mara",
	} {
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		require.EqualError(t, takeBack(path), since+says, "%q", text)
		requireFile(t, path, text)
	}
	require.NoError(t, os.WriteFile(path, []byte(is), 0o644))
	require.NoError(t, takeBack(path))
	requireFile(t, path, "pilot ines\n")
}

// TestUndoSaysNoLineThatItCannotKnow holds that where the text that was left is
// not known line by line, no line is named: the change before one that was made
// by hand, and a file of too many lines.
func TestUndoSaysNoLineThatItCannotKnow(t *testing.T) {
	path := newBook(t, "pilot ines\n")
	require.Empty(t, changed(t, path, path, "pilot yuki\n"))
	require.NoError(t, os.WriteFile(path, []byte("pilot mara\n"), 0o644))
	require.Empty(t, changed(t, path, path, "pilot tobias\n"))
	require.NoError(t, takeBack(path))
	requireFile(t, path, "pilot mara\n")
	err := takeBack(path)
	require.ErrorContains(t, err, "has changed since")
	require.NotContains(t, err.Error(), "line")
	requireFile(t, path, "pilot mara\n")

	require.Empty(t, changed(t, path, path, strings.Repeat("#\n", maxSums)))
	require.NoError(t, os.WriteFile(path, []byte("pilot mara\n"), 0o644))
	require.NotContains(t, takeBack(path).Error(), "line")
}

// TestDamagedJournal holds that no damage of the journal stops a change, or
// brings a text back that was not there.
func TestDamagedJournal(t *testing.T) {
	path := newBook(t, "pilot ines\n")
	const is = "pilot ines\npilot yuki\n"
	require.Empty(t, changed(t, path, path, is))
	whole := textOfFile(t, journalOf(path))
	for name, damaged := range map[string]string{
		"empty": "", "cut off": whole[:len(whole)/2], "another version": strings.Replace(whole, `"format":1`, `"format":2`, 1), "no journal": "[]",
		"another place": strings.Replace(whole, `"place":11`, `"place":9`, 1), "no place": strings.Replace(whole, `"place":11`, `"place":-1`, 1),
		"too much": strings.Replace(whole, `"gone":11`, `"gone":9223372036854775807`, 1), "another text": strings.Replace(whole, `"was":""`, `"was":"eA=="`, 1),
	} {
		require.NotEqual(t, whole, damaged, name)
		require.NoError(t, os.WriteFile(journalOf(path), []byte(damaged), 0o644))
		var refused *UndoError
		require.ErrorAs(t, takeBack(path), &refused, name)
		requireFile(t, path, is)
	}
	for _, damaged := range []string{"", whole[:len(whole)/2]} {
		require.NoError(t, os.WriteFile(journalOf(path), []byte(damaged), 0o644))
		require.Equal(t, []string{"changes before this one cannot be taken back: cannot read .book.boxbook.undo: it is not a journal of this version; it is kept as .book.boxbook.undo.damaged"},
			changed(t, path, path, is+"# more\n"))
		requireFile(t, journalOf(path)+damagedSuffix, damaged)
		require.NoError(t, takeBack(path))
		requireFile(t, path, is)
	}
}

// TestJournalOfAnotherFile holds that no file outside the ledger is ever changed,
// whatever the journal says.
func TestJournalOfAnotherFile(t *testing.T) {
	path := newBook(t, "pilot ines\n")
	require.Empty(t, changed(t, path, path, "pilot yuki\n"))
	other := filepath.Join(filepath.Dir(path), "other")
	require.NoError(t, os.WriteFile(other, []byte("pilot yuki\n"), 0o644))
	raw := strings.ReplaceAll(textOfFile(t, journalOf(path)), `"file":"book.boxbook"`, `"file":"other"`)
	require.NoError(t, os.WriteFile(journalOf(path), []byte(raw), 0o644))
	require.EqualError(t, takeBack(path), `the last change, "rewrite" of 2026-04-18 12:00, is of other, which is no file of the ledger now; nothing was taken back`)
	requireFile(t, other, "pilot yuki\n")
}

// TestJournalPermissions holds that nobody may read the journal who may not read
// each file whose text is in it.
func TestJournalPermissions(t *testing.T) {
	path := newBook(t, "include \"part.boxbook\"\n")
	part := filepath.Join(filepath.Dir(path), "part.boxbook")
	require.NoError(t, os.WriteFile(part, nil, 0o644))
	mode := func() fs.FileMode {
		info, err := os.Stat(journalOf(path))
		require.NoError(t, err)
		return info.Mode()
	}
	require.NoError(t, os.Chmod(path, 0o664))
	changed(t, path, path, "include \"part.boxbook\"\n#\n")
	require.Equal(t, fs.FileMode(0o664), mode())
	require.NoError(t, os.Chmod(part, 0o640))
	changed(t, path, part, "# of nobody else\n")
	require.Equal(t, fs.FileMode(0o640), mode())
	changed(t, path, path, "include \"part.boxbook\"\n##\n")
	require.Equal(t, fs.FileMode(0o640), mode())
	require.NoError(t, takeBack(path))
	require.Equal(t, fs.FileMode(0o640), mode())
	require.NoError(t, os.Chmod(path, 0o600))
	changed(t, path, path, "include \"part.boxbook\"\n###\n")
	require.Equal(t, fs.FileMode(0o600), mode())
}

// TestChangeWithoutAJournal holds that a change is made where none can be kept,
// and that this is said.
func TestChangeWithoutAJournal(t *testing.T) {
	path := newBook(t, oldText)
	for _, step := range []string{"open folder", "create", "write", "owner", "mode", "sync", "close", "rename", "sync folder"} {
		var steps []string
		j, err := startJournal(faultyDisk{fail: step, steps: &steps}, path, lockWait, keptChange{Command: "rewrite", At: noon()}, Watch{})
		require.NoError(t, err)
		was := textOfFile(t, path)
		require.NoError(t, changeKept(path, j, appendLine(step), agree), step)
		requireFile(t, path, was+step+"\n")
		require.Equal(t, []string{"this change cannot be taken back: cannot write .book.boxbook.undo: the disk is on fire"}, j.Notes(), step)
		j.Close()
		if err := takeBack(path); err != nil { // that the folder was not synced does not mean that the journal is not there
			require.ErrorContains(t, err, "nothing to take back")
			continue
		}
		requireFile(t, path, was)
		require.Equal(t, "sync folder", step)
	}
	requireAlone(t, filepath.Dir(path), ".book.boxbook.undo", "book.boxbook")
}

// TestAChangeThatFailedIsForgotten holds that what was not changed after all is
// not taken back, and does not hide what was changed before.
func TestAChangeThatFailedIsForgotten(t *testing.T) {
	path := newBook(t, oldText)
	require.Empty(t, changed(t, path, path, "pilot mara\n"))
	j, err := StartJournal(path, "fails", noon(), Watch{})
	require.NoError(t, err)
	var steps []string
	c := changer{disk: faultyDisk{fail: "stat", steps: &steps}, shown: path, wait: lockWait, journal: j}
	require.ErrorIs(t, c.change(appendLine("new"), agree), errDisk)
	j.Close()
	require.NotContains(t, textOfFile(t, journalOf(path)), "fails")
	require.NoError(t, takeBack(path))
	requireFile(t, path, oldText)
}

// TestJournalWaitsForTheOther holds that two commands do not change a ledger at
// once.
func TestJournalWaitsForTheOther(t *testing.T) {
	path := newBook(t, oldText)
	j, err := StartJournal(path, "first", noon(), Watch{})
	require.NoError(t, err)
	_, err = startJournal(osDisk{}, path, 50*time.Millisecond, keptChange{}, Watch{})
	require.EqualError(t, err, "cannot change "+path+": another boxbook is changing it; try again; the ledger is as it was")
	j.Close()
	require.Empty(t, changed(t, path, path, "pilot mara\n"))
}
