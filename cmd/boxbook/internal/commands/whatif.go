package commands

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/display"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
	"boxbook/season/ledger"
)

func newWhatIf(a *app) *cobra.Command {
	var reach string
	cmd := &cobra.Command{
		Use: "whatif [PILOT] [SELECTOR] [CHANGE...]", Short: "show what a flight would have scored with other marks", GroupID: groupRead,
		Long:    words.WhatIfHelp(),
		Example: "  boxbook whatif ines 4=7.5\n  boxbook whatif 2026-04-18/ines/known 4@BM=8 no-penalty\n  boxbook whatif last --reach 70",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runWhatIf(args, reach) },
	}
	cmd.Flags().StringVar(&reach, "reach", "", "what it takes to reach this `TARGET`: a percentage, winner, \"place 3\" or points")
	a.pilotThen(cmd, flightWord(), elseAnyFlight)
	cmd.Args, cmd.ValidArgsFunction = nil, a.offerWhatIf(cmd.ValidArgsFunction)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

// reachPlace, with a number behind it, asks for the total that holds a place.
const reachPlace = "place"

// reachWinner asks for the total of the best of the others.
const reachWinner = "winner"

func (a *app) runWhatIf(args []string, reach string) error {
	target, err := targetFlag(reach)
	if err != nil {
		return err
	}
	named, typed := beforeChanges(args)
	if err := flightBehind(typed); err != nil {
		return err
	}
	if len(args) == 0 && target == nil {
		return noChange()
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if len(named) > 1 && l.PilotNamed(named[0]) == nil {
		named, typed = args[:1], args[1:]
	}
	if len(typed) == 0 && target == nil {
		return noChange()
	}
	s, f, err := a.flightIn(l, named)
	if err != nil {
		return err
	}
	contest := contestMeant(l, s, f, named)
	d, err := whatIf(f, typed, target)
	if err != nil {
		return asOfContest(err, contest)
	}
	if contest != nil {
		d.LastContest = contest.Name
	}
	return a.show(pages.WhatIf(d, target != nil), flightChoices(s, f))
}

// contestMeant is the latest contest flight with marks where the flight was not named
// and the latest is a practice one, nil else: it may have been meant.
func contestMeant(l *season.Ledger, s season.Selection, f *season.Flight, named []string) *season.Flight {
	if f.Contested() || slices.ContainsFunc(named, func(word string) bool { return word != season.LastSelector && l.PilotNamed(word) == nil }) {
		return nil
	}
	for _, of := range slices.Backward(l.Select(s)) {
		if of.Contested() && of.HasMarks() {
			return of
		}
	}
	return nil
}

// asOfContest adds to a refusal that the latest flight was taken, where a contest flight
// may have been meant.
func asOfContest(err error, contest *season.Flight) error {
	var usage *usageError
	if contest == nil || !errors.As(err, &usage) {
		return err
	}
	hint := fmt.Sprintf("the latest flight is meant, a practice one; the last contest flight is %s", contest.Name)
	return &usageError{usage.text, strings.TrimPrefix(usage.hint+"\n"+hint, "\n")}
}

// noChange says that nothing was asked.
func noChange() error {
	return &usageError{"whatif needs a change, or --reach", "a change is " + orList(changeForms)}
}

// targetFlag reads a total that is asked about; nil for none.
func targetFlag(reach string) (*analysis.Goal, error) {
	if reach == "" {
		return nil, nil
	}
	if reach == reachWinner {
		return &analysis.Goal{}, nil
	}
	if place, found := strings.CutPrefix(reach, reachPlace+" "); found {
		if n, err := strconv.Atoi(strings.TrimSpace(place)); err == nil && n > 0 {
			return &analysis.Goal{Place: n}, nil
		}
	}
	if points, ok := scoring.ParseDecimal(reach); ok && points.Rat().Cmp(big.NewRat(100, 1)) > 0 {
		return &analysis.Goal{Points: points.Rat()}, nil
	}
	percent, ok := percentage(reach)
	if !ok {
		return nil, &usageError{text: fmt.Sprintf("--reach %q is neither a percentage from 0 to 100, a total above 100, %s nor \"%s 3\"", reach, reachWinner, reachPlace)}
	}
	return &analysis.Goal{Percent: percent}, nil
}

// whatIf answers for a flight and the changes that were typed.
func whatIf(f *season.Flight, typed []string, target *analysis.Goal) (answers.WhatIf, error) {
	if !f.HasMarks() {
		return answers.WhatIf{}, &usageError{text: f.Name + " has no marks to change"}
	}
	if err := outOfField(f, target); err != nil {
		return answers.WhatIf{}, err
	}
	if target != nil && target.AmongOthers() && len(analysis.OthersIn(f)) == 0 {
		return answers.WhatIf{}, &usageError{
			"nobody else's total is known in " + f.Name, "`field` has the totals of the others, out of the maximum that the marks are",
		}
	}
	changes, made, err := readChanges(f, typed)
	if err != nil {
		return answers.WhatIf{}, err
	}
	return answers.WhatIfOf(f, changes, made, target), nil
}

// outOfField refuses a goal that the flight cannot have: a place where not the whole
// field is typed or beyond it, and points above the maximum.
func outOfField(f *season.Flight, target *analysis.Goal) error {
	switch {
	case target == nil:
		return nil
	case target.Points != nil && target.Points.Cmp(big.NewRat(int64(f.Maximum()), 1)) > 0:
		return &usageError{text: fmt.Sprintf("--reach %s is above the maximum of %s, %d", display.FixedRat(target.Points, 2), f.Name, f.Maximum())}
	case target.Place == 0:
		return nil
	case f.Of > 0 && target.Place > f.Of:
		return &usageError{text: fmt.Sprintf("place %d is beyond the %d of %s", target.Place, f.Of, f.Name)}
	case len(analysis.OthersIn(f))+1 != f.Of:
		return fieldUnknown(f, target.Place)
	}
	return nil
}

// fieldUnknown says that what a place takes cannot be told, and what is needed; first,
// where the printed place is no worse, that it is there already.
func fieldUnknown(f *season.Flight, place int) error {
	text := "not every pilot's total is known in " + f.Name
	switch {
	case f.Rank > 0 && f.Rank < place:
		text = fmt.Sprintf("place %d of %s is ahead of that already; not every pilot's total is known there", f.Rank, f.Name)
	case f.Rank == place:
		text = fmt.Sprintf("place %d is the printed one of %s; not every pilot's total is known there", place, f.Name)
	}
	return &usageError{text, fmt.Sprintf("what a place takes needs the total of every pilot: `place %d of N` in the flight,\nand N totals behind `field`, of the same maximum, %d points", max(f.Rank, 1), f.Maximum())}
}

// The words of changes that take no mark.
const (
	wordNoZeros   = "no-zeros"
	wordNoPenalty = "no-penalty"
	wordWithout   = "without"
)

// changeForms are what a change can look like.
var changeForms = []string{"4=7.5", "4@JUDGE=8", "pos=8", wordNoZeros, wordWithout + " JUDGE", wordNoPenalty}

// isChange reports whether a word is a change, and no flight's name.
func isChange(word string) bool {
	return strings.Contains(word, "=") || word == wordNoZeros || word == wordNoPenalty || word == wordWithout
}

// beforeChanges are the words that name a pilot and a flight, two at the most, and
// the changes behind them.
func beforeChanges(args []string) (named, changes []string) {
	const most = 2
	args = strings.Fields(strings.Join(args, " ")) // "without BM" may stand in quotes
	at := slices.IndexFunc(args, isChange)
	if at < 0 {
		at = len(args)
	}
	at = min(at, most)
	return args[:at], args[at:]
}

// readChanges reads the changes of a flight's sheet, and what each does. A
// judge who was left out can be named no more.
func readChanges(f *season.Flight, typed []string) (changes []analysis.Change, made []answers.WhatChange, err error) {
	r := changeReader{flight: f, panel: f.Panel, sheet: f.Sheet()}
	for len(typed) > 0 {
		used := 1
		if typed[0] == wordWithout {
			used = min(2, len(typed))
		}
		change, does, err := r.read(typed[:used])
		if err != nil {
			return nil, nil, err
		}
		r.sheet = change(r.sheet)
		does.Change = strings.Join(typed[:used], " ")
		changes, made, typed = append(changes, change), append(made, does), typed[used:]
	}
	return changes, made, nil
}

// changeReader reads changes one after another; panel are the judges that are
// left, sheet is as the changes made it so far.
type changeReader struct {
	flight *season.Flight
	panel  []string
	sheet  scoring.Sheet
}

func (r *changeReader) read(typed []string) (analysis.Change, answers.WhatChange, error) {
	switch typed[0] {
	case wordNoPenalty:
		return scoring.Sheet.WithoutPenalties, answers.WhatChange{Kind: answers.ChangeNoPenalty}, nil
	case wordNoZeros:
		return scoring.Sheet.WithoutZeros, answers.WhatChange{Kind: answers.ChangeNoZeros}, r.onlyZeros()
	case wordWithout:
		return r.without(typed[1:])
	}
	place, text, ok := strings.Cut(typed[0], "=")
	if !ok {
		return nil, answers.WhatChange{}, &usageError{fmt.Sprintf("%q is no change", typed[0]), "a change is " + orList(changeForms)}
	}
	return r.mark(typed[0], place, text)
}

// flightBehind refuses a flight that stands behind the changes.
func flightBehind(changes []string) error {
	at := slices.IndexFunc(changes, namesFlight)
	if at < 1 {
		return nil
	}
	before := strings.Join(slices.Concat(changes[at:at+1], changes[:at], changes[at+1:]), " ")
	return &usageError{fmt.Sprintf("%q is no change", changes[at]), "the flight goes before the changes: boxbook whatif " + before}
}

// namesFlight reports whether a word is written as a flight's selector.
func namesFlight(word string) bool {
	day, _, _ := strings.Cut(word, "/")
	_, isDate := season.ParseDate(ledger.DateMeant(day))
	return isDate || word == season.LastSelector
}

// onlyZeros refuses a figure whose every mark is a zero, as the sheet now is:
// nothing says what it would have been given.
func (r *changeReader) onlyZeros() error {
	for i, figure := range r.flight.Flown() {
		for _, row := range append([][]scoring.Mark{r.sheet.Lines[i].Marks}, r.sheet.Lines[i].Again...) {
			if slices.ContainsFunc(row, scoring.Mark.FigureOnly) && !slices.ContainsFunc(row, isGrade) {
				hint := fmt.Sprintf("give it one first: %d=7.0 %s", figure+1, wordNoZeros)
				if r.zeroed() == 1 {
					hint = fmt.Sprintf("give it one instead: %d=7.0", figure+1)
				}
				return &usageError{fmt.Sprintf("%s: figure %d has no grade to go by", wordNoZeros, figure+1), hint}
			}
		}
	}
	return nil
}

// zeroed counts the figures with a zero among their marks, as the sheet now is.
func (r *changeReader) zeroed() int {
	n := 0
	for _, line := range r.sheet.Lines {
		for _, row := range append([][]scoring.Mark{line.Marks}, line.Again...) {
			if slices.ContainsFunc(row, scoring.Mark.FigureOnly) {
				n++
				break
			}
		}
	}
	return n
}

func isGrade(m scoring.Mark) bool { return m.Kind == scoring.Grade }

// without leaves a judge out.
func (r *changeReader) without(names []string) (analysis.Change, answers.WhatChange, error) {
	does := answers.WhatChange{Kind: answers.ChangeWithoutJudge}
	if len(names) == 0 {
		return nil, does, &usageError{wordWithout + " names no judge", "judges: " + strings.Join(r.panel, ", ")}
	}
	judge, err := r.judge(names[0])
	if err != nil {
		return nil, does, err
	}
	if len(r.panel) == 1 {
		return nil, does, &usageError{text: fmt.Sprintf("%s %s leaves no judge", wordWithout, names[0])}
	}
	does.Judge = r.panel[judge]
	r.panel = append(r.panel[:judge:judge], r.panel[judge+1:]...)
	return func(s scoring.Sheet) scoring.Sheet { return s.WithoutJudge(judge) }, does, nil
}

// judge finds a judge among those that are left.
func (r *changeReader) judge(name string) (int, error) {
	for j, known := range r.panel {
		if strings.EqualFold(known, name) {
			return j, nil
		}
	}
	for _, known := range r.flight.Missing {
		if strings.EqualFold(known, name) {
			return 0, &usageError{
				fmt.Sprintf("the sheet of %s is missing in %s, and the score is without it", known, r.flight.Name),
				"the sheets to hand are those of " + strings.Join(r.panel, ", "),
			}
		}
	}
	return 0, &usageError{fmt.Sprintf("no judge %s: %s has %s", name, r.flight.Name, strings.Join(r.panel, ", ")), ""}
}

// mark puts a mark on a line.
func (r *changeReader) mark(typed, place, text string) (analysis.Change, answers.WhatChange, error) {
	does := answers.WhatChange{Kind: answers.ChangeMark}
	name, judgeName, one := strings.Cut(place, "@")
	judge := scoring.EveryJudge
	if one {
		var err error
		if judge, err = r.judge(judgeName); err != nil {
			return nil, does, err
		}
		does.Judge = r.panel[judge]
	}
	line, err := lineNamed(r.flight, typed, name)
	if err != nil {
		return nil, does, err
	}
	marks, remark, problem, hint := ledger.ReadMarks(text)
	switch {
	case problem != "":
		return nil, does, &usageError{fmt.Sprintf("%s: %s", typed, problem), hint}
	case len(marks) != 1 || remark != "":
		return nil, does, &usageError{fmt.Sprintf("%s: one mark stands behind the =", typed), ""}
	case marks[0].FigureOnly() && line >= len(r.flight.Flown()):
		return nil, does, &usageError{fmt.Sprintf("%s: %s can stand on a figure alone", typed, marks[0]), ""}
	}
	does.Mark, does.Graded, does.Line = marks[0].String(), isGrade(marks[0]), r.sheet.Lines[line].Kind.String()
	if flown := r.flight.Flown(); line < len(flown) {
		does.Figure = flown[line] + 1
	}
	return func(s scoring.Sheet) scoring.Sheet { return s.WithMark(line, judge, marks[0]) }, does, nil
}

// lineNamed finds a line of a flight's sheet: a figure's number, pos, harmony.
func lineNamed(f *season.Flight, typed, name string) (int, error) {
	sheet, flown := f.Sheet(), f.Flown()
	for i, line := range sheet.Lines {
		word := line.Kind.String()
		if line.Kind == scoring.Figure {
			word = fmt.Sprint(flown[i] + 1)
		}
		if name == word || name == "pos" && line.Kind == scoring.Positioning {
			return i, nil
		}
	}
	return 0, noLine(f, typed, name, sheet)
}

// noLine says that a flight has no such line, and what it has.
func noLine(f *season.Flight, typed, name string, sheet scoring.Sheet) error {
	var number int
	_, err := fmt.Sscanf(name, "%d", &number)
	switch {
	case name == "pos" || name == scoring.Positioning.String() || name == scoring.Harmony.String():
		return &usageError{fmt.Sprintf("%s: %s has no mark for it", typed, f.Name), ""}
	case err != nil || fmt.Sprint(number) != name:
		return &usageError{fmt.Sprintf("%s: %q is no figure's number", typed, name), "a change is " + orList(changeForms)}
	case number >= 1 && number <= len(f.Sequence.Figures):
		return &usageError{fmt.Sprintf("figure %d was not marked in %s", number, f.Name), ""}
	}
	return &usageError{fmt.Sprintf("no figure %d: %s has %d", number, f.Sequence.Handle, len(f.Sequence.Figures)), ""}
}

// offerWhatIf offers a pilot and a flight first, then the changes that a word could
// be.
func (a *app) offerWhatIf(named completions) completions {
	changes := func(*season.Ledger) []string { return []string{wordNoZeros, wordNoPenalty, wordWithout} }
	return func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
		offered, directive := a.offer(changes)(cmd, args, typed)
		if before, changed := beforeChanges(args); len(changed) == 0 {
			first, _ := named(cmd, before, typed)
			offered = append(first, offered...)
		}
		return offered, directive
	}
}
