package commands

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newDrills(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "drills", Short: "show the outcome of each drill", GroupID: groupRead,
		Long: `Show what became of each drill: in how many flights the fault was noted before
it and since, of the reviewed flights that could show it, and whether it fell by
more than the other faults did. The last flights before a drill and those that
it names are left out, since it was set because they went badly.`,
		RunE: func(*cobra.Command, []string) error { return a.runDrills() },
	}
	a.pilotWord(cmd, elseEverybody)
	a.periodFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	instead(cmd, "a drill belongs to no contest or category: choose by --pilot, --season, --since and --until", "category", "contest")
	return cmd
}

func (a *app) runDrills() error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	ask := answers.DrillsOf
	if !a.whole && a.plainText() {
		ask = answers.DrillVerdicts // no test is shown
	}
	drills := ask(l, s)
	return a.show(pages.Drills(drills, a.whole), tables.DrillChoices(s, drills))
}
