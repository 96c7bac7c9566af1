package main

import (
	"cmp"
	"errors"
	"fmt"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/data"
	"boxbook/report/words"
	"boxbook/season"
	"boxbook/season/ledger"

	"github.com/spf13/cobra"
)

// newLog is the command that writes into a ledger.
func newLog(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "log", Short: "add to the ledger: flights, faults, costs ...", GroupID: groupRecord,
		Long: `Add to the ledger. Everything can be given by flags; at a terminal, what is
missing is asked for. "boxbook log -" takes blocks in the ledger language from
standard input, checks them against the ledger they would join, and adds them.
--into writes into a file that the ledger includes; a file that begins with
part-of needs nothing more than -f.

The ledger is changed completely or not at all: every earlier line stays as it
is, except an expiry that is renewed, and nothing is written that could not be
read back. "boxbook undo" takes the last change back.`,
		Example: "  boxbook log flight\n  boxbook log fault --flight 2026-04-18/ines/known --figure 2 --kind radius\n  boxbook log review --into coach/marek.boxbook\n  cat new.txt | boxbook log -",
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case len(args) == 1 && args[0] == stdinName:
				return a.runLogText()
			case len(args) == 0:
				return cmd.Help()
			default:
				return unknown("kind of entry", args[0], logKinds(cmd))
			}
		},
	}
	cmd.AddGroup(
		&cobra.Group{ID: groupWeekly, Title: "Week by week"},
		&cobra.Group{ID: groupYearly, Title: "A few times a year"},
	)
	for _, k := range entry.Kinds() {
		cmd.AddCommand(newLogKind(a, k))
	}
	a.ledgerFlag(cmd)
	a.intoFlag(cmd)
	for _, sub := range cmd.Commands() {
		a.ledgerFlag(sub)
		a.intoFlag(sub)
		a.asOfFlag(sub)
	}
	return cmd
}

// The groups of the kinds of entry.
const (
	groupWeekly = "weekly"
	groupYearly = "yearly"
)

// newLogKind is the command of one kind of entry: its flags are the fields of
// the table.
func newLogKind(a *app, k entry.Kind) *cobra.Command {
	given := entry.Answers{}
	group := groupWeekly
	if k.Yearly {
		group = groupYearly
	}
	cmd := &cobra.Command{
		Use: k.Name, Short: k.Short, Long: cmp.Or(k.Long, words.Sentence(k.Short)+"."), GroupID: group, Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runLogKind(&k, given) },
	}
	for _, f := range k.Fields {
		if !f.NoFlag {
			a.fieldFlag(cmd, f, given)
		}
	}
	return cmd
}

// fieldFlag is the flag of a field; a shell is offered what the ledger proposes.
func (a *app) fieldFlag(cmd *cobra.Command, f entry.Field, given entry.Answers) {
	flags := cmd.Flags()
	flags.Var(answerFlag{given, f}, f.Name, f.Usage())
	if f.Was != "" {
		flags.Var(answerFlag{given, f}, f.Was, f.Usage())
		flags.Lookup(f.Was).Hidden = true
	}
	if f.Propose != nil {
		complete(cmd, f.Name, a.offer(f.Propose))
	}
}

// runLogKind takes an entry from flags, asks a person at a terminal for what
// is missing, and records it.
func (a *app) runLogKind(k *entry.Kind, given entry.Answers) error {
	if err := k.Check(given); err != nil {
		return asLogError(err)
	}
	to, err := a.destination()
	if err != nil {
		return err
	}
	host := &logHost{a, to}
	result, err := host.Read()
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	if a.interactive && entry.Wanted(k, given, result.Ledger) {
		return asLogError(a.talk(k, given, host))
	}
	add, err := entry.FromFlags(k, given, host)
	if err != nil {
		return asLogError(err)
	}
	if err := a.recordUnseen("log", to, add); err != nil {
		return err
	}
	return a.sayFollows(k.Name, host, given)
}

