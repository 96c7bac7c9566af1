package scoring

import (
	"math/big"
	"slices"
)

// penaltySlip deducts a penalty of which the sheet knows nothing.
func (m reconcileMaker) penaltySlip(score Score) slip {
	extra := int64([]int{5, 10, 15, 20, 30, 35, 50, 70, 100, 150}[m.IntN(10)])
	points := new(big.Rat).Sub(score.Points, big.NewRat(extra, 1))
	return slip{"penalty", points, func(e Explanation) bool { return e.Kind == KindPenalty && e.Extra == extra }}
}

// twoKSlip swaps the K of two neighbouring figures.
func (m reconcileMaker) twoKSlip(sheet Sheet) slip {
	figures := 0
	for figures < len(sheet.Lines) && sheet.Lines[figures].Kind == Figure {
		figures++
	}
	i := m.IntN(figures - 1)
	other := sheet
	other.Lines = slices.Clone(sheet.Lines)
	other.Lines[i].K, other.Lines[i+1].K = sheet.Lines[i+1].K, sheet.Lines[i].K
	return slip{"two K", other.Score().Points, func(e Explanation) bool { return e.Kind == KindSwappedK && e.Figure == i+1 }}
}

// wholePanel is the judge of a slip on all sheets.
const wholePanel = -1

// rowsSlip swaps the marks of two neighbouring figures from one judge, or from
// the whole panel.
func (m reconcileMaker) rowsSlip(sheet Sheet, judge int) slip {
	figures := 0
	for figures < len(sheet.Lines) && sheet.Lines[figures].Kind == Figure {
		figures++
	}
	i := m.IntN(figures - 1)
	other := sheet
	other.Lines = slices.Clone(sheet.Lines)
	above, below := slices.Clone(sheet.Lines[i].Marks), slices.Clone(sheet.Lines[i+1].Marks)
	var moved []string
	for j := range above {
		if (judge == j || judge == wholePanel) && above[j] != below[j] {
			above[j], below[j] = below[j], above[j]
			moved = append(moved, panelNames[j])
		}
	}
	other.Lines[i].Marks, other.Lines[i+1].Marks = above, below
	return slip{"rows", other.Score().Points, func(e Explanation) bool {
		return e.Kind == KindRows && e.Figure == i+1 && e.All == (len(moved) > 1) &&
			slices.ContainsFunc(e.Cells, func(c CellChange) bool { return c.Judge == moved[0] })
	}}
}
