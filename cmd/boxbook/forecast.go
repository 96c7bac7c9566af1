package main

import (
	"fmt"
	"strings"

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
		Use: "forecast [PILOT] SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long:    words.ForecastHelp() + pilotBefore("sequence"),
		Example: "  boxbook forecast ines advanced-known-26",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runForecast(args, reach) },
	}
	cmd.Flags().StringVar(&reach, "reach", "", "how often flights like these come to this `PERCENT`")
	a.pilotThen(cmd, sequenceWord(), elseOnlyPilot)
	cmd.Args = arguments(cobra.RangeArgs(1, 2))
	a.pageFlags(cmd)
	instead(cmd, words.ForecastSpan(), choosing...)
	return cmd
}

func (a *app) runForecast(args []string, reach string) error {
	percent, err := percentFlag("reach", reach)
	if err != nil {
		return err
	}
	l, s, seq, err := a.sequenceQuestion(args)
	if err != nil {
		return err
	}
	if seq == nil {
		return &usageError{fmt.Sprintf("a forecast for %s needs a sequence", s.Pilot.Handle), "known: " + strings.Join(proposeSequences(l), ", ")}
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
