package commands

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
)

func newFaults(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "faults", Short: "show the faults that come back, and what they cost", GroupID: groupRead,
		Long: `Show the faults noted over a pilot's flights, by kind and family: in how many
flights of those that could show it, how often, the points at stake as the coach
put them, seen or felt, since when, and whether a drill is set. What comes back
most is counted over flights since its drill, whatever is selected. Safety
matters that are still open always come first. The coach's expected grades are
compared with the judges', in contest flights alone.`,
		RunE: func(*cobra.Command, []string) error { return a.runFaults() },
	}
	a.pilotWord(cmd, elseOnlyPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
	return cmd
}

func (a *app) runFaults() error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	s = oneSeason(l, s)
	return a.show(pages.Faults(answers.FaultsOf(l, s), a.whole), tables.PeriodChoices(s))
}
