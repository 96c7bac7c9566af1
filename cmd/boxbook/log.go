package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"boxbook/data"
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

The ledger is changed as a whole or not at all: every earlier line stays as it
is, and nothing is written that would not be read again.`,
		Example: "  boxbook log flight\n  boxbook log fault --flight 2026-04-18/ines/known --figure 2 --kind radius\n  cat new.txt | boxbook log -",
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
	for _, f := range forms() {
		cmd.AddCommand(newLogForm(a, f))
	}
	cmd.AddCommand(newLogFlight(a, false), newLogFlight(a, true))
	a.ledgerFlag(cmd)
	for _, sub := range cmd.Commands() {
		a.ledgerFlag(sub)
		if sub.Flags().Lookup("date") != nil { // which today is proposed for
			a.asOfFlag(sub)
		}
	}
	return cmd
}

func logKinds(cmd *cobra.Command) []string {
	var kinds []string
	for _, sub := range cmd.Commands() {
		kinds = append(kinds, sub.Name())
	}
	return kinds
}

// entry is what is added to a ledger: blocks at its end, or lines in a block
// that is there.
type entry struct {
	block string         // blocks in the ledger language
	into  *ledger.Target // where lines go, nil for blocks
	lines []string
	said  string // what was added, for the last word
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
	return a.record(entry{block: text, said: "what was on standard input"})
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

// record writes an entry into the ledger, and says so.
func (a *app) record(e entry) error {
	path, err := a.writablePath()
	if err != nil {
		return err
	}
	opts, err := a.readOptions(path)
	if err != nil {
		return err
	}
	file := path
	if e.into != nil {
		file = filepath.FromSlash(e.into.File)
	}
	err = ledger.Edit(opts, file, func(old string) (string, error) {
		if e.into != nil {
			return ledger.AddLines(old, *e.into, e.lines...)
		}
		return ledger.Append(old, e.block), nil
	})
	var invalid *ledger.InvalidError
	if errors.As(err, &invalid) {
		return &additionError{invalid}
	}
	if err != nil {
		return err
	}
	_, err = fmt.Fprintf(a.out, "added %s to %s\n", e.said, filepath.ToSlash(file))
	return err
}

// writablePath is the ledger to write into; an empty folder gets a new one.
func (a *app) writablePath() (string, error) {
	path, err := a.ledgerPath()
	if errors.Is(err, errNoLedger) {
		path, err = newLedger, nil
	}
	if err != nil {
		return "", err
	}
	if path == stdinName {
		return "", errWriteStdin
	}
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		if err := writeNew(path, ""); err != nil {
			return "", err
		}
		fmt.Fprintf(a.out, "began a new ledger, %s\n", filepath.ToSlash(path))
	}
	return path, nil
}

// ask is the conversation of one `log` command; nil where nobody can be asked.
func (a *app) ask() (*prompter, error) {
	if !a.interactive {
		return nil, nil
	}
	return newPrompter(a.streams)
}

// openOrEmpty reads the ledger; where there is none yet, an empty one.
func (a *app) openOrEmpty() (*season.Ledger, error) {
	l, err := a.open()
	var file *fileError
	if errors.Is(err, errNoLedger) || errors.As(err, &file) && errors.Is(err, os.ErrNotExist) {
		return a.emptyLedger()
	}
	return l, err
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

// preview reads the ledger as it would be with more text at its end.
func (a *app) preview(path, more string) (*ledger.Result, error) {
	opts, err := a.readOptions(path)
	if err != nil {
		return nil, err
	}
	opts.Files = withMore{ledger.Disk{}, path, more}
	result, err := ledger.Load(opts)
	if err != nil {
		return nil, &fileError{"read " + path, err}
	}
	return result, nil
}

// withMore is the disk with more text at the end of one file.
type withMore struct {
	ledger.Disk
	path, more string
}

func (w withMore) Read(path string) (string, error) {
	text, err := w.Disk.Read(path)
	if err == nil && path == w.path {
		text = ledger.Append(text, w.more)
	}
	return text, err
}

// flightTarget is the block of a flight that is named by a selector.
func flightTarget(l *season.Ledger, selector string) (*season.Flight, *ledger.Target, error) {
	f, err := oneFlight(l, season.Selection{}, selector)
	if err != nil {
		return nil, nil, err
	}
	return f, &ledger.Target{File: f.At.File, Kind: "flight", Name: f.Name}, nil
}

// contestTarget is the block of a contest.
func contestTarget(l *season.Ledger, handle string) (*season.Contest, *ledger.Target, error) {
	c := l.ContestNamed(handle)
	if c == nil {
		return nil, nil, unknown("contest", handle, contestHandles(l))
	}
	return c, &ledger.Target{File: c.At.File, Kind: "contest", Name: c.Handle}, nil
}
