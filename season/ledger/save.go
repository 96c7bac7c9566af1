package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"boxbook/report/display"
)

// Change changes a ledger file on disk, as a whole or not at all.
//
// A symbolic link is followed. The file is locked against other changes by
// this program, read, and its text given to edit; where that gives another
// text, check must agree to it. The new text is then written to a temporary
// file beside the ledger, synced, and put in its place under its name; the
// permissions are kept, and the owner where the system lets it. A crash at any
// moment leaves the old or the new file, whole; what it leaves lying about is
// cleared away by the next change.
//
// An error of edit or check is given back as it is; anything else is a
// *ChangeError. After an error the ledger is as it was, but for the one case
// that ChangeError names.
func Change(path string, edit func(old string) (string, error), check func(new string) error) error {
	return changeKept(path, nil, edit, check)
}

// changeKept is Change, with what takes the change back kept in a journal
// before the new text is in place; nil keeps nothing.
func changeKept(path string, journal *Journal, edit func(string) (string, error), check func(string) error) error {
	return changer{disk: osDisk{}, shown: path, wait: lockWait, journal: journal, watch: journal.watching()}.change(edit, check)
}

// Watch is how a change speaks with whoever waits for it. Each part may be nil.
type Watch struct {
	// Waiting is called when the change has to wait for another one, once.
	Waiting func()
	// Stopped reports whether the change is no longer wanted. It is asked until
	// the new text is about to be put in its place; from then on the change is
	// made.
	Stopped func() bool
}

func (w Watch) waiting() {
	if w.Waiting != nil {
		w.Waiting()
	}
}

func (w Watch) stopped() bool { return w.Stopped != nil && w.Stopped() }

// lockWait is how long a change waits for another one to finish, and patience
// how long it does so without a word.
const (
	lockWait = 10 * time.Second
	patience = 400 * time.Millisecond
)

// ChangeError says that a ledger file could not be changed.
type ChangeError struct {
	Path  string // as it was given
	Doing string // "write the new text"
	Err   error
	// Changed says that the new text is in place, whole, and that the file
	// system did not confirm it: it may not outlast a power cut.
	Changed bool
}

// Error says what could not be done and how the ledger was left.
func (e *ChangeError) Error() string {
	path := display.OneLine(e.Path)
	if e.Changed {
		return fmt.Sprintf("%s is changed, but the system could not %s: %s", path, e.Doing, plainCause(e.Err))
	}
	return fmt.Sprintf("cannot %s %s: %s; the ledger is as it was", e.Doing, path, plainCause(e.Err))
}

// Failure says what could not be done, without a word on how the ledger was left.
func (e *ChangeError) Failure() string {
	if e.Changed {
		return fmt.Sprintf("the system could not %s of %s: %s", e.Doing, display.OneLine(e.Path), plainCause(e.Err))
	}
	return fmt.Sprintf("cannot %s %s: %s", e.Doing, display.OneLine(e.Path), plainCause(e.Err))
}

// Unwrap gives the cause.
func (e *ChangeError) Unwrap() error { return e.Err }

// plainCause is a file error without its operation and its paths.
func plainCause(err error) string {
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err.Error()
	}
	return reason(err)
}

// Causes of a ChangeError that are no file errors.
var (
	ErrBusy       = errors.New("another boxbook is changing it; try again")
	ErrMeanwhile  = errors.New("another program changed it meanwhile; try again")
	ErrNotRegular = errors.New("it is not a plain file")
	ErrStopped    = errors.New("it was stopped")
)

// errNoExchange says that the system cannot let two files change places.
var errNoExchange = errors.New("files cannot be exchanged here")

// disk is what a change asks of the file system, so that tests can let each
// step fail, and stop between two.
type disk interface {
	resolve(path string) (string, error)
	lock(path string, wait time.Duration) (unlock func(), err error)
	list(dir string) ([]fs.DirEntry, error)
	read(path string) (string, fs.FileInfo, error)
	openFolder(path string) (folder, error)
	create(path string) (tempFile, error)
	stat(path string) (fs.FileInfo, error)
	same(one, other fs.FileInfo) bool
	rename(from, to string) error
	// exchange lets two files change places in one step; errNoExchange where that
	// cannot be done, and nothing was.
	exchange(one, other string) error
	// link gives a file a second name, which must not be there.
	link(from, to string) error
	remove(path string) error
	reached(step string)
}

