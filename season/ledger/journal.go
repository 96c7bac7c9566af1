package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"time"

	"boxbook/report/display"
)

// Journal keeps what one command changes of a ledger, so that Undo can take it
// back: a hidden file beside the ledger's main file, of bounded size. It is
// given to Edit, TidyFile and FixFile by Options.
//
// From StartJournal to Close no other command with a journal changes the
// ledger. A journal never stops a change: what it could not keep, Notes says.
type Journal struct {
	disk   disk
	main   string // the ledger's main file, links resolved
	shut   error  // why nothing can be kept, nil where it can
	unlock func()
	kept   *journalFile // what it holds; nil until it was read
	now    keptChange   // the command's own change, as far as it has come
	notes  []string
	watch  Watch
	made   int // files that have been changed
}

// JournalSuffix ends the name of the journal: `.NAME.undo` is that of the
// ledger NAME.
const JournalSuffix = ".undo"

// damagedSuffix follows the name of a journal that could not be read.
const damagedSuffix = ".damaged"

// StartJournal begins the change of one command. main is the ledger's main
// file, command says in words what is done, at is the time. A main file that is
// not there, or whose folder lets no file be made, has no journal. The error is
// a *ChangeError where another command does not let go of the ledger.
// watch is asked and told while the command waits, and later for each file.
func StartJournal(main, command string, at time.Time, watch Watch) (*Journal, error) {
	return startJournal(osDisk{}, main, lockWait, keptChange{Command: command, At: at}, watch)
}

func startJournal(d disk, main string, wait time.Duration, now keptChange, watch Watch) (*Journal, error) {
	j := &Journal{disk: journalDisk{d}, main: main, now: now, unlock: func() {}, watch: watch}
	at, err := d.resolve(main)
	if err != nil {
		j.shut = err
		return j, nil
	}
	j.main = at
	unlock, err := patiently(d, j.base(), wait, watch)
	switch {
	case errors.Is(err, ErrBusy), errors.Is(err, ErrStopped):
		return nil, &ChangeError{Path: main, Doing: "change", Err: err}
	case err != nil:
		j.shut = err
	default:
		j.unlock = unlock
	}
	return j, nil
}

// journalDisk is the file system under a journal: its steps are not those of the
// ledger's file.
type journalDisk struct{ disk }

func (d journalDisk) reached(step string) { d.disk.reached("journal " + step) }

// base is what lock and temporary files of the journal are named after.
func (j *Journal) base() string { return j.main + JournalSuffix }

// path is the journal's file.
func (j *Journal) path() string { return beside(j.main, JournalSuffix) }

// Close lets other commands change the ledger.
func (j *Journal) Close() { j.unlock() }

// Notes are what a person should know about this change, a sentence each: that it
// cannot be taken back, that a file lost what it bore beside its text.
func (j *Journal) Notes() []string { return j.notes }

// Made counts the files that have been changed.
func (j *Journal) Made() int { return j.made }

// watching is the watch of the command; nobody watches where there is no journal.
func (j *Journal) watching() Watch {
	if j == nil {
		return Watch{}
	}
	return j.watch
}

// renewed counts a file that has its new text. Other names of the former file
// keep the former text.
func (j *Journal) renewed(path string, old fs.FileInfo) {
	if j == nil {
		return
	}
	j.made++
	if n := otherNames(old); n > 0 {
		j.note("%s had %s (hard links), which keep the former text", filepath.Base(path), display.Counted(n, "other name", "other names"))
	}
}

// note says what there is to know, once.
func (j *Journal) note(format string, args ...any) {
	if j == nil {
		return
	}
	text := fmt.Sprintf(format, args...)
	if len(j.notes) == 0 || j.notes[len(j.notes)-1] != text {
		j.notes = append(j.notes, text)
	}
}

