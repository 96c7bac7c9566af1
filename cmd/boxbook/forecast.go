package main

import (
	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/season/analysis"
)

func newForecast(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "forecast SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long: `Show what a pilot would score on a sequence, from what the elements of the
figures flown in the last two years cost: percent with the range that holds it
four times out of five, the same by figure, and what was never flown. --asof
sets the day that it is made on.`,
		Args:              arguments(cobra.ExactArgs(1)),
		ValidArgsFunction: first(a.offer(proposeSequences)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runForecast(args[0]) },
	}
	a.preferredPilot(cmd, elseOnlyPilot)
	a.pageFlags(cmd)
	instead(cmd, "a forecast rests on all contest flights of the two years up to today, and --asof sets another day", choosing...)
	return cmd
}

func (a *app) runForecast(handle string) error {
	l, s, err := a.pilotQuestion()
	if err != nil {
		return err
	}
	seq := l.SequenceNamed(handle)
	if seq == nil {
		return unknown("sequence", handle, proposeSequences(l))
	}
	// The title says the sequence, so that the head line does not.
	chosen := append(tables.Choices(s), report.Choice{Key: "sequence", Value: seq.Handle})
	return a.show(pages.Forecast(analysis.ForecastOf(l, s.Pilot, seq), analysis.ForecastRecord(l, s.Pilot)), chosen)
}
