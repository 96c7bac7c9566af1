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

// What the signs mean.
const (
	DoubledText = "noted by another observer too: the larger counts, once"
	NextText    = "costs the following figure the same"
	UnknownText = "at the most: a fault on it has no amount, and its kind no price without one"
)

// What stands beneath the expected grades.
const (
	ExpectedExplained = "expected: 10 less the seen faults, 0.0 at the least; given: the panel's mean; difference: expected less given"
	ZeroedExplained   = "a figure made 0 as a matter of fact is no grade for faults"
)

// FaultRemarks are the remarks on faults, each with what it was noted on.
func FaultRemarks(faults []answers.Fault) []string {
	var remarks []string
	for _, f := range faults {
		if f.Remark != "" {
			remarks = append(remarks, Where(f)+": "+f.Remark)
		}
	}
	return remarks
}

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
