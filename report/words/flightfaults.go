package words

import (
	"fmt"
	"math/big"

	"boxbook/report"
	"boxbook/report/answers"
)

// The signs behind a deduction, explained beneath the table.
const (
	DoubledSign = "="
	NextSign    = "+"
	UnknownSign = "?"
)

// ExpectedSentence compares expected and given grades over the flight; "" where
// no figure has both.
func ExpectedSentence(d answers.Flight) string {
	if !d.ExpectedAbove.Known() {
		return ""
	}
	n := 0
	for _, e := range d.Expected {
		if e.Difference.Known() {
			n++
		}
	}
	text := fmt.Sprintf("on %s with faults the expected grade is", Counted(n, "figure", "figures"))
	above := d.ExpectedAbove.Rat()
	size := report.Exact(new(big.Rat).Abs(above)).Text(MeanDecimals)
	switch {
	case size == report.Int(0).Text(MeanDecimals):
		text += " that of the panel"
	case above.Sign() > 0:
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
func Where(f answers.Fault) string { return LineName("whole flight", f.Figure) + ", " + f.Kind }
