package commands

import (
	"bytes"
	"fmt"
	"io"

	"boxbook/season/ledger"
)

// fixOptions say how the ledger is read that is to be fixed: again and again,
// what came in by standard input too.
func (a *app) fixOptions() (ledger.Options, error) {
	path, err := a.ledgerPath()
	if err != nil {
		return ledger.Options{}, err
	}
	opts, err := a.readOptions(path)
	if err != nil || path != stdinName {
		return opts, err
	}
	text, err := opts.Files.Read(path)
	if err != nil {
		return opts, readError(opts.Shown, err)
	}
	return opts.With(path, text), nil
}

// writeFixes fixes file after file, each under a lock of its own. Each one is
// said as soon as it is done, so that after a failure it is known which are.
func (a *app) writeFixes() error {
	opts, err := a.fixOptions()
	if err != nil {
		return err
	}
	if opts.Main == stdinName {
		return errWriteStdin
	}
	was, err := ledger.Load(opts)
	if err != nil {
		return readError(opts.Main, err)
	}
	files, result, err := ledger.Fixes(opts)
	if err != nil {
		return readError(opts.Main, err)
	}
	if len(files) == 0 {
		return a.tell(nothingToFix)
	}
	return a.changing(opts, result.Main, "check --fix", func(opts ledger.Options) error {
		for _, f := range files {
			made, err := ledger.FixFile(opts, f.Source)
			if err != nil {
				return err
			}
			if err := a.tell(sayFixed("fixed", f.Name, made, was.Diagnostics)); err != nil {
				return err
			}
		}
		return nil
	})
}

// mostTried is how many edits are tried at the most to see whether one of them is made; of
// more, one is.
const mostTried = 100

// fixesAny reports whether --fix would correct any of these: an edit whose words would be
// wrong in another way is not made.
func (a *app) fixesAny(list ledger.List) bool {
	edits := 0
	for _, d := range list {
		edits += len(d.Fixes)
		if edits > mostTried {
			return true
		}
	}
	opts, err := a.fixOptions()
	if err != nil || opts.Main == stdinName {
		return err == nil
	}
	files, _, err := ledger.Fixes(opts)
	return err == nil && len(files) > 0
}

// tell says a line about what was done: on standard output, or beside it where a
// program reads that.
func (a *app) tell(line string) error {
	w := a.out
	if !a.plainText() || a.output != "" {
		w = a.err
	}
	if _, err := fmt.Fprintln(w, line); err != nil {
		return &fileError{"write the output", err}
	}
	return nil
}

// diffFixes shows what would be fixed and says what would be left; the ledger
// stays as it is, and the check is of the ledger as it is.
func (a *app) diffFixes(flags checkFlags) error {
	if !a.plainText() {
		return &usageError{"--diff and --format do not go together", "the edits stand in the JSON of boxbook check --format json"}
	}
	opts, err := a.fixOptions()
	if err != nil {
		return err
	}
	was, err := ledger.Load(opts)
	if err != nil {
		return readError(opts.Main, err)
	}
	a.readPaths = was.Paths
	if err := a.mayPrint(); err != nil {
		return err
	}
	files, left, err := ledger.Fixes(opts)
	if err != nil {
		return readError(opts.Main, err)
	}
	if err := a.deliver(func(w io.Writer) error { return showFixDiff(w, files) }); err != nil {
		return err
	}
	for _, f := range files {
		fmt.Fprintln(a.err, sayFixed("would fix", f.Name, f.Made, was.Diagnostics))
	}
	if len(files) == 0 {
		fmt.Fprintln(a.err, nothingToFix)
	}
	fmt.Fprintln(a.err, sayLeft(left.Diagnostics))
	return flags.judge(was.Diagnostics)
}

// showFixDiff writes a unified diff of each file; nothing where nothing changes.
func showFixDiff(w io.Writer, files []ledger.FixedFile) error {
	var b bytes.Buffer
	for _, f := range files {
		b.WriteString(shownDiff(f.Name, f.Text, " (fixed)", f.Fixed))
	}
	_, err := w.Write(b.Bytes())
	return err
}
