package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newFamilies(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "families", Short: "show figure families: level, trend, points lost", GroupID: groupRead,
		Long: `Show the figure families of a pilot's contest flights in one category (the one
flown last where none is asked for): observed percent, the percent drawn
towards the other families by how much of the spread is chance, and the trend
against the rest of the same flights.`,
		RunE: func(*cobra.Command, []string) error { return a.runFamilies() },
	}
	a.pilotWord(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runFamilies() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	d := answers.FamiliesOf(l, s)
	s.Category = d.Category
	return a.show(pages.Families(d), tables.PeriodChoices(s))
}
