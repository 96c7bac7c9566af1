package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season/ledger"
)

// record writes an entry into the ledger, and says so. What it needed and the
// ledger lacked goes before it, into the same file.
func (a *app) record(adds ...entry.Addition) error {
	path, err := a.writablePath()
	if err != nil {
		return err
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return err
	}
	file := fileOf(path, adds)
	err = ledger.Edit(opts, file, func(old string) (string, error) { return withAll(old, adds) })
	var invalid *ledger.InvalidError
	if errors.As(err, &invalid) {
		return &additionError{invalid}
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(a.out, "added %s to %s\n", adds[len(adds)-1].Said, filepath.ToSlash(file))
	return err
}

// fileOf is the file that additions go into: that of the block that gets
// lines, else the ledger's own.
func fileOf(path string, adds []entry.Addition) string {
	for _, add := range adds {
		if add.Into != nil {
			return filepath.FromSlash(add.Into.File)
		}
	}
	return path
}

// withAll is a file's text with additions, one after the other.
func withAll(text string, adds []entry.Addition) (string, error) {
	for _, add := range adds {
		var err error
		if text, err = add.Added(text); err != nil {
			return "", err
		}
	}
	return text, nil
}

// ledgerOrNew is the ledger to write into; an empty folder is to get a new one.
func (a *app) ledgerOrNew() (string, error) {
	path, err := a.ledgerPath()
	switch {
	case errors.Is(err, errNoLedger):
		return newLedger, nil
	case err == nil && path == stdinName:
		return "", errWriteStdin
	default:
		return path, err
	}
}

// writablePath is the ledger to write into, begun where there is none.
func (a *app) writablePath() (string, error) {
	path, err := a.ledgerOrNew()
	if err != nil {
		return "", err
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		if err := writeNew(path, ""); err != nil {
			return "", err
		}
		fmt.Fprintf(a.out, "began a new ledger, %s\n", filepath.ToSlash(path))
	}
	return path, nil
}

// preview reads the ledger as it would be with additions.
func (a *app) preview(path string, adds ...entry.Addition) (*ledger.Result, error) {
	opts, err := a.readOptions(path)
	if err != nil {
		return nil, err
	}
	opts.Files = withMore{ledger.Disk{}, fileOf(path, adds), adds}
	result, err := ledger.Load(opts)
	if err != nil {
		return nil, readError(path, err)
	}
	return result, nil
}

// withMore is the disk with additions to one file; where there is no such file
// yet, they are all of it.
type withMore struct {
	ledger.Disk
	path string
	adds []entry.Addition
}

func (w withMore) Read(path string) (string, error) {
	text, err := w.Disk.Read(path)
	if errors.Is(err, os.ErrNotExist) && path == w.path {
		text, err = "", nil
	}
	if err != nil {
		return "", err
	}
	here, err := w.Locate(path)
	if err != nil {
		return "", err
	}
	if there, err := w.Locate(w.path); err != nil || here != there {
		return text, err
	}
	return withAll(text, w.adds)
}

func (w withMore) Locate(path string) (string, error) {
	at, err := w.Disk.Locate(path)
	if errors.Is(err, os.ErrNotExist) && path == w.path {
		return filepath.Abs(path)
	}
	return at, err
}
