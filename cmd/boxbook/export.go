package main

import (
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

// exported is one of the tables that export writes: how its rows are found, and
// the flags that choose nothing in it. One of flights is asked with them.
type exported struct {
	rows      func(*exporting) report.Document
	unheeded  []string
	ofFlights bool
}

// exporting is what a table is made of.
type exporting struct {
	table   words.ExportedTable
	ledger  *season.Ledger
	chosen  season.Selection
	flights []*season.Flight
	step    func(done, total int)
}

// exportedTables are the tables by their names.
func exportedTables() map[string]exported {
	return map[string]exported{
		"marks": {ofFlights: true, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportOf(e.flights, e.step))
		}},
		"flights": {ofFlights: true, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportFlightsOf(e.flights))
		}},
		"elements": {ofFlights: true, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportElementsOf(e.flights))
		}},
		"faults": {ofFlights: true, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportFaultsOf(e.flights))
		}},
		"drills": {unheeded: []string{"category", "contest"}, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportDrillsOf(answers.DrillsOf(e.ledger, e.chosen)))
		}},
		"money": {unheeded: []string{"season", "category"}, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportMoneyOf(e.ledger, e.chosen))
		}},
	}
}

func newExport(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "export [TABLE] [SELECTOR]", Short: "write marks, flights, faults, money ... as a table", GroupID: groupHandOver,
		Long: words.ExportHelp(),
		Example: "  boxbook export -o marks.csv\n  boxbook export last --format json\n  boxbook export elements --pilot ines --season 2026\n" +
			"  boxbook export money -o money.csv",
		ValidArgsFunction: a.proposeExports,
	}
	cmd.Args = arguments(func(cmd *cobra.Command, args []string) error {
		_, selectors := exportWords(args)
		return cobra.MaximumNArgs(1)(cmd, selectors)
	})
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		table, selectors := exportWords(args)
		if err := heedsAll(cmd, table.Name, selectors); err != nil {
			return err
		}
		return a.runExport(table, strings.Join(selectors, ""))
	}
	a.pilotFlag(cmd, onlyThisPilot)
	a.choosingFlags(cmd)
	a.ledgerFlag(cmd)
	a.asOfFlag(cmd)
	a.formatFlags(cmd, rowFormats())
	return cmd
}

// exportWords are the table that is asked for, the first where none is named, and
// the words behind it.
func exportWords(args []string) (words.ExportedTable, []string) {
	if len(args) > 0 {
		if table, ok := words.ExportedTableNamed(args[0]); ok {
			return table, args[1:]
		}
	}
	return words.ExportedTables[0], args
}

// heedsAll refuses what chooses nothing in a table.
func heedsAll(cmd *cobra.Command, table string, selectors []string) error {
	kind := exportedTables()[table]
	if len(selectors) > 0 && !kind.ofFlights {
		return &usageError{fmt.Sprintf("%s are of no flight, and %q chooses none of them", table, selectors[0]), usageHint(cmd)}
	}
	for _, flag := range kind.unheeded {
		if cmd.Flags().Changed(flag) {
			return &usageError{fmt.Sprintf("export %s takes no --%s", table, flag), usageHint(cmd)}
		}
	}
	return nil
}

// proposeExports completes a table's name or a flight's, and a flight's behind a
// table's.
func (a *app) proposeExports(cmd *cobra.Command, args []string, typed string) ([]cobra.Completion, cobra.ShellCompDirective) {
	table, selectors := exportWords(args)
	if len(selectors) > 0 || !exportedTables()[table.Name].ofFlights {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	offered, directive := a.offer(proposeFlights)(cmd, selectors, typed)
	if len(args) == 0 {
		named := slices.DeleteFunc(words.ExportedNames(), func(name string) bool { return !strings.HasPrefix(name, typed) })
		offered = append(named, offered...)
	}
	return offered, directive
}

func (a *app) runExport(table words.ExportedTable, selector string) error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	p := a.newProgress("exporting " + table.Name)
	defer p.end()
	e, kind := &exporting{table: table, ledger: l, chosen: s, step: p.step}, exportedTables()[table.Name]
	if kind.ofFlights {
		if e.flights, err = flightsToExport(l, s, selector); err != nil {
			return err
		}
	}
	return a.show(kind.rows(e), tables.PeriodChoices(s))
}

// flightsToExport are those that a selector names, all where it is "".
func flightsToExport(l *season.Ledger, s season.Selection, selector string) ([]*season.Flight, error) {
	flights := l.Select(s)
	if len(flights) == 0 {
		return nil, noFlights(l)
	}
	if selector == "" {
		return flights, nil
	}
	if flights = l.Matching(selector, s); len(flights) == 0 {
		_, err := oneFlight(l, s, selector)
		return nil, err
	}
	return flights, nil
}
