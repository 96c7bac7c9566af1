package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newExport(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "export [SELECTOR]", Short: "write every mark as a row, for other programs", GroupID: groupHandOver,
		Long: `Write every judge's mark as one row, as CSV or JSON, for any other program:
flight, date, pilot, contest, category, programme, figure, label, k, codes,
groups, judge, mark, kind, used, points, void. Points are K x used; used is what
counted, and is empty where a figure is undecided, a mark was dropped, or the
flight is void.

SELECTOR is a flight's name or a leading part of it; all flights where nothing
is given. Text that a spreadsheet would run as a formula gets an apostrophe in
front. "boxbook import" reads the rows of a flight back.`,
		Example: "  boxbook export -o marks.csv\n  boxbook export last --format json\n  boxbook export --pilot ines --season 2026",
		Args:    arguments(cobra.MaximumNArgs(1)), ValidArgsFunction: first(a.offer(proposeFlights)),
		RunE: func(_ *cobra.Command, args []string) error { return a.runExport(args) },
	}
	a.pilotFlag(cmd, onlyThisPilot)
	a.choosingFlags(cmd)
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.formatFlags(cmd, rowFormats())
	return cmd
}

func (a *app) runExport(args []string) error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	flights := l.Select(s)
	if len(flights) == 0 {
		return noFlights(l)
	}
	if len(args) == 1 {
		flights = l.Matching(args[0], s)
	}
	if len(flights) == 0 {
		_, err := oneFlight(l, s, args[0])
		return err
	}
	p := a.newProgress("exporting marks")
	defer p.end()
	return a.show(pages.Export(answers.ExportOf(flights, p.step)), tables.PeriodChoices(s))
}
