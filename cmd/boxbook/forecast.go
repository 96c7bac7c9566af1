package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/scoring"
)

func newForecast(a *app) *cobra.Command {
	var reach string
	cmd := &cobra.Command{
		Use: "forecast SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long:              words.ForecastHelp(),
		Args:              arguments(cobra.ExactArgs(1)),
		ValidArgsFunction: first(a.offer(proposeSequences)),
		RunE:              func(_ *cobra.Command, args []string) error { return a.runForecast(args[0], reach) },
	}
	cmd.Flags().StringVar(&reach, "reach", "", "how often flights like these come to this `PERCENT`")
	a.preferredPilot(cmd, elseOnlyPilot)
	a.pageFlags(cmd)
	instead(cmd, words.ForecastSpan(), choosing...)
	return cmd
}

func (a *app) runForecast(handle, reach string) error {
	percent, err := percentFlag("reach", reach)
	if err != nil {
		return err
	}
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
	return a.show(pages.Forecast(answers.ForecastOf(l, s.Pilot, seq, percent)), chosen)
}

// percentFlag reads a percent that a flag gives; nil where it gives none.
func percentFlag(name, text string) (*float64, error) {
	if text == "" {
		return nil, nil
	}
	percent, ok := scoring.ParseDecimal(text)
	value, _ := percent.Rat().Float64()
	if !ok || value > 100 {
		return nil, &usageError{text: fmt.Sprintf("--%s %q is not a percentage from 0 to 100", name, text)}
	}
	return &value, nil
}
