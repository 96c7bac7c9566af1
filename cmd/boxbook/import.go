package main

import (
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report/sheetfile"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/ledger"
	"boxbook/season/sheetimport"

	"github.com/spf13/cobra"
)

// importFlags say what the sheet is, and what the sheet does not say.
type importFlags struct {
	flight    entry.Answers // by the fields of the table
	worksheet string
	columns   string
	write     bool
}

func newImport(a *app) *cobra.Command {
	o := importFlags{flight: entry.Answers{}}
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
	kind := entry.Named("flight")
	for _, flag := range sheetFields() {
		f.Var(answerFlag{o.flight, flag.name}, flag.name, kind.Field(flag.name).Usage()+flag.beyond)
	}
	f.Var(oneText{&o.worksheet}, "sheet", "the worksheet, where the workbook has several")
	f.Var(oneText{&o.columns}, "columns", "the columns: figure=A,judges=C-G or figure=A,judge=B,mark=C; leave=H+J for those left out")
	f.BoolVar(&o.write, "write", false, "add the block to the ledger")
	a.ledgerFlag(cmd)
	instead(cmd, "import writes into the ledger: --write adds the block", "format", "output")
	return cmd
}

// sheetFields are the fields of a flight that a sheet does not say, and what
// their flags' help adds to that of the table.
func sheetFields() []struct{ name, beyond string } {
	return []struct{ name, beyond string }{
		{"date", "; a contest's, where it has one day"},
		{"pilot", ", where the ledger has several"},
		{"contest", ""},
		{"programme", "; the sequence's where left out"},
		{"number", ""},
		{"sequence", ""},
		{"category", ""},
		{"panel", "; the contest's where left out, else the sheet's"},
	}
}

