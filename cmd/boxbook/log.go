package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
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
	cmd.AddCommand(newLogFlight(a, season.Known), newLogFlight(a, season.Practice))
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

// readOptions say how the ledger is read.
func (a *app) readOptions(path string) (ledger.Options, error) {
	today, err := a.today()
	if err != nil {
		return ledger.Options{}, err
	}
	opts := ledger.Options{Files: ledger.Disk{}, Main: path, Builtin: data.Builtin(), AsOf: today}
	if path == stdinName {
		opts.Files, opts.Shown = standardInput{in: a.in}, "standard input"
	}
	return opts, nil
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

// answers are what was given for a form's fields, by flag or by being asked.
type answers map[string][]string

func (v answers) one(name string) string {
	if len(v[name]) == 0 {
		return ""
	}
	return v[name][0]
}

func (v answers) has(name string) bool { return len(v[name]) > 0 && v[name][0] != "" }

// behind is a field's answer behind a word of the language, "" where there is
// none.
func (v answers) behind(word, name string) string {
	if !v.has(name) {
		return ""
	}
	return word + " " + v.one(name)
}

// field is one thing that a form asks for.
type field struct {
	name     string // the flag
	asks     string // what to type
	optional bool
	repeat   bool
	words    bool // several words in one answer stay several
	propose  func(*season.Ledger) []string
}

// form is a kind of entry that is made of fields.
type form struct {
	kind, short string
	fields      []field
	build       func(*season.Ledger, answers) (entry, error)
}

func newLogForm(a *app, f form) *cobra.Command {
	values := map[string]*[]string{}
	cmd := &cobra.Command{
		Use: f.kind, Short: f.short, Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runForm(f, values) },
	}
	for _, field := range f.fields {
		values[field.name] = textFlags(cmd.Flags(), field.name, fieldUsage(field))
	}
	return cmd
}

func fieldUsage(f field) string {
	usage := f.asks
	if f.repeat {
		usage += "; may be given several times"
	}
	return usage
}

// runForm takes the fields from flags, asks for what is missing, and records.
func (a *app) runForm(f form, flags map[string]*[]string) error {
	l, err := a.openOrEmpty()
	if err != nil {
		return err
	}
	given := answers{}
	for _, field := range f.fields {
		if values := *flags[field.name]; len(values) > 0 {
			if len(values) > 1 && !field.repeat {
				return &usageError{text: fmt.Sprintf("--%s is given %d times", field.name, len(values))}
			}
			given[field.name] = values
		}
	}
	p, err := a.ask()
	if err != nil {
		return err
	}
	if p != nil {
		err = f.fill(p, l, given)
		if closeErr := p.close(); err == nil {
			err = closeErr
		}
		if err != nil {
			return err
		}
	}
	if missing := f.missing(given); len(missing) > 0 {
		return missingFlags(missing, "boxbook log "+f.kind+" --help")
	}
	e, err := f.build(l, given)
	if err != nil {
		return err
	}
	return a.record(e)
}

func (f form) missing(given answers) []string {
	var names []string
	for _, field := range f.fields {
		if !field.optional && !given.has(field.name) {
			names = append(names, field.name)
		}
	}
	return names
}

// fill asks for the fields that no flag gave: all of them where one that is
// needed is missing, none where the flags were enough.
func (f form) fill(p *prompter, l *season.Ledger, given answers) error {
	if len(f.missing(given)) == 0 {
		return nil
	}
	for _, field := range f.fields {
		if given.has(field.name) {
			continue
		}
		values, err := p.askField(l, field)
		if err != nil {
			return err
		}
		given[field.name] = values
	}
	return nil
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

// blockText joins words to lines of the ledger language.
type blockText struct{ b strings.Builder }

func (t *blockText) line(words ...string) *blockText {
	words = slices.DeleteFunc(words, func(w string) bool { return w == "" })
	t.b.WriteString(strings.Join(words, " ") + "\n")
	return t
}

// body adds an indented line where there is anything to say.
func (t *blockText) body(key string, values ...string) *blockText {
	values = slices.DeleteFunc(values, func(w string) bool { return w == "" })
	if len(values) > 0 {
		t.b.WriteString("  " + key + " " + strings.Join(values, " ") + "\n")
	}
	return t
}

// tidied gives the block in the layout of `tidy`; text that is not of the
// language stays as it is, and the check of the whole ledger says what is wrong.
func (t *blockText) tidied() string {
	text := t.b.String()
	if tidy, err := ledger.Tidy("", text); err == nil {
		return tidy
	}
	return text
}

// quoted writes free text as the ledger does, "" for none.
func quoted(text string) string {
	if text == "" {
		return ""
	}
	return ledger.Quote(text)
}
