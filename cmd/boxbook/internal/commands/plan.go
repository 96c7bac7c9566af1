package commands

import (
	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
)

func newPlan(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "plan [PILOT] [SEQUENCE]", Short: "show where practice pays", GroupID: groupRead,
		Long:    words.PlanHelp() + pilotBefore("sequence"),
		Example: "  boxbook plan ines\n  boxbook plan ines advanced-known-26",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runPlan(args) },
	}
	a.pilotThen(cmd, sequenceWord(), elseOnlyPilot)
	cmd.Flags().Var(yearFlag{&a.season}, "season", "as of the last day of the season that begins in this `YEAR`")
	cmd.Flags().StringVar(&a.until, "until", "", "as of this `DATE`, and nothing known after it")
	cmd.Flags().StringVar(&a.category, "category", "", "from the flights of this `CATEGORY`")
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	instead(cmd, words.PlanSpan(), "since", "contest")
	return cmd
}

func (a *app) runPlan(args []string) error {
	l, s, sequence, err := a.sequenceQuestion(args)
	if err != nil {
		return err
	}
	plan := answers.PlanOf(l, s, sequence)
	s.Category = plan.Category
	chosen := tables.Choices(s)
	if plan.Sequence != "" {
		chosen = append(chosen, report.Choice{Key: "sequence", Value: plan.Sequence})
	}
	return a.show(pages.Plan(plan, a.whole), chosen)
}
