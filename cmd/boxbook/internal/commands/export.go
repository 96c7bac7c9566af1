package commands

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/display"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

// exported is one of the tables that export writes: how its rows are found, and
// the flags that choose nothing in it. One of flights is asked with them; one of all
// is narrowed to a pilot only where the command line says so.
type exported struct {
	rows      func(*exporting) report.Document
	unheeded  []string
	ofFlights bool
	ofAll     bool
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
			return pages.ExportDrills(e.table, answers.DrillsOf(e.ledger, e.chosen))
		}},
		"money": {ofAll: true, unheeded: []string{"season", "category"}, rows: func(e *exporting) report.Document {
			return pages.Export(e.table, answers.ExportMoneyOf(e.ledger, e.chosen))
		}},
	}
}

func newExport(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "export [PILOT] [TABLE] [SELECTOR]", Short: "write marks, flights, faults, money ... as a table", GroupID: groupHandOver,
		Long: words.ExportHelp(),
		Example: "  boxbook export -o marks.csv\n  boxbook export last --format json\n  boxbook export ines elements --season 2026\n" +
			"  boxbook export money -o money.csv",
		ValidArgsFunction: a.proposeExports,
	}
	cmd.RunE = func(cmd *cobra.Command, args []string) error { return a.runExport(cmd, args) }
	a.pilotFlag(cmd, elseAllExport)
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

// takeExportWords settles which pilot, which table and which flights the words name:
// a pilot's handle is the first word, unless a table is called so.
func (a *app) takeExportWords(cmd *cobra.Command, l *season.Ledger, args []string) (words.ExportedTable, string, error) {
	pilot := ""
	if len(args) > 0 && l.PilotNamed(args[0]) != nil {
		if _, isTable := words.ExportedTableNamed(args[0]); !isTable {
			pilot, args = args[0], args[1:]
		}
	}
	table, selectors := exportWords(args)
	if len(selectors) > 0 && topicOf(selectors[0]) == "money" && len(args) == len(selectors) {
		return table, "", &usageError{fmt.Sprintf("no table is called %q", selectors[0]), "every line of money is one table: boxbook export money"}
	}
	if err := arguments(cobra.MaximumNArgs(1))(cmd, selectors); err != nil {
		return table, "", err
	}
	if err := heedsAll(cmd, l, table.Name, selectors); err != nil {
		return table, "", err
	}
	if exportedTables()[table.Name].ofAll && pilot == "" {
		return table, "", nil
	}
	return table, strings.Join(selectors, ""), a.takePilot(pilot)
}

// heedsAll refuses what chooses nothing in a table. A year of the club's is said by
// its days.
func heedsAll(cmd *cobra.Command, l *season.Ledger, table string, selectors []string) error {
	kind := exportedTables()[table]
	if len(selectors) > 0 && !kind.ofFlights {
		return &usageError{fmt.Sprintf("%s belong to no flight, so %q chooses none of them", table, selectors[0]), byDays(cmd, l, table, selectors[0])}
	}
	for _, flag := range kind.unheeded {
		if given := cmd.Flags().Lookup(flag); given.Changed {
			return &usageError{fmt.Sprintf("export %s takes no --%s", table, flag), byDays(cmd, l, table, given.Value.String())}
		}
	}
	return nil
}

// byDays is how the rows of a year are asked for where a table goes by days; the
// usage for what is no year.
func byDays(cmd *cobra.Command, l *season.Ledger, table, text string) string {
	year, ok := readYear(text)
	if !ok {
		return usageHint(cmd)
	}
	first, last := l.YearStart.Begin(year), l.YearStart.Begin(year+1)-1
	if !exportedTables()[table].ofAll {
		first, last = l.SeasonStart.Begin(year), l.SeasonStart.Begin(year+1)-1
	}
	line := fmt.Sprintf("boxbook export %s --since %s --until %s", table, first, last)
	if out := cmd.Flags().Lookup("output"); out.Changed {
		line += " -o " + display.ShellWord(out.Value.String())
	}
	return line
}

// proposeExports completes a pilot, a table's name or a flight's, and behind a pilot
// or a table what may still follow.
func (a *app) proposeExports(cmd *cobra.Command, args []string, typed string) ([]cobra.Completion, cobra.ShellCompDirective) {
	var offered []string
	pilot := ""
	if len(args) > 0 && a.namesPilot(args[0]) {
		pilot, args = args[0], args[1:]
	} else if len(args) == 0 {
		offered, _ = a.offer(proposePilots)(cmd, args, typed)
	}
	table, selectors := exportWords(args)
	if len(selectors) > 0 || !exportedTables()[table.Name].ofFlights {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	if len(args) == 0 {
		named := slices.DeleteFunc(words.ExportedNames(), func(name string) bool { return !strings.HasPrefix(name, typed) })
		offered = append(offered, named...)
	}
	flights, directive := a.offer(proposeFlights)(cmd, selectors, typed)
	return append(offered, notOthers(flights, cmp.Or(pilot, a.pilot))...), directive
}

func (a *app) runExport(cmd *cobra.Command, args []string) error {
	l, err := a.open()
	if err != nil {
		return err
	}
	table, selector, err := a.takeExportWords(cmd, l, args)
	if err != nil {
		return err
	}
	s, err := a.selection(l)
	if err != nil {
		return err
	}
	if a.byVariable && selector != "" && len(l.Matching(selector, s)) == 0 {
		s.Pilot = nil
	}
	p := a.newProgress("exporting " + table.Name)
	defer p.end()
	e, kind := &exporting{table: table, ledger: l, chosen: s, step: p.step}, exportedTables()[table.Name]
	if kind.ofFlights {
		if e.flights, err = flightsToExport(l, s, selector); err != nil {
			return err
		}
		if selector == season.LastSelector {
			a.sayWhose(l, s, e.flights[0])
		}
	}
	a.table = table.Name
	doc := kind.rows(e)
	if err := a.show(doc, tables.PeriodChoices(s)); err != nil {
		return err
	}
	switch {
	case doc.RowCount() > 0:
	case kind.ofFlights && len(e.flights) == 0:
		a.tellNotes([]string{"no rows: " + noFlights(l, s).Error()})
	default:
		a.tellNotes([]string{"no rows: there are no " + table.Name + " in this selection"})
	}
	return nil
}

// flightsToExport are those that a selector names, all where it is "".
func flightsToExport(l *season.Ledger, s season.Selection, selector string) ([]*season.Flight, error) {
	flights := l.Select(s)
	if selector == "" {
		return flights, nil
	}
	if flights = l.Matching(selector, s); len(flights) == 0 {
		_, err := oneFlight(l, s, selector)
		return nil, err
	}
	return flights, nil
}
