package commands

import (
	"cmp"
	"fmt"

	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/season"
)

func newSeason(a *app) *cobra.Command {
	beside := 0
	cmd := &cobra.Command{
		Use: "season", Short: "show a pilot's season, one row per flight", GroupID: groupRead,
		Long: `Show a pilot's season: what happened in sentences, then one row per flight with
percent, place and the distance to the winner and to the median of the field,
compared with the season before. --all adds the tests of the trend, what the
level rests on, the contests' results as printed beside the sum of their
flights, and what is ahead. Where the pilot stands now is judged from the
contest flights of ` + words.LevelDays() + ` in the present category,
whatever the page is narrowed to.`,
		Example: "  boxbook season\n  boxbook season ines --season 2026 --beside 2024",
		RunE:    func(*cobra.Command, []string) error { return a.runSeasonBeside(beside) },
	}
	a.pilotWord(cmd, elseOnlyPilot)
	cmd.Flags().Var(yearFlag{&beside}, "beside", "compare with the season that begins in this `YEAR` (default: the one before)")
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	return cmd
}

// runSeason shows a season with the one before beside it.
func (a *app) runSeason() error { return a.runSeasonBeside(0) }

// runSeasonBeside shows a season; beside is the year of the one beside it, 0 for
// the season before.
func (a *app) runSeasonBeside(beside int) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	d, err := seasonOf(l, s, beside)
	if err != nil {
		return err
	}
	return a.show(pages.Season(d, a.whole), tables.PeriodChoices(s))
}

// seasonOf answers with another season beside it, where one season was asked for.
func seasonOf(l *season.Ledger, s season.Selection, beside int) (answers.Season, error) {
	switch {
	case !answers.OneWholeSeason(s):
		if beside != 0 {
			return answers.Season{}, &usageError{text: "--beside compares with one whole season: choose it with --season alone"}
		}
		return answers.SeasonOf(l, s), nil
	case beside == s.Season:
		return answers.Season{}, &usageError{text: fmt.Sprintf("--beside %d is the season itself", beside)}
	}
	d := answers.SeasonBeside(l, s, cmp.Or(beside, s.Season-1))
	if beside != 0 && d.Beside == nil {
		return d, &usageError{text: fmt.Sprintf("no flights of %s in season %d to compare with", s.Pilot.Handle, beside)}
	}
	return d, nil
}