// keep writes down what takes one file's change back. It is called under the
// file's lock, before the new text bears the file's name.
func (j *Journal) keep(path string, like fs.FileInfo, was, is string) {
	switch {
	case j == nil:
		return
	case j.shut != nil:
		j.note("this change cannot be taken back: no journal beside %s: %s", filepath.Base(j.main), plainCause(j.shut))
		return
	case j.kept == nil:
		j.kept = j.readOrBegin()
	}
	j.now.Files = append(j.now.Files, differ(j.relative(path), was, is))
	j.kept.left(j.relative(path), is)
	if err := j.write(j.kept.with(j.now), like); err != nil {
		j.note("this change cannot be taken back: cannot write %s: %s", filepath.Base(j.path()), plainChange(err))
		return
	}
	if j.now.size() > MaxUndoBytes {
		j.note("this change cannot be taken back: it is larger than the %d MiB that are kept", MaxUndoBytes>>20)
	}
}

// forget takes back what keep wrote of a file that was not changed after all. A
// journal that keeps it all the same does no harm: the file's bytes are not
// those of the entry.
func (j *Journal) forget() {
	if j == nil || j.kept == nil {
		return
	}
	j.now.Files = j.now.Files[:len(j.now.Files)-1]
	_ = j.write(j.kept.with(j.now), nil)
}

// readOrBegin reads what the journal holds. One that cannot be understood is set
// aside, and said to be.
func (j *Journal) readOrBegin() *journalFile {
	kept, err := j.read()
	if err == nil {
		return kept
	}
	name := filepath.Base(j.path())
	if moved := j.disk.rename(j.path(), j.path()+damagedSuffix); moved != nil {
		j.note("changes before this one cannot be taken back: cannot read %s: %s", name, plainCause(err))
	} else {
		j.note("changes before this one cannot be taken back: cannot read %s: %s; it is kept as %s", name, plainCause(err), name+damagedSuffix)
	}
	return &journalFile{Format: journalFormat}
}

// read reads the journal, an empty one where there is none.
func (j *Journal) read() (*journalFile, error) {
	text, _, err := j.disk.read(j.path())
	if errors.Is(err, fs.ErrNotExist) {
		return &journalFile{Format: journalFormat}, nil
	}
	if err != nil {
		return nil, err
	}
	return parseJournal(text)
}

// write puts another text in the journal's place, whole or not at all, and down
// to the disk. Nobody may read it who may not read the ledger's main file and
// the file that like is of, nil where there is none.
func (j *Journal) write(file journalFile, like fs.FileInfo) error {
	text, err := file.text()
	if err != nil {
		return err
	}
	main, err := j.disk.stat(j.main)
	if err != nil {
		return err
	}
	dir, err := j.disk.openFolder(filepath.Dir(j.main))
	if err != nil {
		return err
	}
	defer dir.Close()
	c := changer{disk: j.disk, shown: j.path()}
	c.clearStale(j.base())
	temp, err := tempName(j.base())
	if err != nil {
		return err
	}
	if err := c.writeTemp(temp, "", j.modeOf(main, like), text); err != nil {
		_ = j.disk.remove(temp)
		return err
	}
	if err := j.disk.rename(temp, j.path()); err != nil {
		_ = j.disk.remove(temp)
		return err
	}
	j.disk.reached(stepRenamed)
	return dir.Sync()
}

// modeOf is the main file's owner, with the permissions that it, the changed
// file and the journal so far all give.
func (j *Journal) modeOf(main, like fs.FileInfo) fs.FileInfo {
	mode := main.Mode()
	if like != nil {
		mode &= like.Mode()
	}
	if was, err := j.disk.stat(j.path()); err == nil {
		mode &= was.Mode()
	}
	return withMode{main, mode}
}

// withMode is a file's facts with other permissions.
type withMode struct {
	fs.FileInfo
	mode fs.FileMode
}

func (m withMode) Mode() fs.FileMode { return m.mode }

// relative is the name of a ledger's file in the journal: its path from the
// folder of the main file, so that the folder can be moved.
func (j *Journal) relative(path string) string {
	rel, err := filepath.Rel(filepath.Dir(j.main), path)
	if err != nil {
		rel = path
	}
	return filepath.ToSlash(rel)
}

// plainChange is the cause of an error of writing the journal.
func plainChange(err error) string {
	var change *ChangeError
	if errors.As(err, &change) {
		err = change.Err
	}
	return plainCause(err)
}
