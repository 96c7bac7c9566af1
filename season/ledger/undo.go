package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"time"
	"unicode"

	"boxbook/report/display"
)

// Undoing is the last change of a ledger that is still in place, and how its
// files read without it; or the last that was taken back, and how they read with it.
type Undoing struct {
	Command string // what was done, in words
	At      time.Time
	Files   []UndoneFile
	// Errors is how many errors the ledger has now, and when it is done.
	Errors struct{ Now, Former int }

	find func(*ledgerFiles, *Journal) (*Undoing, error) // as this one was found
	left string                                         // what is said of the ledger where nothing is done
	rest *journalFile                                   // the journal when it is done
	// first is the journal before it is done, with what makes it good again.
	first *journalFile
	// stale says that the journal has later changes that are not in place.
	stale bool
}

// UndoneFile is one file of a change.
type UndoneFile struct {
	Name   string // as messages name it
	Path   string // where it is read
	Now    string // its text, as the change left it
	Former string // its text before the change; of one that was taken back, with it

	kept string // its name in the journal
}

// UndoError says why nothing is taken back.
type UndoError struct{ text string }

// Error is one sentence, and on a line of its own what else is known.
func (e *UndoError) Error() string { return e.text }

// noUndo says why nothing can be taken back; texts in it, which may be of a file or
// its name, reach the screen as one line each.
func noUndo(format string, args ...any) error {
	for i, arg := range args {
		if text, ok := arg.(string); ok {
			args[i] = display.OneLine(text)
		}
	}
	return &UndoError{fmt.Sprintf(format, args...)}
}

// PlanUndo finds the program's own last change of a ledger, and writes nothing.
// It is an *UndoError where there is none, or where a file of it has changed
// since; a *ChangeError where the ledger's folder cannot be locked.
func PlanUndo(opts Options) (*Undoing, error) { return planUndo(osDisk{}, opts) }

// PlanPutBack finds the last change that was taken back and can be put back, and
// writes nothing. Its errors are those of PlanUndo.
func PlanPutBack(opts Options) (*Undoing, error) {
	return planBy(osDisk{}, opts, (*ledgerFiles).planPutBack)
}

func planUndo(d disk, opts Options) (*Undoing, error) { return planBy(d, opts, (*ledgerFiles).plan) }

func planBy(d disk, opts Options, find func(*ledgerFiles, *Journal) (*Undoing, error)) (*Undoing, error) {
	l, err := locateLedger(d, opts)
	if err != nil {
		return nil, err
	}
	var u *Undoing
	err = l.locked(func(j *Journal) error {
		u, err = find(l, j)
		return err
	})
	if err != nil {
		return nil, err
	}
	u.find = find
	return u, u.countErrors(opts)
}

// TakeBack takes the change back, or puts it back, if it is still the last one and its
// files are as they were when it was planned; else it is an *UndoError. All its files
// get their other text, or none. What notes say is no reason to worry about the ledger.
func (u *Undoing) TakeBack(opts Options) (notes []string, err error) {
	return u.takeBack(osDisk{}, opts)
}

func (u *Undoing) takeBack(d disk, opts Options) (notes []string, err error) {
	l, err := locateLedger(d, opts)
	if err != nil {
		return nil, err
	}
	err = l.locked(func(j *Journal) error {
		again, err := u.find(l, j)
		if err != nil {
			return err
		}
		if !u.same(again) {
			return noUndo("the ledger was changed meanwhile; %s", u.left)
		}
		if err := again.prepare(d, j); err != nil {
			return err
		}
		if err := again.restore(d, opts.Watch); err != nil {
			return err
		}
		for _, f := range again.Files {
			again.rest.left(f.kept, f.Former)
		}
		if err := j.write(*again.rest, nil); err != nil {
			j.note("cannot write %s: %s", filepath.Base(j.path()), plainChange(err))
		}
		notes = j.Notes()
		return nil
	})
	return notes, err
}

