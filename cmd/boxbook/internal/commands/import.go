package commands

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"boxbook/cmd/boxbook/internal/entry"
	"boxbook/report/display"
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
	// officialFrom is the cell of the printed final total.
	officialFrom     string
	remember, layout string // names of layouts
	write            bool
	// there is the flight of that name that the ledger has, nil for none; ownPanel says
	// that it names its judges itself.
	there    *season.Flight
	ownPanel bool
	panelOf  string // the flight whose judges were taken, "" for none
}

func newImport(a *app) *cobra.Command {
	o := importFlags{flight: entry.Answers{}}
	cmd := &cobra.Command{
		Use: "import SHEET", Short: "add a flight from a score sheet, csv or xlsx", GroupID: groupRecord,
		Long: `Add a flight from a score sheet as contest offices write them: CSV of any kind,
a workbook (xlsx), or a table pasted as text with its columns aligned by spaces.
A sheet has one row per figure, one row per judge, one worksheet per judge, or
one row per mark (figure, judge, mark).

Figures are found by their numbers, else by the ledger's labels. Titles, K,
means, points and totals are recognised by their content, in any language;
totals are compared with the marks. Where headings number the seats (Judge 1, 2,
3), the judges are those of --panel, else of the contest's panel, in that order,
which is said. Grades may lack their decimal point (85 for 8.5); where two
readings are possible it asks, and never guesses.

Every cell is read, listed as not read, or reported as an error. A column that
is not understood is an error, since it could be a judge's; so is one that could
be a judge's as well as K or a mean, where no panel says who judged. --columns
says which is which: figure=A,k=B,judges=C-E. It leaves out what is not to be
read: leave=H a column, leave=16:28 rows, leave=I6 a cell.

It shows the block that it would add to the ledger; --write adds it. To a flight
that the ledger has without marks it adds what is missing there. Formulas
are not calculated: their stored values are used, and listed. Hidden rows and
columns are listed too. Nothing is written while a cell is reported as an error.
--remember keeps how an office's sheets are read under a name, and --layout uses
it for the next one.`,
		Example: "  boxbook import tarn.csv --date 2026-04-18 --contest tarn-open --sequence known\n" +
			"  boxbook import tarn.xlsx --sheet Known --columns figure=A,judges=C-G --write",
		Args: arguments(cobra.ExactArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error { return a.runImport(args[0], o) },
	}
	f := cmd.Flags()
	kind := entry.Named("flight")
	for _, flag := range sheetFields() {
		field := kind.Field(flag.name)
		f.Var(answerFlag{o.flight, field}, flag.name, field.Usage()+flag.beyond)
	}
	f.Var(oneText{&o.worksheet}, "sheet", "the `WORKSHEET`, where the workbook has several")
	f.Var(oneText{&o.columns}, "columns", "what holds what: figure=A,judges=C-G (figure=2,judges=4-8 for rows; k=B with it for the K) or figure=A,judge=B,mark=C; leave=H+16:28+I6 for what is left out")
	f.Var(oneText{&o.officialFrom}, "official-from", "the `CELL` of the printed final total, taken as official: I19, of another worksheet Summary!B6")
	f.Var(oneText{&o.remember}, "remember", "keep --columns, --sheet and --official-from under this `NAME`, beside the ledger")
	f.Var(oneText{&o.layout}, "layout", "use what was kept under this `NAME`; flags given win")
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
		{"programme", "; the sequence's if omitted"},
		{"number", ""},
		{"sequence", ""},
		{"category", ""},
		{"panel", "; the contest's if omitted, else the sheet's"},
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
	var said []string
	if o.flight, said = entry.Named("flight").Meant(o.flight); len(said) > 0 {
		fmt.Fprintln(a.err, strings.Join(said, "\n"))
	}
	if err := o.useLayout(ledgerPath); err != nil {
		return err
	}
	if err := o.checkRemember(); err != nil {
		return err
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if o.flight, err = entry.Named("flight").Read(o.flight, l); err != nil {
		return asLogError(err)
	}
	a.tellTaken(shownName(path), o.fromSheet(path, l))
	seq, err := o.complete(l)
	if err != nil {
		return err
	}
	if _, err := a.dateFlag("date", o.flight.One("date")); err != nil {
		return err
	}
	options, err := o.options(l, seq)
	if err != nil {
		return err
	}
	options.Official = o.officialFrom
	found, grids, err := recognise(path, o.worksheet, options)
	if err != nil {
		return sheetError(path, err)
	}
	flight := o.take(found, options)
	if err := o.takeOfficial(grids, flight); err != nil {
		return err
	}
	a.tellSheet(shownName(path), found)
	if err := a.importFlight(l, flight, o, shownName(path), found); err != nil {
		return err
	}
	return o.keepLayout(ledgerPath)
}

// takeOfficial takes the printed final total out of the cell that was named.
func (o *importFlags) takeOfficial(grids []sheetimport.Grid, flight entry.Answers) error {
	if o.officialFrom == "" {
		return nil
	}
	total, err := sheetimport.PrintedTotal(grids, o.officialFrom)
	if err != nil {
		return &usageError{text: "--official-from: " + err.Error()}
	}
	flight["official"] = []string{total}
	return nil
}

// recognise reads a file's marks: of the worksheet that is named, else of the
// only one, or of a worksheet a judge.
func recognise(path, worksheet string, options sheetimport.Options) (found sheetimport.Result, grids []sheetimport.Grid, err error) {
	if worksheet != "" {
		grid, err := sheetfile.Load(path, worksheet)
		if err != nil {
			return found, nil, err
		}
		grids = []sheetimport.Grid{grid}
	} else if grids, err = sheetfile.LoadAll(path); err != nil {
		return found, nil, err
	}
	if len(grids) == 1 {
		return sheetimport.Recognise(grids[0], options), grids, nil
	}
	if whole := sheetimport.WholeSheets(grids, options); len(whole) > 1 {
		if grid, ok := sheetimport.SheetOf(whole, options); ok {
			found = sheetimport.Recognise(grid, options)
			found.Notes = slices.Insert(found.Notes, 0, sheetimport.NoteOf(grid, whole))
			return found, grids, nil
		}
		return found, nil, sheetfile.Choice(path, whole)
	}
	found, ok := sheetimport.RecogniseBook(grids, options)
	if !ok {
		return found, nil, sheetfile.Choice(path, grids)
	}
	return found, grids, nil
}

// sheetError turns what reading a file failed on into an error of the command.
func sheetError(path string, err error) error {
	var choice *sheetfile.ChoiceError
	var refused *sheetfile.RefusedError
	switch {
	case errors.As(err, &choice):
		return &usageError{choice.Error(), "name one with --sheet" + sheetsNamed(choice)}
	case errors.As(err, &refused):
		return &sheetRefusal{refused}
	default:
		return &fileError{"read " + shownName(path), err}
	}
}

// sheetsNamed are the flags that name one of a few worksheets: ": --sheet Known or --sheet
// Unknown".
func sheetsNamed(choice *sheetfile.ChoiceError) string {
	const most = 4
	if len(choice.Sheets) == 0 || len(choice.Sheets) > most {
		return ""
	}
	flags := make([]string, len(choice.Sheets))
	for i, name := range choice.Sheets {
		flags[i] = "--sheet " + display.ShellWord(display.OneLine(name))
	}
	return ": " + strings.Join(flags, " or ")
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
	o.fromWaiting(l)
	name := o.flight.One("sequence")
	seq := l.SequenceNamed(name)
	if seq == nil && name != "" {
		return nil, sequenceNotTyped(unknown("sequence", name, proposeSequences(l)))
	}
	if seq != nil {
		o.fill("programme", string(seq.Programme))
	}
	if err := o.fromFlight(l); err != nil {
		return nil, err
	}
	return l.SequenceNamed(o.flight.One("sequence")), o.check(l)
}

// fromFlight takes contest, sequence and judges from the flight of that name, where the
// ledger has it: with marks too, so that a sheet that was read before is read alike.
func (o *importFlags) fromFlight(l *season.Ledger) error {
	o.there = flightNamed(l, entry.FlightName(o.flight))
	if o.there == nil {
		return nil
	}
	if o.there.Contest != nil {
		o.fill("contest", o.there.Contest.Handle)
	}
	if o.there.Sequence != nil {
		o.fill("sequence", o.there.Sequence.Handle)
	}
	var err error
	if o.ownPanel, err = namesPanel(o.there); err == nil && o.ownPanel && !o.flight.Has("panel") {
		o.fill("panel", entry.PanelOf(o.there))
		o.panelOf = o.there.Name
	}
	return err
}

// sequenceNotTyped adds how a sequence comes into the ledger.
func sequenceNotTyped(err error) error {
	var usage *usageError
	if errors.As(err, &usage) {
		usage.hint = strings.TrimPrefix(usage.hint+"\nif the sheet's sequence is not in the ledger yet, type it first: boxbook log sequence", "\n")
	}
	return err
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
		err := missingFlags(missing, "the sheet does not plainly say it: give it; see boxbook import --help")
		if slices.Contains(missing, "sequence") {
			return sequenceNotTyped(err)
		}
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
		Pilot: o.flight.One("pilot"), Pilots: sheetPilots(l),
	}
	if contest := l.ContestNamed(o.flight.One("contest")); contest != nil {
		options.Panel, options.PanelOf = contest.Panel, contest.Handle
	}
	if o.there != nil {
		for _, p := range o.there.Penalties {
			options.Penalties = append(options.Penalties, fmt.Sprintf("%s %s", p.Kind, p.Points))
		}
	}
	options.Style, options.Known = o.style(l), knownJudges(l)
	if panel := o.flight.One("panel"); panel != "" {
		options.Panel, options.PanelOf = strings.Fields(panel), o.panelOf
		if i := slices.Index(options.Panel, "missing"); i >= 0 {
			options.Panel = options.Panel[:i]
		}
	}
	if len(options.Panel) == 0 {
		options.Panel = nil
	}
	return options, nil
}

// knownJudges are those who sat on any panel of the ledger, and all who have a name in it
// besides; a seat means somebody in one contest alone.
func knownJudges(l *season.Ledger) []string {
	var all []string
	for _, c := range l.Contests {
		all = append(all, c.Panel...)
	}
	for _, f := range l.Flights {
		all = append(all, f.Panel...)
	}
	for _, p := range l.Parties() {
		if !p.Club() {
			all = append(all, p.Name())
		}
	}
	slices.Sort(all)
	return slices.DeleteFunc(slices.Compact(all), season.IsSeat)
}

// style is the rule style that the flight will have.
func (o *importFlags) style(l *season.Ledger) scoring.Style {
	if o.there != nil && o.there.Style != nil {
		return o.there.Style.Style
	}
	if contest := l.ContestNamed(o.flight.One("contest")); contest != nil && contest.Style != nil {
		return contest.Style.Style
	}
	return scoring.Style{}
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
	flight["penalty"] = found.Penalties
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

// importFlight shows what it would add, and adds it where it is asked to and whole.
func (a *app) importFlight(l *season.Ledger, flight entry.Answers, o importFlags, sheet string, found sheetimport.Result) error {
	problems := len(found.Problems) + found.More
	to, add := destination{}, entry.Addition{Block: entry.FlightBlock(l, flight), Said: "flight " + entry.FlightName(flight)}
	var stands error // against writing it
	if problems == 0 {
		to, stands = a.destination()
	}
	if problems == 0 && stands == nil {
		add, stands = a.placed(to, l, flight, o, add)
	}
	if problems == 0 || slices.ContainsFunc(flight["row"], func(row string) bool { return row != "" }) {
		if _, err := fmt.Fprintln(a.out, add.Show()); err != nil {
			return &fileError{"write the output", err}
		}
	}
	a.tellRead(sheet, found)
	switch {
	case problems > 0:
		return errCheck
	case stands != nil:
		return stands
	}
	result, err := a.preview(to, add)
	if err != nil {
		return err
	}
	if err := result.Diagnostics.Err(); err != nil {
		return hintsByFlag(a.broughtBy(to, err))
	}
	if said := leftOpen(result.Ledger, flight); said != "" {
		fmt.Fprintln(a.err, a.pasted().in(said))
	}
	if said := likeAnother(result, entry.FlightName(flight)); said != "" {
		fmt.Fprintf(a.err, "%s: warning: %s\n    hint: where the sheet was imported before, nothing is left to do; write it only as another flight's\n", sheet, said)
	}
	if said, pilot := likeAnotherPilots(result, entry.FlightName(flight)); said != "" {
		fmt.Fprintf(a.err, "%s: warning: %s\n    hint: look whose name the sheet has: write it only where it is not %s's, and correct the other flight then\n", sheet, said, pilot)
	}
	if !o.write {
		if err := a.tellWarnings(to, sheet, result.Diagnostics); err != nil {
			return err
		}
		what := "it to " + shownName(to.file)
		if add.Into != nil {
			what = fmt.Sprintf("these lines to %s, at %s:%d", o.there.Name, o.there.At.File, o.there.At.Line)
		}
		_, err := fmt.Fprintln(a.err, "not written yet: --write adds "+what)
		return err
	}
	if l, err = a.recordUnseen("import", to, add); err != nil {
		return err
	}
	return a.sayScore(l, entry.FlightName(flight))
}
