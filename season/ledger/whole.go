package ledger

import "fmt"

// CheckText reads a whole ledger with another text in place of one of its
// files. It is an *InvalidError where the ledger then has errors, and an error
// too where the file is not read at all.
func CheckText(opts Options, path, text string) error {
	at, err := opts.Files.Locate(path)
	if err != nil {
		return err
	}
	over := &overlay{Files: opts.Files, at: at, text: text}
	opts.Files = over
	result, err := Load(opts)
	if err != nil {
		return err
	}
	if !over.read {
		return fmt.Errorf("%s is no longer part of the ledger", path)
	}
	return result.Diagnostics.Err()
}

// overlay is Files with another text in place of one file's.
type overlay struct {
	Files
	at   string // the file's one name, links resolved
	text string
	read bool
}

func (o *overlay) Read(path string) (string, error) {
	if at, err := o.Locate(path); err != nil || at != o.at {
		return o.Files.Read(path)
	}
	if len(o.text) > maxFile {
		return "", &TooLargeError{path}
	}
	o.read = true
	return o.text, nil
}

// Edit changes one file of a ledger on disk, as Change does, by an edit that
// only adds. The new text is written if every earlier line survives and the
// whole ledger, read with it, has no errors; else the error says what is wrong,
// an *InvalidError for the ledger's errors. The edit may be given another text
// than the one last seen: whatever stands in the file when its lock is held.
func Edit(opts Options, path string, edit func(text string) (string, error)) error {
	return write(opts, path, edit, func(before, after string) error {
		if n := lostLine(before, after); n > 0 {
			return &lossError{path, n}
		}
		return nil
	})
}

// TidyFile tidies one file of a ledger on disk, as Change does. The whole
// ledger, read with the tidied text, must have no errors.
func TidyFile(opts Options, source Source) error {
	tidy := func(text string) (string, error) { return Tidy(source.Name, text) }
	return write(opts, source.Path, tidy, func(before, after string) error {
		return sameWords(source.Name, before, after)
	})
}

// write changes a file if what was there is kept and the ledger still holds
// together.
func write(opts Options, path string, edit func(string) (string, error), kept func(before, after string) error) error {
	var before string
	return changeKept(path, opts.Journal, func(text string) (string, error) {
		before = text
		return edit(text)
	}, func(after string) error {
		if err := kept(before, after); err != nil {
			return err
		}
		return CheckText(opts, path, after)
	})
}
