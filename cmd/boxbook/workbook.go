package main

import (
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/tables"
	"boxbook/report/workbook"
	"boxbook/season"
)

// workbookOptions are the command's own flags.
type workbookOptions struct {
	// accounts asks for the treasurer's sheet; year is "" for the latest.
	accounts bool
	year     string
}

// latestWord stands for the year where the flag is given without one.
const latestWord = "latest"

func newWorkbook(a *app) *cobra.Command {
	var o workbookOptions
	cmd := &cobra.Command{
		Use: "workbook [PILOT]", Short: "write the coach's workbook", GroupID: groupHandOver,
		Long: `Write a workbook of a pilot's season: a page to read first, every remark of coach
and pilot, flights, every mark, families, faults and drills, the panels,
readiness. Means, points and percents
are live formulas that lead back to the marks, so that a changed mark shows what
would follow. With --year the treasurer's accounts of a calendar year are added:
the latest, or the YEAR that follows.`,
		Example: "  boxbook workbook ines -o ines-2026.xlsx\n  boxbook workbook ines --year 2026 -o ines-2026.xlsx",
		RunE:    func(*cobra.Command, []string) error { return a.runWorkbook(o) },
	}
	cmd.Flags().StringVar(&o.year, "year", "", "add the accounts of this `YEAR`, the latest where none is named")
	cmd.Flags().Lookup("year").NoOptDefVal = latestWord
	cmd.Args = arguments(func(cmd *cobra.Command, args []string) error {
		o.accounts = cmd.Flags().Changed("year")
		return cobra.MaximumNArgs(1)(cmd, o.pilotWords(args))
	})
	cmd.ValidArgsFunction = first(a.offer(proposePilots))
	before(cmd, func(args []string) error { return a.takePilot(strings.Join(o.pilotWords(args), "")) })
	a.preferredPilot(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.outputFlag(cmd, "write to this `FILE`, such as ines.xlsx")
	before(cmd, func([]string) error { return a.workbookFile() })
	instead(cmd, "a workbook is an xlsx file; every mark as a row is made by: boxbook export", "format", "color")
	return cmd
}

// pilotWords are the words that name a pilot: a year after a blank reads as a
// word too, since the flag needs none.
func (o *workbookOptions) pilotWords(args []string) []string {
	var words []string
	for _, arg := range args {
		isYear := strings.IndexAny(arg, "0123456789") == 0 // no name of a pilot begins so
		if o.accounts && isYear && (o.year == latestWord || o.year == arg) {
			o.year = arg
			continue
		}
		words = append(words, arg)
	}
	return words
}

// workbookFile holds the file to the one ending of a workbook.
func (a *app) workbookFile() error {
	return a.onlyEnding(workbookEnding)
}

func (a *app) runWorkbook(o workbookOptions) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	if len(l.Select(s)) == 0 {
		return noFlights(l)
	}
	if a.output == "" {
		return &usageError{"a workbook needs a file to go to", "boxbook workbook -o " + s.Pilot.Handle + workbookEnding}
	}
	p := a.newProgress("writing " + filepath.Base(a.output))
	defer p.end()
	var year *answers.Year
	if o.accounts {
		if year, err = accountsOf(l, o.year); err != nil {
			return err
		}
	}
	book := answers.BookOf(l, s, p.part(0, 30))
	book.Year = year
	options := workbook.Options{Head: a.head(tables.PeriodChoices(s)), Progress: p.part(30, 100)}
	err = a.deliver(func(w io.Writer) error { return workbook.Write(w, book, options) })
	if err != nil {
		return err
	}
	p.end()
	if a.output == stdinName {
		return nil
	}
	_, err = fmt.Fprintf(a.out, "wrote %s\n", shownName(a.output))
	return err
}

// accountsOf answers for the year that the flag names.
func accountsOf(l *season.Ledger, text string) (*answers.Year, error) {
	year := latestYear(l)
	if text != latestWord {
		var err error
		if year, err = yearArgument(text); err != nil {
			return nil, err
		}
	}
	summary, err := answers.YearOf(l, year)
	if err != nil {
		return nil, err
	}
	return &summary, nil
}