// tempFile is a new file on its way.
type tempFile interface {
	WriteString(text string) (int, error)
	likeOwner(of fs.FileInfo) error
	likeMode(of fs.FileInfo) error
	likeExtras(of string) (kept bool, err error)
	Sync() error
	Close() error
}

// folder is an open folder, whose entries are synced like a file's bytes.
type folder interface {
	Sync() error
	Close() error
}

// The steps at which a change can be stopped, for tests that end the process
// there.
const (
	stepLocked  = "locked"
	stepOpened  = "opened"  // the temporary file is there, empty
	stepWritten = "written" // all its bytes are written
	stepSynced  = "synced"  // and on the disk
	stepKept    = "kept"    // the journal has what takes it back
	stepSwapped = "swapped" // it bears the ledger's name, and the former text its own
	stepRenamed = "renamed" // it bears the ledger's name
)

// changer makes one change.
type changer struct {
	disk
	shown string // the path as it was given, for messages
	wait  time.Duration
	// journal keeps what takes the change back; nil keeps nothing.
	journal *Journal
	watch   Watch
}

func (c changer) fail(doing string, err error) error {
	return &ChangeError{Path: c.shown, Doing: doing, Err: err}
}

func (c changer) change(edit func(string) (string, error), check func(string) error) error {
	path, err := c.resolve(c.shown)
	if err != nil {
		return c.fail("find", err)
	}
	unlock, err := patiently(c.disk, path, c.wait, c.watch)
	switch {
	case errors.Is(err, ErrBusy), errors.Is(err, ErrStopped):
		return c.fail("change", err)
	case err != nil:
		return c.fail("make a lock file beside", err)
	}
	defer unlock()
	c.reached(stepLocked)
	c.clearStale(path)
	old, info, err := c.read(path)
	if err != nil {
		return c.fail("open", err)
	}
	text, err := edit(old)
	if err != nil || text == old {
		return err
	}
	if err := check(text); err != nil {
		return err
	}
	return c.replace(path, info, old, text)
}

// patiently takes a lock, says so where it is not to be had at once, and gives up
// when it is told to.
func patiently(d disk, path string, wait time.Duration, watch Watch) (unlock func(), err error) {
	for waited := time.Duration(0); ; waited += patience {
		unlock, err = d.lock(path, min(patience, wait-waited))
		switch {
		case !errors.Is(err, ErrBusy) || waited+patience >= wait:
			return unlock, err
		case watch.stopped():
			return nil, ErrStopped
		case waited == 0:
			watch.waiting()
		}
	}
}

// replace puts a new text in the place of the file. The folder is opened first,
// so that one that cannot be synced is found out before anything is done. The
// journal is written between the new text and its name: an entry is of a text
// that is on the disk, and one whose text never got the name is known by the
// ledger's bytes.
func (c changer) replace(path string, old fs.FileInfo, was, text string) error {
	dir, err := c.openFolder(filepath.Dir(path))
	if err != nil {
		return c.fail("open the folder of", err)
	}
	defer dir.Close()
	temp, err := tempName(path)
	if err != nil {
		return c.fail("name a temporary file for", err)
	}
	if err := c.writeTemp(temp, path, old, text); err != nil {
		_ = c.remove(temp) // what cannot be removed now is cleared away by the next change
		return err
	}
	c.journal.keep(path, old, was, text)
	c.reached(stepKept)
	if err := c.swap(temp, path, old, was, text); err != nil {
		c.journal.forget()
		return err
	}
	c.journal.renewed(path, old)
	c.reached(stepRenamed)
	if err := dir.Sync(); err != nil {
		return &ChangeError{Path: c.shown, Doing: "sync its folder", Err: err, Changed: true}
	}
	return nil
}

