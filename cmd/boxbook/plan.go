package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
)

func newPlan(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "plan", Short: "show where the next points are", GroupID: groupRead,
		Long: words.PlanHelp(),
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
	plan := answers.PlanOf(l, s)
	s.Category = plan.Category
	return a.show(pages.Plan(plan), tables.PeriodChoices(s))
}
