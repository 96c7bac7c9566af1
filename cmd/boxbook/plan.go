package main

import (
	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

func newPlan(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "plan [SEQUENCE]", Short: "show where practice pays", GroupID: groupRead,
		Long:              words.PlanHelp(),
		Args:              arguments(cobra.MaximumNArgs(1)),
		ValidArgsFunction: first(a.offer(proposeSequences)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runPlan(args) },
	}
	a.preferredPilot(cmd, elseOnlyPilot)
	cmd.Flags().IntVar(&a.season, "season", 0, "as of the last day of the season that begins in this `YEAR`")
	cmd.Flags().StringVar(&a.until, "until", "", "as of this `DATE`, and nothing known after it")
	cmd.Flags().StringVar(&a.category, "category", "", "from the flights of this `CATEGORY`")
	a.pageFlags(cmd)
	instead(cmd, words.PlanSpan(), "since", "contest")
	return cmd
}

func (a *app) runPlan(args []string) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	var sequence *season.Sequence
	if len(args) > 0 {
		if sequence = l.SequenceNamed(args[0]); sequence == nil {
			return unknown("sequence", args[0], proposeSequences(l))
		}
	}
	plan := answers.PlanOf(l, s, sequence)
	s.Category = plan.Category
	chosen := tables.Choices(s)
	if plan.Sequence != "" {
		chosen = append(chosen, report.Choice{Key: "sequence", Value: plan.Sequence})
	}
	return a.show(pages.Plan(plan), chosen)
}
