package ledger

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"boxbook/report/display"
)

// Begin writes a ledger that is not there yet, as a whole or not at all, down to
// the disk. The error is fs.ErrExist where there is a file of that name.
func Begin(path, text string) error {
	return changer{disk: osDisk{}, shown: path}.begin(text)
}

// Withdraw takes a ledger away that was begun empty and that nothing was written
// into. Where another one has since, or is about to, it stays.
func Withdraw(path string) {
	d := osDisk{}
	path, err := d.resolve(path)
	if err != nil {
		return
	}
	unlock, err := d.lock(path, patience)
	if err != nil {
		return
	}
	defer unlock()
	if info, err := d.stat(path); err == nil && info.Mode().IsRegular() && info.Size() == 0 {
		_ = d.remove(path)
	}
}

// BeginError says that a file could not be written.
type BeginError struct {
	Path string
	Err  error
}

func (e *BeginError) Error() string {
	return fmt.Sprintf("cannot write %s: %s", display.OneLine(e.Path), plainCause(e.Err))
}

// Unwrap gives the cause.
func (e *BeginError) Unwrap() error { return e.Err }

// begin writes the text under another name first. Where a file cannot have two
// names the new one is renamed, after a last look that there is none.
func (c changer) begin(text string) error {
	failed := func(err error) error {
		var change *ChangeError
		if errors.As(err, &change) {
			err = change.Err
		}
		return &BeginError{c.shown, err}
	}
	path := c.shown
	if _, err := c.stat(path); err == nil {
		return fs.ErrExist
	}
	dir, err := c.openFolder(filepath.Dir(path))
	if err != nil {
		return failed(err)
	}
	defer dir.Close()
	temp, err := tempName(path)
	if err != nil {
		return failed(err)
	}
	if err := c.writeTemp(temp, "", newFile{}, text); err != nil {
		_ = c.remove(temp)
		return failed(err)
	}
	err = c.link(temp, path)
	if err != nil && !errors.Is(err, fs.ErrExist) {
		if _, there := c.stat(path); there == nil {
			err = fs.ErrExist
		} else {
			err = c.rename(temp, path)
		}
	}
	_ = c.remove(temp) // it is gone where it was renamed
	if errors.Is(err, fs.ErrExist) {
		return fs.ErrExist
	}
	if err == nil {
		err = dir.Sync()
	}
	if err != nil {
		return failed(err)
	}
	return nil
}

// newFile are the facts of a file that is like no other: the permissions of a new
// one, before the user's mask.
type newFile struct{ fs.FileInfo }

func (newFile) Mode() fs.FileMode { return newMode &^ mask() }
func (newFile) Sys() any          { return nil }

// newMode is that of a new ledger, before the user's mask.
const newMode fs.FileMode = 0o644