func (a *app) runImport(path string, o importFlags) error {
	ledgerPath, err := a.ledgerPath()
	if err != nil {
		return err
	}
	if ledgerPath == stdinName {
		return errWriteStdin
	}
	if err := entry.Named("flight").Check(o.flight); err != nil {
		return asLogError(err)
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if o.flight, err = entry.Named("flight").Read(o.flight, l); err != nil {
		return asLogError(err)
	}
	seq, err := o.complete(l)
	if err != nil {
		return err
	}
	options, err := o.options(l, seq)
	if err != nil {
		return err
	}
	found, err := recognise(path, o.worksheet, options)
	if err != nil {
		return sheetError(path, err)
	}
	a.tellSheet(filepath.ToSlash(path), found)
	return a.importFlight(l, o.take(found, options), o.write, found)
}

// recognise reads a file's marks: of the worksheet that is named, else of the
// only one, or of a worksheet a judge.
func recognise(path, worksheet string, options sheetimport.Options) (sheetimport.Result, error) {
	if worksheet != "" {
		grid, err := sheetfile.Load(path, worksheet)
		if err != nil {
			return sheetimport.Result{}, err
		}
		return sheetimport.Recognise(grid, options), nil
	}
	grids, err := sheetfile.LoadAll(path)
	if err != nil {
		return sheetimport.Result{}, err
	}
	if len(grids) == 1 {
		return sheetimport.Recognise(grids[0], options), nil
	}
	found, ok := sheetimport.RecogniseBook(grids, options)
	if !ok {
		return found, sheetfile.Choice(path, grids)
	}
	return found, nil
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
	if len(l.Pilots) == 1 {
		o.fill("pilot", l.Pilots[0].Handle)
	}
	if pilot := o.flight.One("pilot"); pilot != "" && l.PilotNamed(pilot) == nil {
		return nil, unknown("pilot", pilot, pilotHandles(l.Pilots))
	}
	name := o.flight.One("sequence")
	seq := l.SequenceNamed(name)
	if seq == nil && name != "" {
		return nil, unknown("sequence", name, proposeSequences(l))
	}
	if seq != nil {
		o.fill("programme", string(seq.Programme))
	}
	return seq, o.check(l)
}

// fill takes what the ledger knows where no flag says it.
func (o *importFlags) fill(field, answer string) {
	if !o.flight.Has(field) && answer != "" {
		o.flight[field] = []string{answer}
	}
}

// fromContest takes the date from a contest of one day.
func (o *importFlags) fromContest(l *season.Ledger) error {
	name := o.flight.One("contest")
	if name == "" {
		return nil
	}
	contest := l.ContestNamed(name)
	if contest == nil {
		return unknown("contest", name, contestHandles(l))
	}
	if contest.First == contest.Last {
		o.fill("date", contest.First.String())
	}
	return nil
}

// check reports what is missing, and what no ledger could have.
func (o *importFlags) check(l *season.Ledger) error {
	needed := []string{"date", "pilot", "sequence"}
	if o.flight.Has("sequence") { // one that is not named may yet say it
		needed = append(needed, "programme")
	}
	missing := slices.DeleteFunc(needed, o.flight.Has)
	if len(missing) > 0 {
		return missingFlags(missing, "the sheet does not say it; see boxbook import --help")
	}
	if _, err := dateFlag("date", o.flight.One("date")); err != nil {
		return err
	}
	if programmes := proposeProgrammes(l); !slices.Contains(programmes, o.flight.One("programme")) {
		return unknown("programme", o.flight.One("programme"), programmes)
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
		Sequence: seq.Handle, Lines: sheetimport.LinesOf(seq), Columns: columns, Flight: entry.FlightName(o.flight),
		Partial: o.flight.One("programme") == string(season.Practice), ReadMark: readMark,
	}
	if contest := l.ContestNamed(o.flight.One("contest")); contest != nil {
		options.Panel = contest.Panel
	}
	if panel := o.flight.One("panel"); panel != "" {
		options.Panel, options.InOrder = strings.Fields(panel), true
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
func (o *importFlags) take(found sheetimport.Result, options sheetimport.Options) entry.Answers {
	flight := maps.Clone(o.flight)
	if options.Panel == nil {
		flight["panel"] = []string{strings.Join(found.Panel, " ")}
	}
	for i, row := range found.Rows {
		flown := []string{marksOf(row)}
		for _, again := range found.Again[i] {
			flown = append(flown, marksOf(again))
		}
		flight["row"] = append(flight["row"], strings.Join(flown, entry.AnotherTime))
	}
	return flight
}

// marksOf writes a row's marks as a ledger does.
func marksOf(row []sheetimport.Entry) string {
	var marks []string
	for _, mark := range row {
		marks = append(marks, mark.String())
	}
	return strings.Join(marks, " ")
}

// tellSheet says on standard error what was not read, and what could not be.
func (a *app) tellSheet(name string, found sheetimport.Result) {
	at := func(worksheet, cell string) string {
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
		fmt.Fprintf(a.err, "%s: note: %s\n", at(note.Sheet, note.Cell), note.Text)
	}
	for _, problem := range found.Problems {
		fmt.Fprintf(a.err, "%s: error: %s\n", at(problem.Sheet, problem.Cell), problem.Text)
		if problem.Hint != "" {
			fmt.Fprintf(a.err, "    hint: %s\n", problem.Hint)
		}
	}
	if found.More > 0 {
		fmt.Fprintf(a.err, "%s: and %d more\n", name, found.More)
	}
	if found.Panel != nil {
		fmt.Fprintf(a.err, "%s: %s\n", name, readOf(found))
	}
	if n := len(found.Problems) + found.More; n > 0 {
		fmt.Fprintf(a.err, "%s: %s; nothing was written\n", name, counted(n, "error", "errors"))
	}
}

// readOf counts what was read: "60 of 60 marks read, 5 of 5 judges".
func readOf(found sheetimport.Result) string {
	read, all := 0, 0
	judges := make([]bool, len(found.Panel))
	for i, row := range found.Rows {
		for _, entries := range append([][]sheetimport.Entry{row}, found.Again[i]...) {
			if entries == nil {
				entries = make([]sheetimport.Entry, len(found.Panel))
			}
			for j, e := range entries {
				all++
				if e.Read {
					read++
					judges[j] = true
				}
			}
		}
	}
	n := 0
	for _, has := range judges {
		if has {
			n++
		}
	}
	return fmt.Sprintf("%d of %s read, %d of %s", read, counted(all, "mark", "marks"), n, counted(len(found.Panel), "judge", "judges"))
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

// importFlight shows the block, and adds it where it is asked to and whole.
func (a *app) importFlight(l *season.Ledger, flight entry.Answers, write bool, found sheetimport.Result) error {
	problems := len(found.Problems) + found.More
	if problems > 0 && !slices.ContainsFunc(flight["row"], func(row string) bool { return row != "" }) {
		return errCheck // there is no flight to show
	}
	add := entry.Addition{Block: entry.FlightBlock(l, flight), Said: "flight " + entry.FlightName(flight)}
	if _, err := fmt.Fprint(a.out, add.Block); err != nil {
		return &fileError{"write the output", err}
	}
	if problems > 0 {
		return errCheck
	}
	to, err := a.destination()
	if err != nil {
		return err
	}
	result, err := a.preview(to, add)
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return err
	}
	if !write {
		_, err := fmt.Fprintln(a.err, "not written yet: --write adds it to "+filepath.ToSlash(to.file))
		return err
	}
	return a.record(to, add)
}
