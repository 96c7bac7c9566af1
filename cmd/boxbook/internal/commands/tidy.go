package commands

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// tidyFlags say what tidy does with what it would change.
type tidyFlags struct {
	write bool
	diff  bool
}

func newTidy(a *app) *cobra.Command {
	var flags tidyFlags
	cmd := &cobra.Command{
		Use: "tidy", Short: "align the ledger: columns, capital marks, decimal points", GroupID: groupCare,
		Long: `Align the ledger and every file it includes: keys, marks, elements and labels in
columns, the letters of marks as capitals, decimal commas as points. Nothing
else changes; comments stay where they are. Tidying twice changes nothing more.
A file that begins with part-of is tidied alone.

Without a flag tidy lists the files that would change and writes nothing. From
standard input (-f -) the tidied ledger goes to standard output.`,
		Example: "  boxbook tidy\n  boxbook tidy --diff\n  boxbook tidy --write\n  boxbook tidy -f - <typed.boxbook >tidied.boxbook",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runTidy(flags) },
	}
	cmd.Flags().BoolVar(&flags.write, "write", false, "write the tidied files")
	cmd.Flags().BoolVar(&flags.diff, "diff", false, "show what would change, as a unified diff")
	a.ledgerFlag(cmd)
	a.outputFlag(cmd, "write what would be shown to this `FILE`")
	return cmd
}

// tidyChange is one file and its text as tidied.
type tidyChange struct {
	ledger.Source
	tidied string
}

func (a *app) runTidy(flags tidyFlags) error {
	path, err := a.ledgerPath()
	if err != nil {
		return err
	}
	if err := a.checkTidy(flags, path); err != nil {
		return err
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return err
	}
	main, sources, err := a.cleanSources(opts)
	if err != nil {
		return err
	}
	changes, err := tidyChanges(sources)
	switch {
	case err != nil:
		return err
	case flags.write:
		return a.writeTidied(opts, main, changes)
	case flags.diff:
		return a.deliver(func(w io.Writer) error { return showTidyDiff(w, changes) })
	case path == stdinName:
		return a.deliver(func(w io.Writer) error { return showTidied(w, sources[0], changes) })
	default:
		return a.deliver(func(w io.Writer) error { return listTidy(w, changes) })
	}
}

// checkTidy refuses flags that do not go together.
func (a *app) checkTidy(flags tidyFlags, path string) error {
	switch {
	case flags.write && flags.diff:
		return &usageError{"--write and --diff do not go together", "see what would change first: boxbook tidy --diff"}
	case flags.write && path == stdinName:
		return &usageError{"standard input cannot be written into", "without --write the tidied ledger goes to standard output"}
	case flags.write && a.output != "":
		return &usageError{text: "--write and --output do not go together: a tidied file stays where it is"}
	}
	return nil
}

// cleanSources reads the ledger's files and refuses a ledger with errors. Of
// standard input, and of a file that is part of another ledger, it gives that
// one text alone. main is the ledger's main file.
func (a *app) cleanSources(opts ledger.Options) (main string, sources []ledger.Source, err error) {
	result, sources, err := ledger.LoadSources(opts)
	if err != nil {
		return "", nil, readError(opts.Main, err)
	}
	a.readPaths = result.Paths
	if err := a.mayPrint(); err != nil {
		return "", nil, err
	}
	switch {
	case opts.Main == stdinName:
		sources = sources[:1]
	case result.Main != opts.Main:
		sources = slices.DeleteFunc(sources, func(s ledger.Source) bool { return !sameFile(s.Path, opts.Main) })
	}
	return result.Main, sources, result.Diagnostics.Err()
}

// tidyChanges are the files that are not tidy yet.
func tidyChanges(sources []ledger.Source) ([]tidyChange, error) {
	var changes []tidyChange
	for _, source := range sources {
		tidied, err := ledger.Tidy(source.Name, source.Text)
		if err != nil {
			return nil, err
		}
		if tidied != source.Text {
			changes = append(changes, tidyChange{source, tidied})
		}
	}
	return changes, nil
}

// lines counts the lines that change.
func (c tidyChange) lines() int {
	was, is := strings.Split(c.Text, "\n"), strings.Split(c.tidied, "\n")
	n := 0
	for i := range was {
		if i >= len(is) || was[i] != is[i] {
			n++
		}
	}
	return n
}

// writeTidied tidies file after file, each under a lock of its own. Each one
// is said as soon as it is done, so that after a failure it is known which are.
func (a *app) writeTidied(opts ledger.Options, main string, changes []tidyChange) error {
	if len(changes) == 0 {
		return listTidy(a.out, nil)
	}
	return a.changing(opts, main, "tidy --write", func(opts ledger.Options) error {
		for _, c := range changes {
			if err := ledger.TidyFile(opts, c.Source); err != nil {
				return err
			}
			if _, err := fmt.Fprintf(a.out, "tidied %s: %s\n", shownName(c.Name), counted(c.lines(), "line", "lines")); err != nil {
				return &fileError{"write the output", err}
			}
		}
		return nil
	})
}

// listTidy says which files would change.
func listTidy(w io.Writer, changes []tidyChange) error {
	if len(changes) == 0 {
		_, err := fmt.Fprintln(w, "nothing to tidy")
		return err
	}
	var b strings.Builder
	for _, c := range changes {
		fmt.Fprintf(&b, "%s: %s would change\n", shownName(c.Name), counted(c.lines(), "line", "lines"))
	}
	b.WriteString("see them with --diff, write them with --write\n")
	_, err := io.WriteString(w, b.String())
	return err
}

// showTidyDiff writes a unified diff of each file; nothing where all is tidy.
func showTidyDiff(w io.Writer, changes []tidyChange) error {
	var b bytes.Buffer
	for _, c := range changes {
		b.WriteString(shownDiff(c.Name, c.Text, " (tidied)", c.tidied))
	}
	_, err := w.Write(b.Bytes())
	return err
}

// showTidied writes the text itself, tidied.
func showTidied(w io.Writer, source ledger.Source, changes []tidyChange) error {
	text := source.Text
	if len(changes) > 0 {
		text = changes[0].tidied
	}
	_, err := io.WriteString(w, text)
	return err
}
