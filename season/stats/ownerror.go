package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
)

// OwnError is the standard error of a column's effect by that column's own
// scatter, on DF degrees of freedom; DF is 0, and SE that of one scatter for
// all, where a column has fewer than two cells.
type OwnError struct {
	SE float64
	DF int
}

// P is the two-sided chance of an effect as far from 0, by Student's t. With a
// standard error of 0 it is 0, or 1 of no effect; without a degree of freedom 1.
func (o OwnError) P(effect float64) float64 {
	switch {
	case o.DF < 1 || effect == 0:
		return 1
	case o.SE == 0:
		return 0
	default:
		return studentTwoSided(effect/o.SE, o.DF)
	}
}

// ownErrors fills in the errors of the columns' effects by their own scatter. An
// effect is a sum over rows of independent parts, b_c = sum_r u_cr,
// u_cr = sum_i L^+_ci e_i over the cells of the row, and its variance
//
//	k_c sum_r u_cr^2,  DF = cells of the column - 1
//
// k_c makes it right on average where all scatter alike: with the rest M_r of the
// hat matrix in the row, k_c = L^+_cc/sum_r l_cr' M_r l_cr. In a table without
// gaps it is the t test of the column less the mean of the others, which is exact
// for normal errors however much the columns differ in scatter.
func (f *TwoWay) ownErrors(t Table, rows [][]int, spread *mat.SymDense) {
	squares, expected := make([]float64, t.Columns), make([]float64, t.Columns)
	var columns, before []int
	var ofRow []float64
	for _, cells := range rows {
		columns, before = before[:0], columns
		for _, cell := range cells {
			columns = append(columns, t.Cells[cell].Column)
		}
		if ofRow == nil || !slices.Equal(columns, before) { // most rows have cells in the same columns
			ofRow = rowExpected(spread, columns)
		}
		for c := range t.Columns {
			moved := 0.0
			for i, cell := range cells {
				moved += spread.At(c, columns[i]) * f.Cells[cell].Residual
			}
			squares[c] += moved * moved
			expected[c] += ofRow[c]
		}
	}
	counts := make([]int, t.Columns)
	for _, cell := range t.Cells {
		counts[cell.Column]++
	}
	f.Own = make([]OwnError, t.Columns)
	for c := range f.Own {
		f.Own[c] = OwnError{SE: f.ColumnSE[c]}
		if variance := spread.At(c, c); counts[c] > 1 && expected[c] > alone*variance {
			f.Own[c] = OwnError{math.Sqrt(squares[c] * variance / expected[c]), counts[c] - 1}
		}
		if f.RSS == 0 {
			f.Own[c].SE = 0
		}
	}
}

// rowExpected is l' M l of a row with cells in such columns for every column, in units
// of one variance: v'v - v'L^+v, v the row's weights about their mean.
func rowExpected(spread *mat.SymDense, columns []int) []float64 {
	all, n := spread.SymmetricDim(), len(columns)
	weights, among := mat.NewDense(all, n, nil), mat.NewSymDense(n, nil)
	for c := range all {
		row := weights.RawRowView(c)
		for i, column := range columns {
			row[i] = spread.At(c, column)
		}
		floats.AddConst(-floats.Sum(row)/float64(n), row)
	}
	for i, a := range columns {
		for j := i; j < n; j++ {
			among.SetSym(i, j, spread.At(a, columns[j]))
		}
	}
	var turned mat.Dense
	turned.Mul(weights, among)
	expected := make([]float64, all)
	for c := range expected {
		row := weights.RawRowView(c)
		expected[c] = floats.Dot(row, row) - floats.Dot(row, turned.RawRowView(c))
	}
	return expected
}

// Unevenness is how much a column scatters against the others.
type Unevenness struct {
	// Times is the scatter of the column's values over that of the others'; P the
	// chance of as much or more, one-sided, where all scatter alike. P is 1 where
	// the others alone tell nothing.
	Times, P float64
}

// Uneven compares each column's scatter with that of the others, none of whose
// scatters is taken for less than least (rounding, say). Of a column
//
//	q = sum n_r/(n_r-1) e^2 over its cells in rows of n_r cells, n cells in all
//	F = [q/(n-1)] / [(RSS-q)/(DF-n+1)]
//
// which in a table without gaps is the exact ratio of two independent variances,
// the column less the mean of the others and the others' own. A column's scatter
// is then s^2 = [q/(n-1)] m/(m-1) - others^2/(m-1), m the mean of n_r.
func (f TwoWay) Uneven(t Table, least float64) []Unevenness {
	q, n, size := make([]float64, t.Columns), make([]float64, t.Columns), make([]float64, t.Columns)
	for _, cells := range t.byRow() {
		row := float64(len(cells))
		for _, i := range cells {
			if c := t.Cells[i].Column; row > 1 {
				q[c] += f.Cells[i].Residual * f.Cells[i].Residual * row / (row - 1)
				n[c]++
				size[c] += row
			}
		}
	}
	out := make([]Unevenness, t.Columns)
	for c := range out {
		out[c].P = 1
		df, rest := n[c]-1, float64(f.DF)-n[c]+1
		if df < 1 || rest < 1 {
			continue
		}
		own, m := q[c]/df, size[c]/n[c]
		others := math.Max(math.Max(0, f.RSS-q[c])/rest, least*least)
		if others == 0 {
			continue
		}
		out[c].P = upperF(own/others, df, rest)
		out[c].Times = math.Sqrt(math.Max(0, (own*m/(m-1)-others/(m-1))/others))
	}
	return out
}