// talk asks at the terminal, and records what comes of it.
func (a *app) talk(k *entry.Kind, given entry.Answers, host *logHost) error {
	terminal, err := entry.NewTerminal(a.in, a.out)
	if err != nil {
		return err
	}
	t := entry.NewTalk(k, host, terminal, host.to.file)
	adds, err := t.Run(given)
	if closeErr := terminal.Close(); err == nil {
		err = closeErr
	}
	switch {
	case errors.Is(err, entry.ErrStopped) && t.Kept():
		fmt.Fprintf(a.out, "\nstopped; the draft is kept, `boxbook log %s` continues with it\n", k.Name)
		return errInterrupted
	case errors.Is(err, entry.ErrStopped):
		fmt.Fprintln(a.out, "\nstopped; nothing was written")
		return errInterrupted
	case err != nil || len(adds) == 0:
		return err
	}
	if err := a.record("log", host.to, adds...); err != nil {
		return err
	}
	return t.Done()
}

// asLogError turns an error of an entry into one of the command.
func asLogError(err error) error {
	var refusal *entry.Refusal
	var file *entry.FileError
	switch {
	case errors.As(err, &refusal):
		return &usageError{refusal.Text, refusal.Hint}
	case errors.As(err, &file):
		return &fileError{file.Doing, file.Err}
	default:
		return err
	}
}

// logHost is what entries need of the program.
type logHost struct {
	app *app
	to  destination
}

// Read gives the ledger as it would be with additions.
func (h *logHost) Read(more ...entry.Addition) (*ledger.Result, error) {
	return h.app.preview(h.to, more...)
}

// Takes says why lines cannot go into a block of the ledger.
func (h *logHost) Takes(to ledger.Target) error { return h.to.takes(to) }

// Flight finds the one flight that a selector names.
func (h *logHost) Flight(l *season.Ledger, selector string) (*season.Flight, error) {
	return oneFlight(l, season.Selection{}, selector)
}

// Unknown is the error of a name that the ledger lacks.
func (h *logHost) Unknown(kind, name string, known []string) error { return unknown(kind, name, known) }

// Title is what a kind of fault, or a family, is called in words.
func (h *logHost) Title(l *season.Ledger, code string) string {
	for _, kind := range l.FaultKinds {
		if kind.Name == code {
			return kind.Says
		}
	}
	return words.GroupName(code)
}

func logKinds(cmd *cobra.Command) []string {
	var kinds []string
	for _, sub := range cmd.Commands() {
		kinds = append(kinds, sub.Name())
	}
	return kinds
}

// runLogText adds blocks from standard input.
func (a *app) runLogText() error {
	text, err := ledger.ReadText(a.in, "standard input", 0)
	if err != nil {
		return &fileError{"read standard input", err}
	}
	if strings.TrimSpace(text) == "" {
		return &usageError{"nothing on standard input", "give blocks in the ledger language: boxbook help language"}
	}
	if first := firstLine(text); first != strings.TrimLeft(first, " \t") {
		return &usageError{fmt.Sprintf("standard input begins with an indented line: %q", strings.TrimSpace(first)), "blocks start at column 0: flight, contest, cost ..."}
	}
	to, err := a.destination()
	if err != nil {
		return err
	}
	return a.recordUnseen("log", to, entry.Addition{Block: text, Said: "what was on standard input"})
}

// firstLine is a text's first line that says anything.
func firstLine(text string) string {
	for _, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		if said := strings.TrimSpace(line); said != "" && said[0] != '#' {
			return line
		}
	}
	return ""
}

// emptyLedger is what the program ships alone.
func (a *app) emptyLedger() (*season.Ledger, error) {
	today, err := a.today()
	if err != nil {
		return nil, err
	}
	result, err := ledger.Load(ledger.Options{Files: ledger.Memory{"empty" + ledgerSuffix: ""}, Main: "empty" + ledgerSuffix, Builtin: data.Builtin(), AsOf: today})
	if err != nil {
		return nil, err
	}
	return result.Ledger, nil
}
