package commands

import (
	"fmt"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
)

// yearOptions are the command's own flags.
type yearOptions struct {
	how    answers.Settling
	beside string // a year, "" for the one before
}

func newYear(a *app) *cobra.Command {
	var o yearOptions
	cmd := &cobra.Command{
		Use: "year [YEAR]", Short: "show the club's year for its treasurer", GroupID: groupRead,
		Long: `Show the club's year for its treasurer: its result and how much of it was cash,
what is in hand beside what the ledger has, who owes the club and since when;
income and costs by kind beside the year before and the budget, what each
contest cost each person, who flew and who helped, and who pays whom. --all adds
everybody's balances and how they come about, costs by kind, results,
categories.

It is the calendar year, or the one that begins where the ledger says
("year-start 10-01"), named by the year in which it begins. Contests count in
the year in which they begin; money counts by its own date. Balances sum to zero
in every currency, and the payments settle them: each settles with the club what
is open between the two, the others settle among themselves with the fewest
payments, along debts where as few do. --fewest takes all as one pool, which
moves debts onto others; --in EUR settles in one currency, at the year's rates.

If YEAR is omitted, it is the latest year with an entry. Nothing is converted
between currencies unless the ledger has a "rate" line for the year;
converted balances are then shown beside the others.`,
		Example: "  boxbook year\n  boxbook year 2025 --format json\n  boxbook year --beside 2024 --in EUR",
		Args:    arguments(cobra.MaximumNArgs(1)), ValidArgsFunction: first(a.offer(proposeYears)),
		RunE: func(_ *cobra.Command, args []string) error {
			text := ""
			if len(args) == 1 {
				text = args[0]
			}
			return a.runYear(text, o)
		},
	}
	a.settlingFlags(cmd, &o.how)
	cmd.Flags().StringVar(&o.beside, "beside", "", "compare with this `YEAR` (default: the one before)")
	a.pageFlags(cmd)
	cmd.Flags().BoolVar(&a.whole, "all", false, "every balance and how it comes about, costs by kind, results")
	instead(cmd, "the page of a calendar year is about everybody: boxbook year 2026", append(choosing, "pilot")...)
	return cmd
}

// runYear shows the year that text names, the latest where it is "".
func (a *app) runYear(text string, o yearOptions) error {
	year, err := yearArgument(text)
	if err != nil {
		return err
	}
	l, err := a.open()
	if err != nil {
		return err
	}
	if text == "" {
		year = answers.YearAtHand(l)
	}
	d, err := answers.YearSettled(l, year, o.how)
	if err != nil {
		return refusedSettling(year, "year", err)
	}
	beside, err := yearArgument(o.beside)
	if err != nil {
		return err
	}
	if beside == 0 {
		beside = year - 1
	}
	other, err := answers.YearOf(l, beside)
	if err != nil {
		return err
	}
	if !other.Quiet || o.beside != "" {
		d.Beside = &other
	}
	d.Warned = answers.WarnedOf(l, year, a.found)
	return a.show(pages.Year(d, a.whole), []report.Choice{{Key: "year", Value: d.Year}}) // the title says it
}

// yearChoices say which year was chosen.
func yearChoices(d answers.Year) []report.Choice {
	return []report.Choice{{Key: "year", Value: d.Year, Words: words.YearChosen(d.Year)}}
}

// yearArgument reads a year; 0 where nothing is given.
func yearArgument(text string) (int, error) {
	if text == "" {
		return 0, nil
	}
	year, ok := readYear(text)
	if !ok {
		return 0, &usageError{text: fmt.Sprintf("%q is not a year (2026)", text)}
	}
	return year, nil
}
