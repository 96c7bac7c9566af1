package stats

import "math"

// Outlier is a cell that stands apart from the rest of its table.
type Outlier struct {
	// Cell is its index in the table's cells.
	Cell int
	// Value is what stands there, Without what the rest of the table says.
	Value, Without float64
	// T is the studentised residual of [CellFit], P its two-sided probability;
	// Bonferroni is min(1, cells P).
	T, P, Bonferroni float64
}

// gapSlack is by how much a gap may fall short: values in halves leave residuals that
// are exact but for a last digit, which depends on the order of the columns.
const gapSlack = 1e-9

// Outliers lists the cells whose Bonferroni probability is at most alpha and
// whose value lies at least gap away from what the rest of the table says (that
// is, from Without, which the cell itself does not pull). With fewer than three
// columns or four rows it lists none: between two columns nobody can say which
// one is off. Cells come in the table's order.
//
// t must be the table the fit was made of, else ErrShape. [derived],
// deleted residuals [derived: r, rstudent].
func (f TwoWay) Outliers(t Table, alpha, gap float64) ([]Outlier, error) {
	if err := checkSameLength(len(t.Cells), len(f.Cells)); err != nil {
		return nil, err
	}
	if len(f.Columns) < 3 || len(f.Rows) < 4 {
		return nil, nil
	}
	var found []Outlier
	for i, c := range f.Cells {
		value := t.Cells[i].Value
		if !c.Tested || math.Abs(value-c.Without) < gap-gapSlack {
			continue
		}
		p := studentTwoSided(c.T, f.DF-1)
		if bonferroni := math.Min(1, p*float64(len(f.Cells))); bonferroni <= alpha {
			found = append(found, Outlier{i, value, c.Without, c.T, p, bonferroni})
		}
	}
	return found, nil
}

// WildCells is a second look for values that hide each other in a least squares
// fit: the indices of the residuals of a [MedianPolish] that are at least gap
// and at least mads scaled median absolute deviations in size. The median
// absolute deviation is taken to be no less than floor before it is scaled by
// 1.4826, because values on a coarse scale often make it 0. With fewer than
// three columns or four rows there are none. [derived].
func (p Polish) WildCells(gap, mads, floor float64) []int {
	mad, ok := MAD(p.Residuals)
	if !ok || len(p.Columns) < 3 || len(p.Rows) < 4 {
		return nil
	}
	limit := math.Max(gap, mads*madScale*math.Max(mad, floor))
	var wild []int
	for i, r := range p.Residuals {
		if math.Abs(r) >= limit-gapSlack {
			wild = append(wild, i)
		}
	}
	return wild
}
