package main

import (
	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
)

func newForecast(a *app) *cobra.Command {
	cmd := &cobra.Command{
		Use: "forecast SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long:              words.ForecastHelp(),
		Args:              arguments(cobra.ExactArgs(1)),
		ValidArgsFunction: first(a.offer(proposeSequences)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runForecast(args[0]) },
	}
	a.preferredPilot(cmd, elseOnlyPilot)
	a.pageFlags(cmd)
	instead(cmd, words.ForecastSpan(), choosing...)
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
	return a.show(pages.Forecast(answers.ForecastOf(l, s.Pilot, seq)), chosen)
}
