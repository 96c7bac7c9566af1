package analysis

import (
	"math/big"

	"boxbook/season"
)

// Field is a flight beside its field: the totals ascending, the own one among
// them. Median is nil where not the whole field is there; ToWinner and ToMedian
// are the record's points less theirs.
type Field struct {
	Totals             []*big.Rat
	Winner, Median     *big.Rat
	ToWinner, ToMedian *big.Rat
}

// FieldOf compares a flight with its field. It reports false where no field was
// typed, the flight has no total, or is void.
func FieldOf(f *season.Flight) (Field, bool) {
	totals := f.FieldTotals()
	if totals == nil || f.Void != nil {
		return Field{}, false
	}
	own, n := f.RecordPoints(), len(totals)
	field := Field{Totals: totals, Winner: totals[n-1]}
	field.ToWinner = new(big.Rat).Sub(own, field.Winner)
	if n == f.Of {
		median := new(big.Rat).Add(totals[(n-1)/2], totals[n/2])
		field.Median = median.Mul(median, big.NewRat(1, 2))
		field.ToMedian = new(big.Rat).Sub(own, field.Median)
	}
	return field, true
}
