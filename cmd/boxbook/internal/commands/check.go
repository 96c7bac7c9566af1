package commands

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

func newCheck(a *app) *cobra.Command {
	var flags checkFlags
	cmd := &cobra.Command{
		Use: "check", Short: "check the ledger for mistakes", GroupID: groupCare,
		Long: `Check the whole ledger, with every file it includes, for mistakes and list them
by file, line and column. Errors give exit code 1; warnings do too with
--strict.

With -o FILE the list is in the file.

--fix corrects what can only have been meant one way, such as a curly quote or a
date with dots, and then lists what is left. --diff shows what it would change
and writes nothing. boxbook help KIND explains a kind of error.`,
		Example: "  boxbook check\n  boxbook check --diff\n  boxbook check --fix\n  boxbook help grade-not-half",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runCheck(flags) },
	}
	cmd.Flags().BoolVar(&flags.strict, "strict", false, "let warnings fail the check as errors do")
	cmd.Flags().BoolVar(&flags.fix, "fix", false, "correct what has one reading, then check again")
	cmd.Flags().BoolVar(&flags.diff, "diff", false, "show what --fix would change, as a unified diff")
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.formatFlags(cmd, pageFormats())
	return cmd
}

// checkFlags say what check does with what it finds.
type checkFlags struct {
	strict bool
	fix    bool
	diff   bool
}

func (a *app) runCheck(flags checkFlags) error {
	switch {
	case flags.diff:
		return a.diffFixes(flags)
	case flags.fix:
		if err := a.writeFixes(); err != nil {
			return err
		}
	}
	result, name, err := a.read()
	if err != nil {
		return err
	}
	if a.plainText() {
		err = a.sayCheck(name, result)
	} else {
		err = a.show(pages.Check(answers.CheckOf(result)), nil)
	}
	if err != nil {
		return err
	}
	return flags.judge(result.Diagnostics)
}

// judge fails a check that did not hold.
func (f checkFlags) judge(list ledger.List) error {
	if list.Errors() > 0 || (f.strict && list.Warnings() > 0) {
		return errCheck
	}
	return nil
}

// sayCheck lists the diagnostics on standard error and sums them up on
// standard output; a file that -o names has all of it.
func (a *app) sayCheck(name string, result *ledger.Result) error {
	if a.output != "" && a.output != stdinName {
		return a.writeCheck(name, result)
	}
	if err := list(a.err, result.Diagnostics, a.pasted()); err != nil {
		return &fileError{"write the diagnostics", err}
	}
	for _, line := range a.besideFindings(result) {
		fmt.Fprintln(a.err, line)
	}
	if line := fixedBy(result.Diagnostics); line != "" && a.fixesAny(result.Diagnostics) {
		fmt.Fprintln(a.err, a.pasted().in(line))
	}
	return a.deliver(func(w io.Writer) error {
		_, err := fmt.Fprintln(w, checkSummary(name, result))
		return err
	})
}

// besideFindings are the lines that explain what was found.
func (a *app) besideFindings(result *ledger.Result) []string {
	var lines []string
	if hint := a.includedElsewhere(result); hint != "" {
		lines = append(lines, hint)
	}
	if line := explainedBy(result.Diagnostics); line != "" {
		lines = append(lines, line)
	}
	return lines
}

// writeCheck writes what was found into the file that -o names, and says how much it is.
func (a *app) writeCheck(name string, result *ledger.Result) error {
	err := a.deliver(func(w io.Writer) error {
		fmt.Fprintf(w, "check of %s as of %s, boxbook %s\n\n", shownName(name), result.Ledger.AsOf, a.version)
		if err := list(w, result.Diagnostics, nil); err != nil {
			return err
		}
		for _, line := range a.besideFindings(result) {
			fmt.Fprintln(w, line)
		}
		_, err := fmt.Fprintln(w, checkSummary(name, result))
		return err
	})
	if err != nil {
		return err
	}
	found := result.Diagnostics
	return a.sayWrote(counted(found.Errors(), "error", "errors") + ", " + counted(found.Warnings(), "warning", "warnings"))
}

// Where a ledger that includes a file is looked for, in its folder and the one above:
// so many in each.
const ledgersBeside = 20

// includedElsewhere says of a file with errors which ledger includes it, and reads it
// rightly; "" where none does.
func (a *app) includedElsewhere(result *ledger.Result) string {
	path, err := a.ledgerPath()
	if err != nil || path == stdinName || result.Diagnostics.Errors() == 0 || !sameFile(result.Main, path) {
		return ""
	}
	whole := a.whichIncludes(path)
	if whole == "" {
		return ""
	}
	from, err := filepath.Rel(filepath.Dir(path), whole)
	if err != nil {
		return ""
	}
	return fmt.Sprintf("%s includes this file: check that, or write `part-of %s` as its first line", shownName(whole), ledger.Quote(filepath.ToSlash(from)))
}

// whichIncludes is the first ledger in a file's folder or the one above that includes it.
func (a *app) whichIncludes(path string) string {
	for _, dir := range []string{filepath.Dir(path), filepath.Join(filepath.Dir(path), "..")} {
		found, err := os.ReadDir(dir)
		if err != nil {
			continue
		}
		tried := 0
		for _, file := range found {
			other := filepath.Join(dir, file.Name())
			if filepath.Ext(other) != ledgerSuffix || sameFile(other, path) || tried == ledgersBeside {
				continue
			}
			tried++
			opts, err := a.readOptions(other)
			if err != nil {
				return ""
			}
			read, err := ledger.Load(opts)
			if err == nil && slices.ContainsFunc(read.Paths, func(name string) bool { return sameFile(name, path) }) {
				return other
			}
		}
	}
	return ""
}
