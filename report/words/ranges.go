package words

import (
	"math"
	"math/big"

	"boxbook/report"
)

// wideRange is the width, in percent or percentage points, from which a range is
// written in whole ones: a decimal there would claim more than is known.
const wideRange = 2

// mostRangeDecimals bounds the decimals of a range.
const mostRangeDecimals = 4

// Range is a range of percent or percentage points about its middle, at a
// confidence from 0 to 1; each is absent where it is not known. It is the one
// room that says how a range is written: pages, tables, workbook and html alike.
type Range struct{ Low, Middle, High, Confidence report.Number }

// Known reports whether there is a range.
func (r Range) Known() bool { return r.Low.Known() && r.High.Known() }

// Decimals are those that the middle and both ends are written with: none where
// the range is wide, else one, and as many more as it takes that no end is
// rounded past the middle. Without a range they are one.
func (r Range) Decimals() int {
	decimals := 1
	if !r.Known() {
		return decimals
	}
	low, high := r.Low.Rat(), r.High.Rat()
	if new(big.Rat).Sub(high, low).Cmp(big.NewRat(wideRange, 1)) >= 0 {
		decimals = 0
	}
	if !r.Middle.Known() {
		return decimals
	}
	middle := r.Middle.Rat()
	if middle.Cmp(low) <= 0 || middle.Cmp(high) >= 0 {
		return decimals // nothing to keep in, or it is shown as its end is
	}
	for decimals < mostRangeDecimals && (middle.Cmp(shownAs(r.Low, decimals)) < 0 || middle.Cmp(shownAs(r.High, decimals)) > 0) {
		decimals++
	}
	return decimals
}

// shownAs is the number that a text of so many decimals stands for.
func shownAs(n report.Number, decimals int) *big.Rat {
	value, _ := new(big.Rat).SetString(n.Text(decimals)) // of a known number always one
	return value
}

// About is the middle: "68".
func (r Range) About() string { return r.Middle.Text(r.Decimals()) }

// Ends are both ends, low and high: "64 to 71".
func (r Range) Ends() string { return r.Begin() + " to " + r.End() }

// Begin and End are one end each.
func (r Range) Begin() string { return r.Low.Text(r.Decimals()) }

// End is the upper end.
func (r Range) End() string { return r.High.Text(r.Decimals()) }

// Change is the middle of a range of changes, signed: "+5".
func (r Range) Change() string { return report.Signed(r.Middle, r.Decimals()).String() }

// Changes are both ends of a range of changes, signed: "-2 to +7".
func (r Range) Changes() string {
	low, high := r.changeEnds()
	return low + " to " + high
}

func (r Range) changeEnds() (low, high string) {
	decimals := r.Decimals()
	return report.Signed(r.Low, decimals).String(), report.Signed(r.High, decimals).String()
}

// EndsAt and ChangesAt are the ends with their confidence: "64 to 71 at 90%
// confidence".
func (r Range) EndsAt() string { return r.Ends() + r.at() }

// ChangesAt is EndsAt of changes.
func (r Range) ChangesAt() string { return r.Changes() + r.at() }

func (r Range) at() string {
	if !r.Confidence.Known() {
		return ""
	}
	return " at " + AtConfidence(r.Confidence)
}

// AtConfidence says a confidence: "90% confidence".
func AtConfidence(n report.Number) string { return Confidence(n) + " confidence" }

// Cells are low, middle and high as cells of a table.
func (r Range) Cells() (low, middle, high report.Cell) {
	return report.Num(r.Low, r.Decimals()), report.Num(r.Middle, r.Decimals()), report.Num(r.High, r.Decimals())
}

// ChangeCells are the cells of a range of changes, signed.
func (r Range) ChangeCells() (low, middle, high report.Cell) {
	return report.Signed(r.Low, r.Decimals()), report.Signed(r.Middle, r.Decimals()), report.Signed(r.High, r.Decimals())
}

// RangeFrom is the title of the column that ranges of one confidence begin in:
// "90% from"; of several confidences the lowest and the highest are named.
func RangeFrom(confidences ...report.Number) string {
	lowest, highest := math.Inf(1), math.Inf(-1)
	for _, c := range confidences {
		if c.Known() {
			whole := WholeConfidence(c).Float64()
			lowest, highest = min(lowest, whole), max(highest, whole)
		}
	}
	switch {
	case lowest > highest:
		return ColumnFrom
	case lowest < highest:
		return report.Float(lowest).Text(0) + "-" + report.Float(highest).Text(0) + "% from"
	}
	return report.Float(lowest).Text(0) + "% from"
}
