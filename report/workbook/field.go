package workbook

import (
	"math/big"

	"boxbook/report/workbook/xlsx"
)

// flightField are the working columns that compare a flight with its field:
// the totals as typed, and the record's points less each.
var flightField = xlsx.FoldedAway([]xlsx.Column[flightRow]{
	{Key: "winner", Title: "winner's points", Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return f.fieldTotal(f.line.ToWinner) }},
	{Key: "median", Title: "field's median", Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return f.fieldTotal(f.line.ToMedian) }},
	{
		Key: "to-winner", Title: "to winner", Look: xlsx.LookGap, Formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({winner})),{record-points}-{winner},"")`,
		Value: func(f flightRow) xlsx.Value { return xlsx.Exact(f.line.ToWinner) },
	},
	{
		Key: "to-median", Title: "to median", Look: xlsx.LookGap, Formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({median})),{record-points}-{median},"")`,
		Value: func(f flightRow) xlsx.Value { return xlsx.Exact(f.line.ToMedian) },
	},
	{Key: "noise", Title: "panel noise, percent", Look: xlsx.LookTwo, Value: func(f flightRow) xlsx.Value { return f.noise() }},
})

// fieldTotal is the total that a distance was taken from.
func (f flightRow) fieldTotal(distance *big.Rat) xlsx.Value {
	if distance == nil || f.line.Record.Points == nil {
		return xlsx.Value{}
	}
	return xlsx.Exact(new(big.Rat).Sub(f.line.Record.Points, distance))
}

// noise is the panel noise of the percent, one standard deviation.
func (f flightRow) noise() xlsx.Value {
	if f.panelNoise == nil {
		return xlsx.Value{}
	}
	return xlsx.Float(*f.panelNoise)
}
