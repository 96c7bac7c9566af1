package main

import (
	"boxbook/report/pages"

	"github.com/spf13/cobra"
)

func newDrills(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "drills", Short: "show whether drills worked", GroupID: groupRead,
		Long: `Show what became of each drill: in how many flights the fault was seen before it
and since, of those looked at, and whether chance alone gives as much. The
flights that prompted a drill are left out: it was set because they went badly.`,
		Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runDrills() },
	}
}

func (a *app) runDrills() error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	if s.Contest != nil || s.Category != "" {
		return &usageError{"a drill is of no contest and no category", "choose drills by --pilot, --season, --since and --until"}
	}
	return a.show(pages.Drills(l.DrillsOf(s), selectionTitle("Drills", s)))
}
