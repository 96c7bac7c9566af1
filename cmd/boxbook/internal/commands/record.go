package commands

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season"
	"boxbook/season/ledger"
)

// destination is where additions go.
type destination struct {
	ledger string // the file that was given as the ledger
	main   string // the main file of its ledger, another one where it is part of that
	file   string // the file of the ledger that blocks go into
	named  bool   // the file was named: nothing goes into another one
}

// destination settles where additions go: into the file that --into names, else
// into the one that was given as the ledger. One that is part of another ledger
// is named by that.
func (a *app) destination() (destination, error) {
	path, err := a.ledgerOrNew()
	to := destination{ledger: path, main: path, file: path}
	if err != nil {
		return to, err
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return to, err
	}
	result, err := ledger.Load(opts)
	switch {
	case errors.Is(err, os.ErrNotExist) && a.into == "": // it is begun with the entry
		return to, nil
	case err != nil:
		return to, readError(path, err)
	}
	switch to.main = result.Main; {
	case a.into == "":
		to.named = result.Main != path
		return to, nil
	}
	to.named = true
	for _, to.file = range intoFiles(a.into, result.Main) {
		for _, name := range result.Paths {
			if sameFile(to.file, name) {
				return to, nil
			}
		}
	}
	return to, notIncluded(a.into, result)
}

// intoFiles are the files that a path to write into may mean: of the current folder,
// else of that of the ledger's main file.
func intoFiles(path, main string) []string {
	if filepath.IsAbs(path) {
		return []string{path}
	}
	return []string{path, filepath.Join(filepath.Dir(main), path)}
}

// notIncluded says that a file is none of the ledger's.
func notIncluded(file string, read *ledger.Result) error {
	path := "PATH"
	if within, err := filepath.Rel(filepath.Dir(read.Main), file); err == nil && filepath.IsLocal(within) {
		path = shownName(within)
	}
	return &usageError{
		fmt.Sprintf("%s is no file of the ledger: %s", shownName(file), shownNames(read.Paths)),
		fmt.Sprintf("a file joins the ledger by a line in %s: include %q", shownName(read.Main), path),
	}
}

// takes says why lines cannot go into a block, nil where they can.
func (to destination) takes(block ledger.Target) error {
	if !to.named || sameFile(to.file, block.File) {
		return nil
	}
	return &entry.Refusal{Text: fmt.Sprintf("%s %s stands in %s, not in %s", block.Kind, block.Name, block.File, shownName(to.file))}
}

// fileOf is the file that additions go into: that of the block that gets lines,
// else the one for blocks.
func (to destination) fileOf(adds []entry.Addition) string {
	for _, add := range adds {
		if add.Into != nil {
			return filepath.FromSlash(add.Into.File)
		}
	}
	return to.file
}

// sameFile reports whether two paths name one file.
func sameFile(one, other string) bool {
	here, err := ledger.Disk{}.Locate(filepath.FromSlash(one))
	if err != nil {
		return false
	}
	there, err := ledger.Disk{}.Locate(filepath.FromSlash(other))
	return err == nil && here == there
}

// record writes an entry into the ledger, by the command of that name, and says
// so. What it needed and the ledger lacked goes before it, into the same file. A
// ledger that is not there yet is begun with it, once it is known to hold.
func (a *app) record(command string, to destination, adds ...entry.Addition) error {
	file, said := to.fileOf(adds), adds[len(adds)-1].Said
	begun, err := a.begin(to, adds)
	if err == nil {
		err = a.edit(command+": "+said, to, file, adds)
	}
	if err != nil && begun {
		ledger.Withdraw(to.ledger)
	}
	if err != nil {
		return a.broughtBy(to, err)
	}
	if begun {
		fmt.Fprintf(a.out, "began a new ledger, %s\n", shownName(to.ledger))
	}
	_, err = fmt.Fprintf(a.out, "added %s to %s\n", said, shownName(file))
	return err
}

// broughtBy is the error of an addition, where a ledger would have errors with it as
// what it brings.
func (a *app) broughtBy(to destination, err error) error {
	var invalid *ledger.InvalidError
	if !errors.As(err, &invalid) {
		return err
	}
	before, err := a.preview(to)
	if err != nil {
		return err
	}
	return &additionError{invalid, ledger.Fresh(before.Diagnostics, invalid.List)}
}

// recordUnseen is record for an entry that nobody was shown: the warnings that it
// brings are said. It gives the ledger that has the entry.
func (a *app) recordUnseen(command string, to destination, adds ...entry.Addition) (*season.Ledger, error) {
	before, err := a.preview(to)
	if err != nil {
		return nil, err
	}
	if err := a.record(command, to, adds...); err != nil {
		return nil, err
	}
	after, err := a.preview(to)
	if err != nil {
		return nil, err
	}
	return after.Ledger, list(a.err, ledger.Fresh(before.Diagnostics, after.Diagnostics), a.pasted())
}

// edit adds to a file of a ledger that is there, as one change; command says in
// words what is done.
func (a *app) edit(command string, to destination, file string, adds []entry.Addition) error {
	opts, err := a.readOptions(to.ledger)
	if err != nil {
		return err
	}
	change := ledger.Edit
	switch {
	case len(adds) != 1:
	case adds[0].Renews:
		change = ledger.Renew
	case len(adds[0].Completes) > 0:
		change = ledger.Complete
	}
	return a.changing(opts, to.main, command, func(opts ledger.Options) error {
		return change(opts, file, func(old string) (string, error) { return withAll(old, adds) })
	})
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
// A name that is not there beside a ledger that is counts as a slip.
func (a *app) ledgerOrNew() (string, error) {
	path, err := a.ledgerPath()
	switch {
	case errors.Is(err, errNoLedger):
		return newLedger, nil
	case err == nil && path == stdinName:
		return "", errWriteStdin
	case err != nil:
		return path, err
	}
	return path, a.alone(path)
}

// alone refuses a ledger that is not there where its folder has others.
func (a *app) alone(path string) error {
	if _, err := os.Stat(path); !errors.Is(err, os.ErrNotExist) {
		return nil
	}
	beside, err := filepath.Glob(filepath.Join(filepath.Dir(path), "*"+ledgerSuffix))
	if err != nil {
		return &fileError{"look for a ledger", err}
	}
	if len(beside) == 0 || slices.ContainsFunc(beside, func(other string) bool { return sameFile(other, path) }) {
		return nil // none, or another one has begun it meanwhile
	}
	return secondLedger(path, beside)
}

// begin begins a ledger that is not there, empty, where what is added to it holds;
// begun is false where it is there, and nothing was done.
func (a *app) begin(to destination, adds []entry.Addition) (begun bool, err error) {
	if _, err := os.Stat(to.ledger); !errors.Is(err, os.ErrNotExist) {
		return false, nil
	}
	result, err := a.preview(to, adds...)
	if err != nil {
		return false, err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return false, err
	}
	err = ledger.Begin(to.ledger, "")
	if errors.Is(err, os.ErrExist) {
		return false, nil // another one has begun it meanwhile
	}
	return err == nil, err
}

// preview reads the ledger as it would be with additions.
func (a *app) preview(to destination, adds ...entry.Addition) (*ledger.Result, error) {
	opts, err := a.readOptions(to.ledger)
	if err != nil {
		return nil, err
	}
	opts.Files = withMore{ledger.Disk{}, to.fileOf(adds), adds}
	result, err := ledger.Load(opts)
	if err != nil {
		return nil, readError(to.ledger, err)
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
