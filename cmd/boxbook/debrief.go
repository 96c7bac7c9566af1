package main

import (
	"github.com/spf13/cobra"

	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/words"
	"boxbook/season"
)

func newDebrief(a *app) *cobra.Command {
	var blank bool
	cmd := &cobra.Command{
		Use: "debrief [SELECTOR]", Short: "show one sheet to talk a flight over", GroupID: groupRead,
		Long:    words.DebriefHelp(),
		Example: "  boxbook debrief\n  boxbook debrief 2026-04-18/ines/known\n  boxbook debrief last --blank",
		Args:    arguments(cobra.MaximumNArgs(1)),
		RunE: func(_ *cobra.Command, args []string) error {
			selector := season.LastSelector
			if len(args) == 1 {
				selector = args[0]
			}
			return a.runDebrief(selector, blank)
		},
	}
	cmd.ValidArgsFunction = first(a.offer(func(l *season.Ledger) []string { return append(flightHandles(l), season.LastSelector) }))
	cmd.Flags().BoolVar(&blank, "blank", false, "the flight's sequence as an empty form")
	a.pilotFlag(cmd, onlyThisPilot)
	a.choosingFlags(cmd)
	a.pageFlags(cmd)
	return cmd
}

func (a *app) runDebrief(selector string, blank bool) error {
	l, s, err := a.question()
	if err != nil {
		return err
	}
	f, err := oneFlight(l, s, selector)
	if err != nil {
		return err
	}
	chosen := flightChoices(s, f)
	switch {
	case !blank:
		return a.show(pages.Debrief(answers.DebriefOf(l.KnownTo(s), f)), chosen)
	case f.Sequence == nil:
		return &usageError{text: f.Name + " names no sequence to make a form of"}
	default:
		return a.show(pages.DebriefForm(answers.DebriefFormOf(f)), chosen)
	}
}
