package commands

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report/display"
	"boxbook/season/ledger"
)

// Exit codes.
const (
	exitDone    = 0
	exitInvalid = 1 // the ledger has errors, or a check asked for did not hold
	exitUsage   = 2
	exitFile    = 3 // input or output failed
	// exitInterrupted is that of a program that Ctrl-C stopped.
	exitInterrupted = 130
)

// usageError says that the command was called wrongly; hint is a line of its
// own, "" where there is nothing to add.
type usageError struct {
	text string
	hint string
}

func (e *usageError) Error() string { return e.text }

// fileError says that something could not be read or written.
type fileError struct {
	doing string // "read season.boxbook"
	err   error
}

func (e *fileError) Error() string {
	return "cannot " + display.OneLine(e.doing) + ": " + plainReason(e.err)
}
func (e *fileError) Unwrap() error { return e.err }

// plainReason is a file error without its operation and path, which the
// sentence around it has already.
func plainReason(err error) string {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err.Error()
	}
	return err.Error()
}

// readError is an error of reading a ledger; one that is too large says so by
// itself.
func readError(path string, err error) error {
	var large *ledger.TooLargeError
	if errors.As(err, &large) {
		return err
	}
	return &fileError{"read " + path, err}
}

// meanwhileError says that the ledger cannot be added to any more: that it is gone, or
// has an error since a conversation began.
type meanwhileError struct {
	text string
	hint string // a line of its own, "" for none
	exit int
}

func (e *meanwhileError) Error() string { return e.text + "; nothing was written" }

// asMeanwhile is an error as one that the ledger has since a conversation began, nil
// for any other.
func asMeanwhile(err error) *meanwhileError {
	var meanwhile *meanwhileError
	if errors.As(err, &meanwhile) {
		return meanwhile
	}
	if broken := (*entry.BrokenError)(nil); errors.As(err, &broken) {
		return &meanwhileError{text: display.OneLine(broken.Error()), exit: exitInvalid}
	}
	return nil
}

// additionError says that the ledger would have errors with what was to be
// added.
type additionError struct {
	*ledger.InvalidError
	brought ledger.List // what the addition brings
}

// before counts the warnings that the ledger has without the addition.
func (e *additionError) before() int { return len(e.List) - len(e.brought) }

// readFrom says of what is in a file behind so many lines on which line of a text
// called name it was read.
func (e *additionError) readFrom(name, file string, behind int) {
	for i, d := range e.brought {
		if d.File == file && d.Line > behind {
			e.brought[i].Message += fmt.Sprintf(" (line %d of %s)", d.Line-behind, name)
		}
	}
}

func (e *additionError) Unwrap() error { return e.InvalidError }

// errCheck says that a check asked for did not hold; everything has been said.
var errCheck = errors.New("the check did not hold")

// changedError is a failure after the ledger was changed.
type changedError struct{ err error }

func (e *changedError) Error() string {
	text := plainFailure(e.err)
	var change *ledger.ChangeError
	if errors.As(e.err, &change) {
		text = change.Failure()
	}
	return "the ledger is changed, but " + text
}

func (e *changedError) Unwrap() error { return e.err }

// plainFailure is an error in words, one of writing the output too.
func plainFailure(err error) string {
	var file *fileError
	var change *ledger.ChangeError
	var path *fs.PathError
	if !errors.As(err, &file) && !errors.As(err, &change) && errors.As(err, &path) && path.Op == "write" {
		return (&fileError{"write the output", err}).Error()
	}
	return err.Error()
}

// stoppedError says that the person or the system stopped the command.
type stoppedError struct {
	signal os.Signal
	left   string // how the ledger was left
}

func (e *stoppedError) Error() string { return "stopped; " + e.left }

// errInterrupted says that the person stopped a conversation; everything has been
// said.
var errInterrupted = errors.New("stopped")

// exitCode is the one place where an error becomes an exit code.
func exitCode(err error) int {
	var usage *usageError
	var invalid *ledger.InvalidError
	var kept *ledger.UndoError
	var stopped *stoppedError
	var changed *changedError
	var meanwhile *meanwhileError
	var there *thereError
	switch {
	case err == nil:
		return exitDone
	case errors.Is(err, errInterrupted):
		return exitInterrupted
	case errors.As(err, &stopped):
		return exitStopped(stopped.signal)
	case errors.As(err, &changed):
		return exitFile
	case errors.Is(err, errCheck), errors.As(err, &invalid), errors.As(err, &there):
		return exitInvalid
	case errors.As(err, &meanwhile):
		return meanwhile.exit
	case errors.As(err, &usage), errors.As(err, &kept):
		return exitUsage
	default:
		return exitFile
	}
}
