package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/season"
)

func newFlight(a *app) *cobra.Command {
	var o pages.FlightOptions
	cmd := &cobra.Command{
		Use: "flight [SELECTOR]", Short: "show the score sheet of a flight", GroupID: groupRead,
		Long: `Show the score sheet of a flight: a row a figure with every judge's mark, the
judges' totals, points, maximum and percent, and the official total beside it.

SELECTOR is a flight's name, DATE/PILOT/PROGRAMME, or a leading part of it in
whole pieces; "last", the latest flight, where nothing is given.`,
		Example: "  boxbook flight\n  boxbook flight 2026-04-18/ines/known\n  boxbook flight 2026-04-18 --pilot ines --format json",
		Args:    arguments(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			selector := season.LastSelector
			if len(args) == 1 {
				selector = args[0]
			}
			return a.runFlight(selector, o)
		},
	}
	cmd.ValidArgsFunction = first(a.offer(func(l *season.Ledger) []string { return append(flightHandles(l), season.LastSelector) }))
	cmd.Flags().BoolVar(&o.Rules, "rules", false, "say in words how the rule style counts")
	a.pilotFlag(cmd, onlyThisPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runFlight(selector string, o pages.FlightOptions) error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	f, err := oneFlight(l, s, selector)
	if err != nil {
		return err
	}
	return a.show(pages.Flight(answers.FlightOf(f), o), append(tables.Choices(s), report.Choice{Key: "flight", Value: f.Name, Words: f.Name}))
}

// oneFlight finds the one flight that a selector names.
func oneFlight(l *season.Ledger, s season.Selection, selector string) (*season.Flight, error) {
	found := l.Matching(selector, s)
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return nil, &usageError{fmt.Sprintf("%q names %d flights", selector, len(found)), "say which:\n" + flightNames(found)}
	case len(l.Select(s)) == 0:
		return nil, noFlights(l)
	default:
		return nil, unknown("flight", selector, namesOf(l.Select(s), func(f *season.Flight) string { return f.Name }))
	}
}

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
