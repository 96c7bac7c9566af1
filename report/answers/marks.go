package answers

import (
	"math/big"

	"boxbook/report"
	"boxbook/scoring"
)

// EveryGrade lists the grades that a judge can give, ascending.
func EveryGrade() []report.Number {
	var grades []report.Number
	for half := int64(0); half <= scoring.TopGrade; half++ {
		grades = append(grades, report.Exact(big.NewRat(half, 2)))
	}
	return grades
}

// EveryOtherMark lists the marks that are no grade as a ledger types them, the
// one for a figure not seen both ways.
func EveryOtherMark() []string {
	const notSeenShort = "A"
	var marks []string
	for _, kind := range []scoring.MarkKind{scoring.HardZero, scoring.ConfirmedHardZero, scoring.PerceptionZero, scoring.NotSeen} {
		marks = append(marks, scoring.Mark{Kind: kind}.String())
	}
	return append(marks, notSeenShort, scoring.Mark{Kind: scoring.Absent}.String())
}
