package words

import (
	"fmt"
	"math/big"

	"boxbook/report"
	"boxbook/report/answers"
	"boxbook/season"
)

// The signs behind a deduction, explained beneath the table.
const (
	DoubledSign = "="
	NextSign    = "+"
	UnknownSign = "?"
)

// ExpectedSentence compares expected and given grades over the flight.
func ExpectedSentence(expected []answers.Expected) string {
	sum, n := new(big.Rat), 0
	for _, e := range expected {
		if e.Less != nil {
			sum.Add(sum, e.Less)
			n++
		}
	}
	if n == 0 {
		return ""
	}
	mean := sum.Mul(sum, big.NewRat(1, int64(n)))
	text := fmt.Sprintf("on %s with faults the expected grade is", season.Counted(n, "figure", "figures"))
	size := report.Exact(new(big.Rat).Abs(mean)).Text(MeanDecimals)
	switch {
	case size == report.Int(0).Text(MeanDecimals):
		text += " that of the panel"
	case mean.Sign() > 0:
		text += fmt.Sprintf(" %s above the panel's", size)
	default:
		text += fmt.Sprintf(" %s below the panel's", size)
	}
	if n > 1 {
		text += " on average"
	}
	return text
}

// Where says what a fault was noted on: "figure 2, line-angle".
func Where(f answers.Fault) string {
	if f.Figure == 0 {
		return "whole flight, " + f.Kind
	}
	return fmt.Sprintf("figure %d, %s", f.Figure, f.Kind)
}
