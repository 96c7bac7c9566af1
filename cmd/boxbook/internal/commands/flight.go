package commands

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

func newFlight(a *app) *cobra.Command {
	var o pages.FlightOptions
	cmd := &cobra.Command{
		Use: "flight [PILOT] [SELECTOR]", Short: "show the score sheet of a flight", GroupID: groupRead,
		Long: `Show the score sheet of a flight: the score and the place, whether the official
total agrees and what would explain it, where most was lost; then one row per
figure with every judge's mark, the losses with the faults noted, and the notes.
--all adds the losses by element and family, the judges one by one and the score
step by step.

SELECTOR is a flight's name, DATE/PILOT/PROGRAMME, or its first part or parts;
"last", the latest flight, if omitted. PILOT narrows it to one pilot's flights,
and so does $BOXBOOK_PILOT if that pilot has such a flight.`,
		Example: "  boxbook flight ines\n  boxbook flight 2026-04-18/ines/known\n  boxbook flight ines 2026-04-18 --format json",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runFlight(args, o) },
	}
	cmd.Flags().BoolVar(&o.Rules, "rules", false, "say in words how the rule style counts")
	a.pilotThen(cmd, flightWord(), elseAnyFlight)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	return cmd
}

func (a *app) runFlight(args []string, o pages.FlightOptions) error {
	l, s, f, err := a.flightQuestion(args)
	if err != nil {
		return err
	}
	o.All = a.whole
	return a.show(pages.Flight(answers.FlightToday(l, f), o), flightChoices(s, f))
}

// flightChoices are what a page about one flight chose, for its head: with the
// name that other commands take.
func flightChoices(s season.Selection, f *season.Flight) []report.Choice {
	return append(tables.Choices(s), report.Choice{Key: "flight", Value: f.Name, Words: f.Name})
}

// flightWord is a flight's selector beside the pilot.
func flightWord() ownWord {
	return ownWord{
		names: func(l *season.Ledger) []string { return append(flightHandles(l), season.LastSelector) },
		is: func(l *season.Ledger, word string) bool {
			return word == season.LastSelector || len(l.Matching(word, season.Selection{})) > 0
		},
	}
}

// flightQuestion is a question about the one flight that the words name, the
// latest where they name none. A pilot whom $BOXBOOK_PILOT alone names gives way
// to a selector that only others' flights have.
func (a *app) flightQuestion(args []string) (l *season.Ledger, s season.Selection, f *season.Flight, err error) {
	if l, err = a.open(); err != nil {
		return nil, s, nil, err
	}
	s, f, err = a.flightIn(l, args)
	return l, s, f, err
}

// flightIn finds the flight that the words name in a ledger.
func (a *app) flightIn(l *season.Ledger, args []string) (s season.Selection, f *season.Flight, err error) {
	selector, err := a.takeWords(l, flightWord(), args)
	if err != nil {
		return s, nil, err
	}
	selector = cmp.Or(selector, season.LastSelector)
	if s, err = a.selection(l); err != nil {
		return s, nil, err
	}
	if a.byVariable && len(args) > 0 && len(l.Matching(selector, s)) == 0 {
		s.Pilot = nil
	}
	if flagged := a.pilot != "" && !a.byVariable; len(args) == 1 && !flagged && selector == args[0] {
		if err := pilotMeant(l, s, selector); err != nil {
			return s, nil, err
		}
	}
	if f, err = oneFlight(l, s, selector); err == nil && selector == season.LastSelector {
		a.sayWhose(l, s, f)
	}
	return s, f, err
}

// sayWhose says whose flight the last one is, where no pilot was chosen and others flew on
// its day.
func (a *app) sayWhose(l *season.Ledger, s season.Selection, last *season.Flight) {
	others := slices.DeleteFunc(pilotsOf(lastDay(l, s)), func(handle string) bool { return handle == last.Pilot.Handle })
	if len(others) > 0 {
		fmt.Fprintf(a.err, "last is the flight of %s; %s flew on %s too (--pilot %s)\n", last.Pilot.Handle, words.ListInWords(others), last.Date, others[0])
	}
}

// lastDay are the selected flights of the latest day.
func lastDay(l *season.Ledger, s season.Selection) []*season.Flight {
	flights := l.Select(s)
	at := len(flights)
	for at > 0 && flights[at-1].Date == flights[len(flights)-1].Date {
		at--
	}
	return flights[at:]
}

// pilotsOf are the handles of flights' pilots, each once, in their order.
func pilotsOf(flights []*season.Flight) []string {
	var handles []string
	for _, f := range flights {
		if !slices.Contains(handles, f.Pilot.Handle) {
			handles = append(handles, f.Pilot.Handle)
		}
	}
	return handles
}

// oneFlight finds the one flight that a selector names.
func oneFlight(l *season.Ledger, s season.Selection, selector string) (*season.Flight, error) {
	found := l.Matching(selector, s)
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return nil, &usageError{fmt.Sprintf("%q names %d flights", selector, len(found)), sayWhich + flightNames(found)}
	}
	if found = ahead(l, func(all *season.Ledger) []*season.Flight { return all.Matching(selector, s) }); len(found) > 0 && selector != season.LastSelector {
		return nil, isLater(l, found)
	}
	switch {
	case len(l.Select(s)) == 0:
		return nil, noFlights(l, s)
	default:
		return nil, noSuchFlight(l, s, selector)
	}
}

// sayWhich begins the list of flights that a selector names.
const sayWhich = "say which:\n"

// flightNames lists flights a line each, the first dozen.
func flightNames(flights []*season.Flight) string {
	const most = 12
	var lines []string
	for i, f := range flights {
		if i == most {
			lines = append(lines, fmt.Sprintf("and %d more", len(flights)-most))
			break
		}
		lines = append(lines, f.Name)
	}
	return strings.Join(lines, "\n")
}