// ledgerFiles are the files of a ledger whose change is to be taken back.
type ledgerFiles struct {
	disk    disk
	opts    Options
	main    string            // the main file's path
	sources map[string]Source // by resolved path
}

// locateLedger finds the files that a ledger has now.
func locateLedger(d disk, opts Options) (*ledgerFiles, error) {
	result, sources, err := LoadSources(opts)
	if err != nil {
		return nil, err
	}
	l := &ledgerFiles{disk: d, opts: opts, main: result.Main, sources: map[string]Source{}}
	for _, source := range sources {
		at, err := opts.Files.Locate(source.Path)
		if err != nil {
			return nil, err
		}
		l.sources[at] = source
	}
	return l, nil
}

// locked does something while no other command changes the ledger.
func (l *ledgerFiles) locked(do func(j *Journal) error) error {
	j, err := startJournal(l.disk, l.main, lockWait, keptChange{}, l.opts.Watch)
	if err != nil {
		return err
	}
	defer j.Close()
	if j.shut != nil {
		return &ChangeError{Path: l.main, Doing: "make a lock file beside", Err: j.shut}
	}
	return do(j)
}

// plan finds the last change that is in place. A change none of whose files has
// its text was cut off before it began, or has been taken back already.
func (l *ledgerFiles) plan(j *Journal) (*Undoing, error) {
	kept, err := j.read()
	if err != nil {
		return nil, noUndo("nothing can be taken back: cannot read %s: %s", filepath.Base(j.path()), plainCause(err))
	}
	for i, c := range slices.Backward(kept.Changes) {
		files, err := l.inPlace(j, kept, c)
		if err != nil {
			return nil, err
		}
		if len(files) > 0 {
			undone := reversed(c, files)
			return &Undoing{
				Command: c.Command, At: c.At, Files: files, left: nothingTaken, stale: i+1 < len(kept.Changes),
				first: kept.first(i + 1).withUndone(undone), rest: kept.first(i).withUndone(undone),
			}, nil
		}
	}
	return nil, noUndo("nothing to take back: no change that boxbook made in %s is kept", l.main)
}

// planPutBack finds the last change that was taken back, in a ledger whose files are as
// that left them.
func (l *ledgerFiles) planPutBack(j *Journal) (*Undoing, error) {
	kept, err := j.read()
	if err != nil {
		return nil, noUndo("nothing can be put back: cannot read %s: %s", filepath.Base(j.path()), plainCause(err))
	}
	for i, c := range slices.Backward(kept.Undone) {
		files, err := l.asUndone(j, c)
		if err != nil {
			return nil, err
		}
		if len(files) == 0 {
			continue
		}
		first := kept.with(reversed(c, files))
		rest := first
		rest.Undone = slices.Delete(slices.Clone(kept.Undone), i, i+1)
		return &Undoing{Command: c.Command, At: c.At, Files: files, left: nothingPut, first: &first, rest: &rest}, nil
	}
	if len(kept.Undone) == 0 {
		return nil, noUndo("nothing to put back: no change that boxbook took back in %s is kept", l.main)
	}
	last := kept.Undone[len(kept.Undone)-1]
	return nil, noUndo("%s has changed since %s was taken back; %s", l.main, last, nothingPut)
}

// asUndone gives the files of a change that was taken back, nil where one of them has
// another text than that left, or is no file of the ledger now.
func (l *ledgerFiles) asUndone(j *Journal, c keptChange) ([]UndoneFile, error) {
	var files []UndoneFile
	for _, f := range c.Files {
		at, known := l.sources[filepath.Join(filepath.Dir(j.main), filepath.FromSlash(f.File))]
		if !known {
			return nil, nil
		}
		text, err := l.opts.Files.Read(at.Path)
		if err != nil {
			return nil, err
		}
		if sumOf(text) != f.After {
			return nil, nil
		}
		with, ok := f.former(text)
		if !ok || c.TooLarge {
			return nil, j.cannot("the last change that was taken back", c, "put back")
		}
		files = append(files, UndoneFile{Name: at.Name, Path: at.Path, Now: text, Former: with, kept: f.File})
	}
	return files, l.mayPutBack(c, files)
}

