package commands

import (
	"fmt"
	"math/big"
	"strings"

	"github.com/spf13/cobra"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/report/pages"
	"boxbook/report/tables"
	"boxbook/report/words"
	"boxbook/scoring"
	"boxbook/season"
	"boxbook/season/analysis"
)

func newForecast(a *app) *cobra.Command {
	var reach string
	cmd := &cobra.Command{
		Use: "forecast [PILOT] SEQUENCE", Short: "show what a pilot would score on a sequence", GroupID: groupRead,
		Long:    words.ForecastHelp() + pilotBefore("sequence"),
		Example: "  boxbook forecast ines advanced-known-26",
		RunE:    func(_ *cobra.Command, args []string) error { return a.runForecast(args, reach) },
	}
	cmd.Flags().StringVar(&reach, "reach", "", "how often flights like these reach this `PERCENT`")
	a.pilotThen(cmd, sequenceWord(), elseOnlyPilot)
	cmd.Args = arguments(cobra.RangeArgs(1, 2))
	a.pageFlags(cmd)
	a.everythingFlag(cmd)
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
		hint := sequencesKnown(l)
		if next := analysis.NextSequence(l, s.Pilot); next != nil {
			hint = fmt.Sprintf("that of the plan: boxbook forecast %s %s\n", s.Pilot.Handle, next.Handle) + hint
		}
		return &usageError{fmt.Sprintf("a forecast for %s needs a sequence", s.Pilot.Handle), hint}
	}
	// The title says the sequence, so that the head line does not.
	chosen := append(tables.Choices(s), report.Choice{Key: "sequence", Value: seq.Handle})
	return a.show(pages.Forecast(answers.ForecastOf(l, s.Pilot, seq, percent), a.whole), chosen)
}

// sequencesKnown says which sequences there are, and how one is added.
func sequencesKnown(l *season.Ledger) string {
	const adds = "one is added by: boxbook log sequence"
	known := proposeSequences(l)
	if len(known) == 0 {
		return adds
	}
	return wrappedList("known: ", known) + "\n" + adds
}

// percentFlag reads a percent that a flag gives; nil where it gives none.
func percentFlag(name, text string) (*float64, error) {
	if text == "" {
		return nil, nil
	}
	percent, ok := percentage(text)
	if !ok {
		return nil, &usageError{text: fmt.Sprintf("--%s %q is not a percentage from 0 to 100", name, text)}
	}
	value, _ := percent.Float64()
	return &value, nil
}

// percentage reads a number from 0 to 100, with or without the sign of a percentage.
func percentage(text string) (*big.Rat, bool) {
	percent, ok := scoring.ParseDecimal(strings.TrimSuffix(text, "%"))
	return percent.Rat(), ok && percent.Rat().Cmp(big.NewRat(100, 1)) <= 0
}