// writeTemp writes the new text to a temporary file, down to the disk. It gets
// what else the file of that path bears; where that has nothing of its own path
// is "".
func (c changer) writeTemp(temp, path string, old fs.FileInfo, text string) error {
	f, err := c.create(temp)
	if err != nil {
		return c.fail("write a temporary file beside", err)
	}
	c.reached(stepOpened)
	steps := []struct {
		doing string
		do    func() error
	}{
		{"write the new text of", func() error { _, err := f.WriteString(text); return err }},
		{"keep the owner of", func() error { return f.likeOwner(old) }},
		{"keep the permissions of", func() error { return f.likeMode(old) }},
		{"keep who may read", func() error {
			kept, err := f.likeExtras(path)
			if !kept {
				c.journal.note("%s loses what its file system kept beside it: its access list or its attributes", filepath.Base(path))
			}
			return err
		}},
		{"sync the new text of", func() error { c.reached(stepWritten); return f.Sync() }},
	}
	for _, step := range steps {
		if err := step.do(); err != nil {
			_ = f.Close() // the file is given up
			return c.fail(step.doing, err)
		}
	}
	if err := f.Close(); err != nil {
		return c.fail("close the new text of", err)
	}
	c.reached(stepSynced)
	return nil
}

// swap gives the temporary file the ledger's name, unless a program that knows
// no lock, an editor say, has saved the ledger since it was read. Where the system
// can let the two files change places, what came out is compared byte for byte,
// and goes back if it is not what was read: no save is lost, whenever it comes.
// Elsewhere one that comes between the last look and the rename is.
func (c changer) swap(temp, path string, old fs.FileInfo, was, text string) error {
	err := c.unchanged(path, old)
	if err == nil && c.watch.stopped() {
		err = c.fail("change", ErrStopped)
	}
	if err == nil {
		err = c.exchange(temp, path)
	}
	switch {
	case err == nil:
		return c.settle(temp, path, old, was, text)
	case errors.Is(err, errNoExchange):
		err = c.rename(temp, path)
	}
	var said *ChangeError
	switch {
	case err == nil:
		return nil
	case !errors.As(err, &said):
		err = c.fail("replace", err)
	}
	_ = c.remove(temp)
	return err
}

// unchanged looks whether a file is still the one that was read.
func (c changer) unchanged(path string, old fs.FileInfo) error {
	now, err := c.stat(path)
	if err != nil {
		return c.fail("look at", err)
	}
	if !c.same(old, now) || !old.ModTime().Equal(now.ModTime()) || old.Size() != now.Size() {
		return c.fail("change", ErrMeanwhile)
	}
	return nil
}

// settle ends an exchange: what came out is removed if it is what was read, else
// it goes back.
func (c changer) settle(temp, path string, old fs.FileInfo, was, text string) error {
	c.reached(stepSwapped)
	if out, info, err := c.read(temp); err == nil && out == was && c.same(old, info) {
		_ = c.remove(temp)
		return nil
	}
	if err := c.exchange(temp, path); err != nil {
		return &ChangeError{Path: c.shown, Doing: "put back what another program saved meanwhile, which is in " + filepath.Base(temp) + ", in the place of", Err: err}
	}
	if out, _, err := c.read(temp); err != nil || out != text { // saved twice within a moment: keep both
		aside := strings.TrimSuffix(temp, filepath.Ext(temp)) + ".saved"
		_ = c.rename(temp, aside)
		return c.fail("change", fmt.Errorf("%w; what it saved last is in %s", ErrMeanwhile, filepath.Base(aside)))
	}
	_ = c.remove(temp)
	return c.fail("change", ErrMeanwhile)
}

// clearStale removes the temporary files of changes that were cut off. Only
// who holds the lock makes such files, so whatever is found is nobody's. A
// folder that does not let itself be cleared is no reason to change nothing.
func (c changer) clearStale(path string) {
	dir := filepath.Dir(path)
	entries, err := c.list(dir)
	if err != nil {
		return
	}
	for _, entry := range entries {
		if entry.Type().IsRegular() && isTempName(entry.Name(), path) {
			_ = c.remove(filepath.Join(dir, entry.Name()))
		}
	}
}