// cannot says why a change is past undoing: not all of it was kept, or the journal lost it.
func (j *Journal) cannot(which string, c keptChange, be string) error {
	if c.TooLarge {
		return noUndo("%s, %s, cannot be %s: it is larger than the %d MiB that are kept", which, c, be, MaxUndoBytes>>20)
	}
	return noUndo("%s, %s, cannot be %s: %s is damaged", which, c, be, filepath.Base(j.path()))
}

// reversed is a change the other way round, of the files that it is of now.
func reversed(c keptChange, files []UndoneFile) keptChange {
	c.Files, c.TooLarge = nil, false
	for _, f := range files {
		c.Files = append(c.Files, differ(f.kept, f.Now, f.Former))
	}
	return c
}

// inPlace gives the files of a change that have the text it left, and refuses
// where one has neither that nor the one before.
func (l *ledgerFiles) inPlace(j *Journal, kept *journalFile, c keptChange) ([]UndoneFile, error) {
	var files []UndoneFile
	for _, f := range c.Files {
		at, known := l.sources[filepath.Join(filepath.Dir(j.main), filepath.FromSlash(f.File))]
		if !known {
			return nil, noUndo("the last change, %s, is of %s, which is no file of the ledger now; nothing was taken back", c, f.File)
		}
		text, err := l.opts.Files.Read(at.Path)
		if err != nil {
			return nil, err
		}
		switch sumOf(text) {
		case f.Before:
			continue
		case f.After:
		default:
			return nil, changedSince(kept, c, f, at.Name, text)
		}
		was, ok := f.former(text)
		if !ok || c.TooLarge {
			return nil, j.cannot("the last change", c, "taken back")
		}
		files = append(files, UndoneFile{Name: at.Name, Path: at.Path, Now: text, Former: was, kept: f.File})
	}
	return files, l.mayChange(c, files)
}

// mayChange refuses other files than the one given, where that is part of a
// ledger: the rest is somebody else's.
func (l *ledgerFiles) mayChange(c keptChange, files []UndoneFile) error {
	other, err := l.another(files)
	if other == nil || err != nil {
		return err
	}
	return noUndo("the last change, %s, was made in %s; boxbook undo -f %s takes it back", c, other.Name, filepath.ToSlash(l.main))
}

// mayPutBack is mayChange of a change that was taken back.
func (l *ledgerFiles) mayPutBack(c keptChange, files []UndoneFile) error {
	other, err := l.another(files)
	if other == nil || err != nil {
		return err
	}
	return noUndo("the last change that was taken back, %s, is of %s; boxbook undo --back -f %s puts it back", c, other.Name, filepath.ToSlash(l.main))
}

// another is the first of some files that is not the one given, where that is part of a
// ledger; nil where there is none.
func (l *ledgerFiles) another(files []UndoneFile) (*UndoneFile, error) {
	if l.main == l.opts.Main {
		return nil, nil
	}
	own, err := l.opts.Files.Locate(l.opts.Main)
	if err != nil {
		return nil, err
	}
	for i, f := range files {
		if at, err := l.opts.Files.Locate(f.Path); err != nil || at != own {
			return &files[i], nil
		}
	}
	return nil, nil
}

// String names a change: what was done, and when.
func (c keptChange) String() string { return nameChange(c.Command, c.At) }

// String names the change: what was done, and when.
func (u *Undoing) String() string { return nameChange(u.Command, u.At) }

// nameChange quotes what was done as a person may be shown it: a journal is a file
// that anybody may have written.
func nameChange(command string, at time.Time) string {
	return fmt.Sprintf("\"%s\" of %s", display.OneLine(command), at.Format("2006-01-02 15:04"))
}

