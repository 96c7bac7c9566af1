package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
)

func newSeason(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "season", Short: "show a pilot's season, a row a flight", GroupID: groupRead,
		Long: `Show a pilot's season: a row a flight with percent, place and the distance to
the winner and to the median of the field, best and worst, and the contests'
results as printed beside the sum of their flights. Where the pilot stands now
rests on the contest flights of ` + words.LevelDays() + ` in the present category,
whatever the page is narrowed to.`,
		Example: "  boxbook season\n  boxbook season ines --season 2026",
		RunE:    func(*cobra.Command, []string) error { return a.runSeason() },
	}
	a.pilotWord(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runSeason() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	return a.show(pages.Season(answers.SeasonOf(l, s)), tables.PeriodChoices(s))
}
