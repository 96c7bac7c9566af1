package main

import (
	"fmt"
	"strconv"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

func newYear(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "year [YEAR]", Short: "show the club's year for its treasurer", GroupID: groupRead,
		Long: `Show the club's year for its treasurer: who flew what, results and places,
duties, costs, and who owes whom, what is in hand, the budget and the result as
agreed. It is the calendar's year, or the one that begins where the ledger says
("year-start 10-01"), named by the year in which it begins. Contests count in
the year in which they begin; money counts by its own date. Balances sum to zero
in every currency, and the payments at the foot settle them.

YEAR is the latest year with anything in it where nothing is given. Nothing is
converted between currencies unless the ledger has a "rate" line for the year;
converted balances then stand beside the others.`,
		Example: "  boxbook year\n  boxbook year 2025 --format json",
		Args:    arguments(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			text := ""
			if len(args) == 1 {
				text = args[0]
			}
			return a.runYear(text)
		},
	}
	a.pageFlags(cmd)
	instead(cmd, "the page of a calendar year is about everybody: boxbook year 2026", append(choosing, "pilot")...)
	return cmd
}

// runYear shows the year that text names, the latest where it is "".
func (a *app) runYear(text string) error {
	year, err := yearArgument(text)
	if err != nil {
		return err
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if text == "" {
		year = latestYear(l)
	}
	d, err := answers.YearOf(l, year)
	if err != nil {
		return err
	}
	return a.show(pages.Year(d), []report.Choice{{Key: "year", Value: year, Words: words.YearChosen(year)}})
}

// yearArgument reads a year; 0 where nothing is given.
func yearArgument(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	year, err := strconv.ParseUint(text, 10, 16)
	if err != nil || len(text) != 4 || year == 0 {
		return 0, &usageError{text: fmt.Sprintf("%q is not a year (2026)", text)}
	}
	return int(year), nil
}

// latestYear is the latest year with anything in it, today's in an empty
// ledger.
func latestYear(l *season.Ledger) int {
	if year := answers.LatestYear(l); year != 0 {
		return year
	}
	return l.YearOf(l.AsOf)
}
