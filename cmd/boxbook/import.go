package main

import (
	"errors"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/report/sheetfile"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"

	"github.com/spf13/cobra"
)

// importFlags say what the sheet is, and what the sheet does not say.
type importFlags struct {
	flightFlags
	worksheet string
	columns   string
	write     bool
}

func newImport(a *app) *cobra.Command {
	var o importFlags
	cmd := &cobra.Command{
		Use: "import SHEET", Short: "add a flight from a score sheet, csv or xlsx", GroupID: groupRecord,
		Long: `Add a flight from a score sheet: CSV, or a workbook (xlsx). A sheet is wide, a row
a figure and a column a judge, or long, a row a mark (figure, judge, mark). Its
headings are recognised, or its columns are given. A column that nobody reads
is an error, since it could be a judge's; --columns leave=F leaves it out.

It shows the block that it would add to the ledger, what it did not read, and
every cell that it could not read, by name; --write adds the block. Nothing is
guessed, no formula is calculated (stored values are taken, and said), and
nothing is written while a cell is unread.`,
		Example: "  boxbook import tarn.csv --date 2026-04-18 --contest tarn-open --sequence known-26\n" +
			"  boxbook import tarn.xlsx --sheet Known --columns figure=A,judges=C-G --date 2026-04-18 --pilot ines --sequence known-26 --panel \"A B C D E\" --write",
		Args: arguments(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error { return a.runImport(args[0], o) },
	}
	f := cmd.Flags()
	f.Var(oneText{&o.date}, "date", "the date (YYYY-MM-DD); a contest's, where it has one day")
	f.Var(oneText{&o.pilot}, "pilot", "the pilot, where the ledger has several")
	f.Var(oneText{&o.contest}, "contest", "the contest")
	f.Var(oneText{&o.programme}, "programme", "the programme; the sequence's where left out")
	f.Var(oneText{&o.label}, "number", "a number, to tell flights of one day apart")
	f.Var(oneText{&o.sequence}, "sequence", "the sequence")
	f.Var(oneText{&o.category}, "category", "the category, where the sequence does not say it")
	f.Var(oneText{&o.panel}, "panel", "the judges; the contest's where left out, else the sheet's")
	f.Var(oneText{&o.worksheet}, "sheet", "the worksheet, where the workbook has several")
	f.Var(oneText{&o.columns}, "columns", "the columns: figure=A,judges=C-G or figure=A,judge=B,mark=C; leave=H+J for those left out")
	f.BoolVar(&o.write, "write", false, "add the block to the ledger")
	a.ledgerFlag(cmd)
	instead(cmd, "import writes into the ledger: --write adds the block", "format", "output")
	return cmd
}

func (a *app) runImport(path string, o importFlags) error {
	ledgerPath, err := a.ledgerPath()
	if err != nil {
		return err
	}
	if ledgerPath == stdinName {
		return errWriteStdin
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	seq, err := o.complete(l)
	if err != nil {
		return err
	}
	options, err := o.options(l, seq)
	if err != nil {
		return err
	}
	grid, err := sheetfile.Load(path, o.worksheet)
	if err != nil {
		return sheetError(path, err)
	}
	found := sheetimport.Recognise(grid, options)
	a.tellSheet(filepath.ToSlash(path), grid.Name, found)
	return a.importBlock(ledgerPath, o.take(found, options), o.write, len(found.Problems)+found.More, seq)
}

// sheetError turns what reading a file failed on into an error of the command.
func sheetError(path string, err error) error {
	var choice *sheetfile.ChoiceError
	var refused *sheetfile.RefusedError
	switch {
	case errors.As(err, &choice):
		return &usageError{choice.Error(), "name one with --sheet"}
	case errors.As(err, &refused):
		return &sheetRefusal{refused}
	default:
		return &fileError{"read " + filepath.ToSlash(path), err}
	}
}

// sheetRefusal is a sheet that is not read: input that failed, with a hint.
type sheetRefusal struct{ *sheetfile.RefusedError }

func (e *sheetRefusal) Error() string {
	if e.Hint == "" {
		return e.RefusedError.Error()
	}
	return e.RefusedError.Error() + "\n  " + e.Hint
}

// complete fills in what the ledger knows, and gives the sequence.
func (o *importFlags) complete(l *season.Ledger) (*season.Sequence, error) {
	if err := o.fromContest(l); err != nil {
		return nil, err
	}
	if o.pilot == "" && len(l.Pilots) == 1 {
		o.pilot = l.Pilots[0].Handle
	}
	if o.pilot != "" && l.PilotNamed(o.pilot) == nil {
		return nil, unknown("pilot", o.pilot, pilotHandles(l.Pilots))
	}
	seq := l.SequenceNamed(o.sequence)
	if seq == nil && o.sequence != "" {
		return nil, unknown("sequence", o.sequence, proposeSequences(l))
	}
	if seq != nil && o.programme == "" {
		o.programme = string(seq.Programme)
	}
	return seq, o.check(l)
}

// fromContest takes the date from a contest of one day.
func (o *importFlags) fromContest(l *season.Ledger) error {
	if o.contest == "" {
		return nil
	}
	contest := l.ContestNamed(o.contest)
	if contest == nil {
		return unknown("contest", o.contest, contestHandles(l))
	}
	if o.date == "" && contest.First == contest.Last {
		o.date = contest.First.String()
	}
	return nil
}

// check reports what is missing, and what no ledger could have.
func (o *importFlags) check(l *season.Ledger) error {
	needed := []flagValue{{"date", o.date}, {"pilot", o.pilot}, {"sequence", o.sequence}}
	if o.sequence != "" { // one that is not named may yet say it
		needed = append(needed, flagValue{"programme", o.programme})
	}
	if missing := withoutValue(needed); len(missing) > 0 {
		return missingFlags(missing, "the sheet does not say it; see boxbook import --help")
	}
	if _, err := dateFlag("date", o.date); err != nil {
		return err
	}
	if programmes := proposeProgrammes(l); !slices.Contains(programmes, o.programme) {
		return unknown("programme", o.programme, programmes)
	}
	return nil
}

// options say what the sheet is to hold.
func (o *importFlags) options(l *season.Ledger, seq *season.Sequence) (sheetimport.Options, error) {
	columns, err := sheetimport.ParseColumns(o.columns)
	if err != nil {
		return sheetimport.Options{}, &usageError{text: "--columns: " + err.Error()}
	}
	options := sheetimport.Options{
		Sequence: seq.Handle, Lines: sheetimport.LinesOf(seq), Columns: columns, Flight: flightTitleOf(o.flightFlags),
		Partial: o.programme == string(season.Practice), ReadMark: readMark,
	}
	if contest := l.ContestNamed(o.contest); contest != nil {
		options.Panel = contest.Panel
	}
	if o.panel != "" {
		options.Panel = strings.Fields(o.panel)
		if i := slices.Index(options.Panel, "missing"); i >= 0 {
			options.Panel = options.Panel[:i]
		}
	}
	if len(options.Panel) == 0 {
		options.Panel = nil
	}
	return options, nil
}

// readMark reads one word as the ledger does.
func readMark(text string) (mark scoring.Mark, problem, hint string) {
	marks, _, problem, hint := ledger.ReadMarks(text)
	switch {
	case problem != "":
		return scoring.Mark{}, problem, hint
	case len(marks) != 1:
		return scoring.Mark{}, fmt.Sprintf("%q is not one mark", text), ""
	default:
		return marks[0], "", ""
	}
}

// take gives the flight with the sheet's marks, ? for each that was not read,
// and with the sheet's judges where neither a flag nor the contest names them.
func (o *importFlags) take(found sheetimport.Result, options sheetimport.Options) flightFlags {
	flight := o.flightFlags
	if options.Panel == nil {
		flight.panel = strings.Join(found.Panel, " ")
	}
	for _, row := range found.Rows {
		var marks []string
		for _, entry := range row {
			marks = append(marks, entry.String())
		}
		flight.rows = append(flight.rows, strings.Join(marks, " "))
	}
	return flight
}

// tellSheet says on standard error what was not read, and what could not be.
func (a *app) tellSheet(name, worksheet string, found sheetimport.Result) {
	at := func(cell string) string {
		switch {
		case cell == "":
			return name
		case worksheet == "":
			return name + ":" + cell
		default:
			return fmt.Sprintf("%s:%s!%s", name, quotedSheet(worksheet), cell)
		}
	}
	for _, note := range found.Notes {
		fmt.Fprintf(a.err, "%s: note: %s\n", at(note.Cell), note.Text)
	}
	for _, problem := range found.Problems {
		fmt.Fprintf(a.err, "%s: error: %s\n", at(problem.Cell), problem.Text)
		if problem.Hint != "" {
			fmt.Fprintf(a.err, "    hint: %s\n", problem.Hint)
		}
	}
	if found.More > 0 {
		fmt.Fprintf(a.err, "%s: and %d more\n", name, found.More)
	}
	if n := len(found.Problems) + found.More; n > 0 {
		fmt.Fprintf(a.err, "%s: %s; nothing was written\n", name, counted(n, "error", "errors"))
	}
}

// quotedSheet is a worksheet's name as a reference to a cell has it.
func quotedSheet(name string) string {
	plain := strings.IndexFunc(name, func(r rune) bool {
		return r != '_' && (r < '0' || r > '9') && (r < 'A' || r > 'Z') && (r < 'a' || r > 'z')
	})
	if plain < 0 {
		return name
	}
	quoted := fmt.Sprintf("%q", name) // nothing of a foreign name is left raw
	return "'" + strings.ReplaceAll(quoted[1:len(quoted)-1], "'", "''") + "'"
}

// importBlock shows the block, and adds it where it is asked to and whole.
func (a *app) importBlock(ledgerPath string, flight flightFlags, write bool, problems int, seq *season.Sequence) error {
	block := flightBlock(flight, seq)
	if problems > 0 && !slices.ContainsFunc(flight.rows, func(row string) bool { return row != "" }) {
		return errCheck // there is no flight to show
	}
	if _, err := fmt.Fprint(a.out, block); err != nil {
		return &fileError{"write the output", err}
	}
	if problems > 0 {
		return errCheck
	}
	result, err := a.preview(ledgerPath, block)
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	if !write {
		_, err := fmt.Fprintln(a.err, "not written yet: --write adds it to "+filepath.ToSlash(ledgerPath))
		return err
	}
	return a.record(entry{block: block, said: "flight " + flightTitleOf(flight)})
}
