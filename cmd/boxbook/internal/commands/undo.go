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
	var yes, back bool
	cmd := &cobra.Command{
		Use: "undo", Short: "take back boxbook's own last change to the ledger", GroupID: groupRecord,
		Long: fmt.Sprintf(`Take back what boxbook itself last changed in the ledger, by log, import,
check --fix or tidy --write, in every file that the command changed. It shows
the difference first, then asks; --yes takes it back without asking. Used
again, undo takes back the change before that, and so on. undo --back puts back
what undo took back last, and again what it took back before that, as long as
the ledger is as that undo left it.

Where a file has changed since, in an editor say, nothing is taken back. The
last %d changes are kept, up to %d MiB, and as much of what was taken back, in
the hidden file .NAME%s beside the ledger NAME, readable only by those who
may read the ledger. It can be deleted; then nothing can be taken back or put
back. Drafts of log are left alone.`, ledger.MaxUndo, ledger.MaxUndoBytes>>20, ledger.JournalSuffix),
		Example: "  boxbook undo\n  boxbook undo --yes\n  boxbook undo --back",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runUndo(undoWords[back], yes) },
	}
	cmd.Flags().BoolVar(&yes, "yes", false, "take it back, or put it back, without asking")
	cmd.Flags().BoolVar(&back, "back", false, "put back what undo took back last")
	a.ledgerFlag(cmd)
	return cmd
}

// undoing is one way of undo, and its words.
type undoing struct {
	plan               func(ledger.Options) (*ledger.Undoing, error)
	last, suffix       string // what is shown
	errors             string // of a ledger that will have more of them
	asks, yes, left    string // the question, what yes means, what no comes to
	nobody, withoutAsk string // where there is nobody to ask
	done, good         string // when it is done, and what makes it good again
}

// undoWords are the two ways, by whether a change is put back.
var undoWords = map[bool]undoing{
	false: {
		plan: ledger.PlanUndo, last: "the last change", suffix: " (taken back)",
		errors: "without this change the ledger has %s; with it %s\n", asks: "take it back?",
		yes: "yes takes the change back, no leaves the ledger as it is", left: "nothing was taken back",
		done: "taken back", good: "to put it back: boxbook undo --back",
		nobody: "not taken back: there is nobody to ask", withoutAsk: "--yes takes it back without asking",
	},
	true: {
		plan: ledger.PlanPutBack, last: "the last change that was taken back", suffix: " (put back)",
		errors: "with this change the ledger has %s; without it %s\n", asks: "put it back?",
		yes: "yes puts the change back, no leaves the ledger as it is", left: "nothing was put back",
		done: "put back", good: "to take it back: boxbook undo",
		nobody: "not put back: there is nobody to ask", withoutAsk: "--yes puts it back without asking",
	},
}

func (a *app) runUndo(way undoing, yes bool) error {
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
	u, err := way.plan(opts)
	if err != nil {
		return undoError(path, err)
	}
	if err := a.showUndo(way, u); err != nil {
		return &fileError{"write the output", err}
	}
	switch err := a.agreed(way, yes); {
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
	files := shownNames(namesOf(u.Files, func(f ledger.UndoneFile) string { return f.Name }))
	_, err = fmt.Fprintf(a.out, "%s: %s, in %s\n%s\n", way.done, u, files, a.pasted().in(way.good))
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

// showUndo shows a change and what it would mean to take it back, or to put it back.
func (a *app) showUndo(way undoing, u *ledger.Undoing) error {
	var b bytes.Buffer
	fmt.Fprintf(&b, "%s: %s\n", way.last, u)
	for _, f := range u.Files {
		b.WriteString(shownDiff(f.Name, f.Now, way.suffix, f.Former))
	}
	if u.Errors.Former > u.Errors.Now {
		fmt.Fprintf(&b, way.errors, counted(u.Errors.Former, "error", "errors"), counted(u.Errors.Now, "error", "errors"))
	}
	_, err := io.Copy(a.out, &b)
	return err
}

// errLeft says that the person answered to leave the ledger as it is.
var errLeft = errors.New("the ledger was left as it is")

// agreed asks the person at the terminal; without one, --yes must have said it.
func (a *app) agreed(way undoing, yes bool) error {
	if yes {
		return nil
	}
	if !a.interactive {
		return &usageError{way.nobody, way.withoutAsk}
	}
	terminal, err := entry.NewTerminal(a.in, a.out)
	if err != nil {
		return asLogError(err)
	}
	yes, err = terminal.YesNo(way.asks, way.yes)
	if closeErr := terminal.Close(); err == nil {
		err = closeErr
	}
	switch {
	case errors.Is(err, entry.ErrStopped):
		fmt.Fprintln(a.out, "\nstopped; "+way.left)
		return errInterrupted
	case err != nil:
		return asLogError(err)
	case !yes:
		fmt.Fprintln(a.out, way.left)
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
