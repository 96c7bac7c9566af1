package commands

import (
	"fmt"
	"io"

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
// standard output.
func (a *app) sayCheck(name string, result *ledger.Result) error {
	if err := list(a.err, result.Diagnostics, a.pasted()); err != nil {
		return &fileError{"write the diagnostics", err}
	}
	if line := explainedBy(result.Diagnostics); line != "" {
		fmt.Fprintln(a.err, line)
	}
	if line := fixedBy(result.Diagnostics); line != "" {
		fmt.Fprintln(a.err, a.pasted().in(line))
	}
	return a.deliver(func(w io.Writer) error {
		_, err := fmt.Fprintln(w, checkSummary(name, result))
		return err
	})
}
