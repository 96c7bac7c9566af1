package main

import (
	"fmt"
	"io"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

func newCheck(a *app) *cobra.Command {
	var strict bool
	cmd := &cobra.Command{
		Use: "check", Short: "say what is wrong with the ledger", GroupID: groupCare,
		Long: `Read the whole ledger with all that it includes and say what is wrong, by file,
line and column. Errors give exit code 1; warnings do too with --strict.`,
		Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runCheck(strict) },
	}
	cmd.Flags().BoolVar(&strict, "strict", false, "let warnings fail the check as errors do")
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.formatFlags(cmd, pageFormats())
	return cmd
}

func (a *app) runCheck(strict bool) error {
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
	list := result.Diagnostics
	if list.Errors() > 0 || (strict && list.Warnings() > 0) {
		return errCheck
	}
	return nil
}

// sayCheck lists the diagnostics on standard error and sums them up on
// standard output.
func (a *app) sayCheck(name string, result *ledger.Result) error {
	if err := ledger.Render(a.err, result.Diagnostics); err != nil {
		return &fileError{"write the diagnostics", err}
	}
	return a.deliver(func(w io.Writer) error {
		_, err := fmt.Fprintln(w, checkSummary(name, result))
		return err
	})
}
