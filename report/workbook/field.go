package workbook

import "math/big"

// flightField are the working columns that compare a flight with its field:
// the totals as typed, and the record's points less each.
var flightField = foldedAway([]column[flightRow]{
	{key: "winner", title: "winner's points", look: lookTwo, value: func(f flightRow) value { return f.fieldTotal(f.line.ToWinner) }},
	{key: "median", title: "field's median", look: lookTwo, value: func(f flightRow) value { return f.fieldTotal(f.line.ToMedian) }},
	{
		key: "to-winner", title: "to winner", look: lookGap, formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({winner})),{record-points}-{winner},"")`,
		value: func(f flightRow) value { return exact(f.line.ToWinner) },
	},
	{
		key: "to-median", title: "to median", look: lookGap, formula: `IF(AND(ISNUMBER({record-points}),ISNUMBER({median})),{record-points}-{median},"")`,
		value: func(f flightRow) value { return exact(f.line.ToMedian) },
	},
	{key: "noise", title: "panel noise, percent", look: lookTwo, value: func(f flightRow) value { return f.noise() }},
})

// fieldTotal is the total that a distance was taken from.
func (f flightRow) fieldTotal(distance *big.Rat) value {
	if distance == nil || f.line.Record.Points == nil {
		return value{}
	}
	return exact(new(big.Rat).Sub(f.line.Record.Points, distance))
}

// noise is the panel noise of the percent, one standard deviation.
func (f flightRow) noise() value {
	if f.panelNoise == nil {
		return value{}
	}
	return float(*f.panelNoise)
}
