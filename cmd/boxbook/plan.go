package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/season/analysis"
)

func newPlan(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "plan", Short: "show where the next points are", GroupID: groupRead,
		Long: `Show where the next points are: at most three families, with the gain if each
were flown as its best quarter was, how sure that is, and the fault and the
drill that belong to it.`,
		Args: arguments(cobra.NoArgs),
		RunE: func(*cobra.Command, []string) error { return a.runPlan() },
	}
	a.preferredPilot(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runPlan() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	plan := analysis.PlanOf(l, s)
	s.Category = plan.Category
	return a.show(pages.Plan(plan), tables.PeriodChoices(s))
}
