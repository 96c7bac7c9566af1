package commands

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newPanel(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "panel", Short: "show the judges: leniency, scatter, lone grades", GroupID: groupRead,
		Long: `Show the judges of the selected contest flights, of one PILOT's if named: who
grades above or below the panel, how evenly, and grades that stand apart from
the rest of the panel and the judge's own habit. Judges are matched across
contests by name; a seat (one letter, or J and a number) is a person only within
its contest. A lone grade never changes a score. --all adds each flight's
scatter and noise.`,
		RunE: func(*cobra.Command, []string) error { return a.runPanel() },
	}
	a.pilotWord(cmd, elseEverybody)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	return cmd
}

func (a *app) runPanel() error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	return a.show(pages.Panel(answers.PanelOf(l, s), a.whole), tables.PeriodChoices(s))
}
