package commands

import (
	"fmt"
	"io"
	"os"
	"time"

	"boxbook/data"
	"boxbook/season"

	"github.com/spf13/cobra"
)

func newLsp(a *app) *cobra.Command {
	var syntax string
	cmd := &cobra.Command{
		Use: "lsp", Short: "speak the ledger language to an editor", GroupID: groupCare,
		Long: `Speak the ledger language to an editor, over standard input and output, in the
language server protocol: mistakes as you type, corrections, completion, what a
figure or a flight came to, places of names and their renaming, layout as tidy
writes it. An editor starts this by itself; boxbook writes no file here.

A file that another ledger includes is read with it: the ledger given with -f,
else the one in the file's folder or a folder above that includes it.

--syntax prints a file with which an editor colours ledgers.`,
		Example: "  boxbook lsp --syntax vim >~/.vim/syntax/boxbook.vim\n  boxbook lsp --syntax textmate >boxbook.tmLanguage.json",
		Args:    arguments(cobra.NoArgs),
		RunE:    func(*cobra.Command, []string) error { return a.runLsp(syntax) },
	}
	cmd.Flags().StringVar(&syntax, "syntax", "", "print the syntax file of this `EDITOR`, vim or textmate, instead")
	complete(cmd, "syntax", cobra.FixedCompletions(data.SyntaxNames(), cobra.ShellCompDirectiveNoFileComp))
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	return cmd
}

// typingRests is how long an editor's typing rests before mistakes are shown.
const typingRests = 30 * time.Millisecond

func (a *app) runLsp(syntax string) error {
	if syntax != "" {
		text, ok := data.Syntax(syntax)
		if !ok {
			return &usageError{text: fmt.Sprintf("--syntax %q is not one of %s", syntax, orList(data.SyntaxNames()))}
		}
		return a.deliver(func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return err
		})
	}
	if _, err := a.today(); err != nil {
		return err
	}
	ledger := a.ledger
	if ledger == "" {
		ledger = a.env("BOXBOOK_LEDGER")
	}
	trouble := ""
	if _, err := os.Stat(ledger); ledger != "" && err != nil {
		trouble = readError(shownName(ledger), err).Error() + "; files are read without it"
		fmt.Fprintln(a.err, trouble)
	}
	err := fromMain.Editor(a.in, stayOpen{a.out}, EditorOptions{
		Builtin: data.Builtin(), Ledger: ledger, Version: a.version, Settle: typingRests, Trouble: trouble,
		Today: func() season.Date {
			today, _ := a.today() // read once already
			return today
		},
	})
	if err != nil {
		return &fileError{"speak to the editor", err}
	}
	return nil
}

// stayOpen is a stream that is the process's to close.
type stayOpen struct{ io.Writer }

func (stayOpen) Close() error { return nil }
