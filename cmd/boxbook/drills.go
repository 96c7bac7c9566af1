package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newDrills(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "drills", Short: "show whether drills worked", GroupID: groupRead,
		Long: `Show what became of each drill: in how many flights the fault was noted before it
and since, of those looked at, and whether chance alone gives as much. The
flights that prompted a drill are left out: it was set because they went badly.`,
		RunE: func(*cobra.Command, []string) error { return a.runDrills() },
	}
	a.pilotWord(cmd, elseEverybody)
	a.periodFlags(cmd)
	a.pageFlags(cmd)
	instead(cmd, "a drill is of no contest and no category: choose by --pilot, --season, --since and --until", "category", "contest")
	return cmd
}

func (a *app) runDrills() error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	drills := answers.DrillsOf(l, s)
	return a.show(pages.Drills(drills), tables.DrillChoices(s, drills))
}
