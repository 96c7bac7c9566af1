package commands

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
)

func newDebrief(a *app) *cobra.Command {
	var blank bool
	cmd := &cobra.Command{
		Use: "debrief [PILOT] [SELECTOR]", Short: "show one sheet to talk a flight over", GroupID: groupRead,
		Long:    words.DebriefHelp(),
		Example: "  boxbook debrief ines\n  boxbook debrief 2026-04-18/ines/known\n  boxbook debrief last --blank",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runDebrief(args, blank) },
	}
	cmd.Flags().BoolVar(&blank, "blank", false, "the flight's sequence as an empty form")
	a.pilotThen(cmd, flightWord(), elseAnyFlight)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runDebrief(args []string, blank bool) error {
	l, s, f, err := a.flightQuestion(args)
	if err != nil {
		return err
	}
	chosen := flightChoices(s, f)
	switch {
	case !blank:
		return a.show(pages.Debrief(answers.DebriefOf(l.KnownTo(s), f)), chosen)
	case f.Sequence == nil:
		return &usageError{text: f.Name + " names no sequence to make a form of", hint: "a line beneath the flight names it: sequence NAME; one that the ledger lacks is added by: boxbook log sequence"}
	default:
		return a.show(pages.DebriefForm(answers.DebriefFormOf(f)), chosen)
	}
}
