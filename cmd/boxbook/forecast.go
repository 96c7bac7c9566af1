package main

import (
	"slices"

	"boxbook/report/pages"
	"boxbook/season"

	"github.com/spf13/cobra"
)

func newForecast(a *app) *cobra.Command {
	return &cobra.Command{
		Use: "forecast SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long: `Show what a pilot would score on a sequence, from what the elements of the
figures flown in the last two years cost: percent with the range that holds it
four times out of five, the same by figure, and what was never flown.`,
		Args:              arguments(cobra.ExactArgs(1)),
		ValidArgsFunction: first(a.offer(proposeSequences)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runForecast(args[0]) },
	}
}

func (a *app) runForecast(handle string) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	i := slices.IndexFunc(l.Sequences, func(q *season.Sequence) bool { return q.Handle == handle })
	if i < 0 {
		var known []string
		for _, q := range l.Sequences {
			known = append(known, q.Handle)
		}
		return unknown("sequence", handle, known)
	}
	return a.show(pages.Forecast(l.ForecastOf(s.Pilot, l.Sequences[i]), l.ForecastRecord(s.Pilot)))
}
