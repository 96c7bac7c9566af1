package commands

import (
	"bytes"
	"errors"
	"fmt"
	"io"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

func newUndo(a *app) *cobra.Command {
	var yes bool
	cmd := &cobra.Command{
		Use: "undo", Short: "take back boxbook's own last change to the ledger", GroupID: groupRecord,
		Long: fmt.Sprintf(`Take back what boxbook itself last changed in the ledger, by log, import,
check --fix or tidy --write, in every file that the command changed. It shows
the difference first, then asks; --yes takes it back without asking. Used
again, undo takes back the change before that, and so on. An undo is final: it
cannot be taken back itself.

Where a file has changed since, in an editor say, nothing is taken back. The
last %d changes are kept, up to %d MiB, in the hidden file .NAME%s beside
the ledger NAME, readable only by those who may read the ledger. It can be
deleted; then nothing can be taken back. Drafts of log are left alone.`, ledger.MaxUndo, ledger.MaxUndoBytes>>20, ledger.JournalSuffix),
		Example: "  boxbook undo\n  boxbook undo --yes",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runUndo(yes) },
	}
	cmd.Flags().BoolVar(&yes, "yes", false, "take it back without asking")
	a.ledgerFlag(cmd)
	return cmd
}

func (a *app) runUndo(yes bool) error {
	path, err := a.ledgerPath()
	if err != nil {
		return err
	}
	if path == stdinName {
		return errWriteStdin
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return err
	}
	u, err := ledger.PlanUndo(opts)
	if err != nil {
		return undoError(path, err)
	}
	if err := a.showUndo(u); err != nil {
		return &fileError{"write the output", err}
	}
	switch err := a.agreed(yes); {
	case errors.Is(err, errLeft):
		return nil
	case err != nil:
		return err
	}
	err = a.held(path, ledgerAsItWas, func(watch ledger.Watch) error {
		opts.Watch = watch
		notes, err := u.TakeBack(opts)
		a.changed = err == nil
		a.tellNotes(notes)
		return err
	})
	if err != nil {
		return undoError(path, err)
	}
	_, err = fmt.Fprintf(a.out, "taken back: %s, in %s\n", u, shownNames(namesOf(u.Files, func(f ledger.UndoneFile) string { return f.Name })))
	return err
}

// ledgerAsItWas says that a change was not made.
const ledgerAsItWas = "the ledger is as it was"

// undoError says an error of reading as such.
func undoError(path string, err error) error {
	var change *ledger.ChangeError
	var refused *ledger.UndoError
	var stopped *stoppedError
	if errors.As(err, &change) || errors.As(err, &refused) || errors.As(err, &stopped) {
		return err
	}
	return readError(path, err)
}

// showUndo shows a change and what it would mean to take it back.
func (a *app) showUndo(u *ledger.Undoing) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "the last change: %s\n", u)
	for _, f := range u.Files {
		b.WriteString(shownDiff(f.Name, f.Now, " (taken back)", f.Former))
	}
	if u.Errors.Former > u.Errors.Now {
		fmt.Fprintf(&b, "without this change the ledger has %s; with it %s\n", counted(u.Errors.Former, "error", "errors"), counted(u.Errors.Now, "error", "errors"))
	}
	_, err := io.Copy(a.out, &b)
	return err
}

// errLeft says that the person answered to leave the ledger as it is.
var errLeft = errors.New("nothing was taken back")

// agreed asks the person at the terminal; without one, --yes must have said it.
func (a *app) agreed(yes bool) error {
	if yes {
		return nil
	}
	if !a.interactive {
		return &usageError{"not taken back: there is nobody to ask", "--yes takes it back without asking"}
	}
	terminal, err := entry.NewTerminal(a.in, a.out)
	if err != nil {
		return asLogError(err)
	}
	yes, err = terminal.YesNo("take it back?", "yes takes the change back, no leaves the ledger as it is")
	if closeErr := terminal.Close(); err == nil {
		err = closeErr
	}
	switch {
	case errors.Is(err, entry.ErrStopped):
		fmt.Fprintln(a.out, "\nstopped; nothing was taken back")
		return errInterrupted
	case err != nil:
		return asLogError(err)
	case !yes:
		fmt.Fprintln(a.out, "nothing was taken back")
		return errLeft
	}
	return nil
}

// changing changes a ledger as one change, which undo can take back. main is the
// ledger's main file, command says in words what is done.
func (a *app) changing(opts ledger.Options, main, command string, change func(ledger.Options) error) error {
	return a.held(main, ledgerAsItWas, func(watch ledger.Watch) error {
		journal, err := ledger.StartJournal(main, command, a.now(), watch)
		if err != nil {
			return err
		}
		defer journal.Close()
		opts.Journal, opts.Watch = journal, watch
		err = change(opts)
		a.changed = a.changed || journal.Made() > 0
		a.tellNotes(journal.Notes())
		return err
	})
}

// tellNotes says beside what is done what else there is to know.
func (a *app) tellNotes(notes []string) {
	for _, note := range notes {
		fmt.Fprintf(a.err, "note: %s\n", note)
	}
}