// changedSince says what another program changed, as far as that is known.
func changedSince(kept *journalFile, c keptChange, f keptFile, name, text string) error {
	since := fmt.Sprintf("%s has changed since the last change that boxbook made, %s; nothing was taken back", name, c)
	sums, ok := kept.leftAs(f.File, f.After)
	if !ok {
		return noUndo("%s", since)
	}
	n, line, gone := firstOther(sums, text)
	if gone {
		return noUndo("%s\n  it now ends before line %d", since, n)
	}
	return noUndo("%s\n  line %d is now: %s", since, n, shownLine(line))
}

// maxShownLine bounds how much of a line is shown, in characters.
const maxShownLine = 60

// shownLine is a line as it can be shown anywhere.
func shownLine(line string) string {
	printable := func(r rune) rune {
		switch {
		case unicode.IsPrint(r):
			return r
		case r == '\t':
			return ' '
		default:
			return unicode.ReplacementChar
		}
	}
	runes := []rune(strings.TrimSpace(strings.Map(printable, line)))
	if len(runes) <= maxShownLine {
		return string(runes)
	}
	return strings.TrimSpace(string(runes[:maxShownLine])) + " ..."
}

// same reports whether two plans take the same back.
func (u *Undoing) same(o *Undoing) bool {
	return u.Command == o.Command && u.At.Equal(o.At) && slices.Equal(u.Files, o.Files)
}

// countErrors reads the ledger with the change and without it.
func (u *Undoing) countErrors(opts Options) error {
	now, err := Load(opts)
	if err != nil {
		return err
	}
	for _, f := range u.Files {
		opts = opts.With(f.Path, f.Former)
	}
	former, err := Load(opts)
	if err != nil {
		return err
	}
	u.Errors.Now, u.Errors.Former = now.Diagnostics.Errors(), former.Diagnostics.Errors()
	return nil
}

// What is said of a ledger in which nothing is done.
const (
	nothingTaken = "nothing was taken back"
	nothingPut   = "nothing was put back"
)

// prepare writes into the journal, before any file is changed, what makes it good again:
// an entry that the files do not bear out does no harm. Later changes are taken out of it
// first: they are known not to be in place by the text that the ledger has now, and would
// be taken for another program's if this process ended before the journal is written again.
func (u *Undoing) prepare(d disk, j *Journal) error {
	err := j.write(*u.first, u.like(d))
	switch {
	case err == nil:
		return nil
	case u.stale:
		return noUndo("%s: cannot write %s: %s", u.left, filepath.Base(j.path()), plainChange(err))
	default:
		j.note("this cannot be made good by undo: cannot write %s: %s", filepath.Base(j.path()), plainChange(err))
		return nil
	}
}

// like has the permissions that all files give which are changed; nil where none is known.
func (u *Undoing) like(d disk) fs.FileInfo {
	var like fs.FileInfo
	for _, f := range u.Files {
		at, err := d.resolve(f.Path)
		if err != nil {
			continue
		}
		info, err := d.stat(at)
		switch {
		case err != nil:
		case like == nil:
			like = info
		default:
			like = withMode{info, info.Mode() & like.Mode()}
		}
	}
	return like
}

// restore gives every file its former text. Where one cannot have it, those
// before it get theirs back.
func (u *Undoing) restore(d disk, watch Watch) error {
	for i, f := range u.Files {
		err := u.turn(f, d, watch, f.Now, f.Former)
		if err == nil {
			continue
		}
		for _, done := range slices.Backward(u.Files[:i]) {
			err = errors.Join(err, u.turn(done, d, Watch{}, done.Former, done.Now))
		}
		return err
	}
	return nil
}

// turn changes a file from one text to another, if that is the one it has.
func (u *Undoing) turn(f UndoneFile, d disk, watch Watch, from, to string) error {
	c := changer{disk: d, shown: f.Path, wait: lockWait, watch: watch}
	return c.change(func(text string) (string, error) {
		if text != from {
			return "", noUndo("%s was changed meanwhile; %s", f.Name, u.left)
		}
		return to, nil
	}, func(string) error { return nil })
}
