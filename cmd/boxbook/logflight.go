package main

import (
	"errors"
	"fmt"
	"strings"

	"boxbook/season"

	"github.com/spf13/cobra"
)

// flightFlags are the flags of `log flight` and `log practice`: everything the
// conversation asks for.
type flightFlags struct {
	date, pilot, contest, programme, label, sequence, category, panel string
	official, place, judgeTotals, field                               string
	rows, sheets, penalties, resolves, notes                          []string
}

// newLogFlight is `log flight`, and `log practice` for practice.
func newLogFlight(a *app, practice bool) *cobra.Command {
	var o flightFlags
	name, short := "flight", "add a contest flight, walking its sheets"
	if practice {
		name, short = "practice", "add a practice flight"
		o.programme = string(season.Practice)
	}
	cmd := &cobra.Command{
		Use: name, Short: short, Args: arguments(cobra.NoArgs),
		Long: `Add a flight. At a terminal it asks for date, pilot, contest, programme,
sequence and panel, proposes what the ledger has, and adds what it lacks on the
way; then it walks the marks, by figure or by sheet as the paper lies, a row at
a time such as "8 7.5 hz 8 8". A wrong mark is refused at once; "back" returns
to the row before. It ends with the score and asks before it writes. Ctrl-C
loses nothing: the draft is offered next time.`,
		RunE: func(*cobra.Command, []string) error { return a.runLogFlight(name, o) },
	}
	f := cmd.Flags()
	f.Var(oneText{&o.date}, "date", "the date (YYYY-MM-DD)")
	f.Var(oneText{&o.pilot}, "pilot", "the pilot")
	if !practice {
		f.Var(oneText{&o.contest}, "contest", "the contest")
		f.Var(oneText{&o.programme}, "programme", "the programme")
	}
	f.Var(oneText{&o.label}, "number", "a number, to tell flights of one day apart")
	f.Var(oneText{&o.sequence}, "sequence", "the sequence")
	f.Var(oneText{&o.category}, "category", "the category, where the sequence does not say it")
	f.Var(oneText{&o.panel}, "panel", "the judges, where it is not the contest's panel")
	f.Var(texts{&o.rows}, "row", "the marks of a figure, in order; positioning and harmony last")
	f.Var(texts{&o.sheets}, "sheet", "a judge and the marks of the sheet")
	f.Var(texts{&o.penalties}, "penalty", `a penalty: low 20`)
	f.Var(texts{&o.resolves}, "resolve", "a ruling: 3 zero")
	f.Var(oneText{&o.official}, "official", "the printed total, as printed: 540.49, or 540.49 of 800")
	f.Var(oneText{&o.judgeTotals}, "judge-totals", "the judges' printed totals, in the panel's order: 596.0 568.17")
	f.Var(oneText{&o.place}, "place", "the place: 3 of 9")
	f.Var(oneText{&o.field}, "field", "the field's totals: 612.25 577.00 540.49")
	f.Var(texts{&o.notes}, "note", "a note")
	return cmd
}

func (a *app) runLogFlight(kind string, o flightFlags) error {
	path, err := a.writablePath()
	if err != nil {
		return err
	}
	l, err := a.openOrEmpty()
	if err != nil {
		return err
	}
	p, err := a.ask()
	if err != nil {
		return err
	}
	if p == nil {
		return a.logFlightByFlags(l, o)
	}
	c := &flightTalk{app: a, p: p, path: path, ledger: l}
	err = c.run(kind, o)
	if closeErr := p.close(); err == nil {
		err = closeErr
	}
	if errors.Is(err, errInterrupted) {
		fmt.Fprintf(a.out, "\nstopped; the draft is kept, `boxbook log %s` goes on with it\n", kind)
		return errCheck
	}
	if err != nil || c.block == "" {
		return err
	}
	if err := a.record(entry{block: c.block, said: "flight " + c.name}); err != nil {
		return err
	}
	return c.draft.remove()
}

// logFlightByFlags writes a flight that the flags give whole.
func (a *app) logFlightByFlags(l *season.Ledger, o flightFlags) error {
	if missing := withoutValue([]flagValue{{"date", o.date}, {"pilot", o.pilot}, {"programme", o.programme}}); len(missing) > 0 {
		return missingFlags(missing, "at a terminal they are asked for; see boxbook log flight --help")
	}
	seq := l.SequenceNamed(o.sequence)
	if seq == nil && len(o.rows) > 0 {
		return unknown("sequence", o.sequence, proposeSequences(l))
	}
	block := flightBlock(o, seq)
	return a.record(entry{block: block, said: "flight " + flightTitleOf(o)})
}

func flightTitleOf(o flightFlags) string {
	name := o.date + "/" + o.pilot + "/" + o.programme
	if o.label != "" && o.label != "1" {
		name += "/" + o.label
	}
	return name
}

// flightBlock writes a flight in the ledger language. seq says which line each
// row belongs to; rows beyond its lines are written as further figures, for
// the check to refuse.
func flightBlock(o flightFlags, seq *season.Sequence) string {
	label := o.label
	if label == "1" {
		label = ""
	}
	var t blockText
	t.line("flight", o.date, o.pilot, o.programme, label)
	t.body("contest", o.contest).body("sequence", o.sequence).body("category", o.category).body("panel", o.panel)
	keys := rowKeys(seq)
	for i, row := range o.rows {
		if strings.TrimSpace(row) == "" {
			continue // a figure that was not flown, in practice
		}
		key := fmt.Sprint(i + 1)
		if i < len(keys) {
			key = keys[i]
		}
		t.body(key, row)
	}
	for _, sheet := range o.sheets {
		t.body("sheet", sheet)
	}
	for _, penalty := range o.penalties {
		t.body("penalty", penalty)
	}
	for _, resolve := range o.resolves {
		t.body("resolve", resolve)
	}
	t.body("official", o.official).body("judge-totals", o.judgeTotals).body("place", o.place).body("field", o.field)
	for _, note := range o.notes {
		t.body("note", quoted(note))
	}
	return t.tidied()
}

// rowKeys are the lines of a sequence as a flight writes them.
func rowKeys(seq *season.Sequence) []string {
	if seq == nil {
		return nil
	}
	var keys []string
	for i := range seq.Figures {
		keys = append(keys, fmt.Sprint(i+1))
	}
	if seq.Positioning > 0 {
		keys = append(keys, "positioning")
	}
	if seq.Harmony > 0 {
		keys = append(keys, "harmony")
	}
	return keys
}
