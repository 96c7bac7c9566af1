package commands

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"boxbook/data"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

func newStart(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "start [FILE]", Short: "write a new ledger that explains itself", GroupID: groupRecord,
		Long: `Write a new ledger that explains itself by example. FILE ends in .boxbook;
season.boxbook if omitted. A file that is not empty is left alone. Without an
example a ledger begins by itself: boxbook log flight.`,
		Args: arguments(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			path := newLedger
			if len(args) == 1 {
				path = args[0]
			}
			return a.runStart(path)
		},
	}
}

func (a *app) runStart(path string) error {
	if !strings.HasSuffix(path, ledgerSuffix) {
		return &usageError{fmt.Sprintf("%q: a ledger's name ends in %s", path, ledgerSuffix), "boxbook start " + strings.TrimSuffix(path, filepath.Ext(path)) + ledgerSuffix}
	}
	if err := begin(path, data.Template); err != nil {
		return err
	}
	_, err := fmt.Fprintf(a.out, `wrote %[1]s, with an example in it to change into yours
open it in an editor, then: boxbook check -f %[1]s
without the example: boxbook log flight asks for yours, and begins a new ledger
`, shownName(path))
	return err
}

// begin writes a file that must not be there yet, or be empty.
func begin(path, text string) error {
	if info, err := os.Stat(path); err != nil || info.Size() > 0 {
		return writeNew(path, text)
	}
	return ledger.Change(path, func(old string) (string, error) {
		if old != "" {
			return "", alreadyThere(path)
		}
		return text, nil
	}, func(string) error { return nil })
}

func alreadyThere(path string) error {
	return &fileError{"write " + path, errors.New("it is already there, and nothing is overwritten")}
}

// writeNew writes a file that must not be there yet, whole or not at all.
func writeNew(path, text string) error {
	err := ledger.Begin(path, text)
	if errors.Is(err, fs.ErrExist) {
		return alreadyThere(path)
	}
	return err
}
