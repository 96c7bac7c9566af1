package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
)

// TwoWay is the additive fit of a table: value = Mean + row + column + error.
type TwoWay struct {
	// Mean is the fit's overall level; Rows and Columns the effects, each adding
	// up to 0.
	Mean          float64
	Rows, Columns []float64
	// ColumnSE are the standard errors of the column effects as deviations from
	// the mean of all columns.
	ColumnSE []float64
	// Own are the same by how each column scattered itself, whatever the others do.
	Own []OwnError
	// RSS is the residual sum of squares, DF = cells - rows - columns + 1, Sigma
	// is sqrt(RSS/DF). All are 0 when the residuals are no more than rounding.
	RSS, Sigma float64
	DF         int
	// Cells has what the fit says of each cell, in the table's order.
	Cells []CellFit
}

// CellFit is the fit at one cell.
type CellFit struct {
	Fitted, Residual, Leverage float64
	// Without is what the table says of this cell when its value is left out: the
	// value less Residual/(1 - Leverage). Tested is false, and both it and T are
	// empty, when it cannot be said: the cell is alone in its row or column,
	// Sigma is 0, or DF is 1.
	Without float64
	Tested  bool
	// T is the externally studentised residual, (value - Without)/its standard
	// error, on DF-1 degrees of freedom, at most 1e6 in size.
	T float64
}

// largestT keeps a deleted residual finite when the rest of the table fits
// exactly.
const largestT = 1e6

// alone is how near to 1 a leverage is taken for 1.
const alone = 1e-9

// FitTwoWay fits row and column effects by least squares. Rows are swept out
// first, which leaves one equation a column: with n_r cells in row r,
//
//	L b = z,  L = sum_r [diag(1_r) - 1_r 1_r'/n_r],  z_c = sum (y - row mean)
//
// and b = L^+ z adds up to 0. It is the solution that alternating means
// (a_r = mean(y - b_c), b_c = mean(y - a_r) over the cells present) converge to,
// and that of a regression on indicator columns.
//
//	SE_c = Sigma sqrt(L^+_cc), which is Sigma sqrt((1-1/C)/R) without gaps
//	h = 1/n_r + g' L^+ g,  g = e_c - 1_r/n_r
//	sigma_without^2 = [RSS - e^2/(1-h)]/(DF-1),  T = e/(sigma_without sqrt(1-h))
//
// It needs two rows, two columns and DF >= 1, else ErrTooFew; one connected
// part, else ErrDisconnected; and fails with ErrShape and ErrRange for a table
// that is none. With all residuals 0 Sigma is 0 and no cell is tested.
//
// [derived: r, lm; r, rstudent].
func FitTwoWay(t Table) (TwoWay, error) {
	if err := t.check(); err != nil {
		return TwoWay{}, err
	}
	if t.Rows < 2 || t.Columns < 2 {
		return TwoWay{}, fmt.Errorf("%w: a table of %d by %d", ErrTooFew, t.Rows, t.Columns)
	}
	if err := t.connected(); err != nil {
		return TwoWay{}, err
	}
	f := TwoWay{DF: len(t.Cells) - t.Rows - t.Columns + 1}
	if f.DF < 1 {
		return TwoWay{}, fmt.Errorf("%w: %d cells leave no degree of freedom", ErrTooFew, len(t.Cells))
	}
	rows := t.byRow()
	spread, err := f.effects(t, rows)
	if err != nil {
		return TwoWay{}, err
	}
	f.residuals(t)
	f.ColumnSE = make([]float64, t.Columns)
	for c := range f.ColumnSE {
		f.ColumnSE[c] = f.Sigma * math.Sqrt(math.Max(0, spread.At(c, c)))
	}
	f.ownErrors(t, rows, spread)
	f.leverages(t, rows, spread)
	for i := range f.Cells {
		f.test(i, t.Cells[i].Value)
	}
	return f, nil
}

// At is what the fit expects in a cell, present or not. ok is false outside the
// table.
func (f TwoWay) At(row, column int) (value float64, ok bool) {
	if row < 0 || row >= len(f.Rows) || column < 0 || column >= len(f.Columns) {
		return 0, false
	}
	return f.Mean + f.Rows[row] + f.Columns[column], true
}

// effects solves for the effects and returns L^+.
func (f *TwoWay) effects(t Table, rows [][]int) (*mat.SymDense, error) {
	values := t.values()
	centre := mean(values)
	n := t.Columns
	laplacian := mat.NewSymDense(n, nil)
	right := mat.NewVecDense(n, nil)
	rowMean := make([]float64, t.Rows)
	for r, cells := range rows {
		for _, i := range cells {
			rowMean[r] += (values[i] - centre) / float64(len(cells))
		}
		addSweptRow(laplacian, t, cells)
		for _, i := range cells {
			c := t.Cells[i].Column
			right.SetVec(c, right.AtVec(c)+values[i]-centre-rowMean[r])
		}
	}
	spread, err := pseudoInverse(laplacian)
	if err != nil {
		return nil, err
	}
	var columns mat.VecDense
	columns.MulVec(spread, right)
	f.Columns = append([]float64(nil), columns.RawVector().Data...)
	centreOn0(f.Columns)
	f.Rows = rowMean
	for r, cells := range rows {
		for _, i := range cells {
			f.Rows[r] -= f.Columns[t.Cells[i].Column] / float64(len(cells))
		}
	}
	f.Mean = centre + centreOn0(f.Rows)
	return spread, nil
}

func addSweptRow(laplacian *mat.SymDense, t Table, cells []int) {
	for _, i := range cells {
		a := t.Cells[i].Column
		for _, j := range cells {
			b := t.Cells[j].Column
			if b > a {
				continue
			}
			v := laplacian.At(b, a) - 1/float64(len(cells))
			if a == b {
				v++
			}
			laplacian.SetSym(b, a, v)
		}
	}
}

// pseudoInverse inverts a matrix whose only null direction is the constant one:
// (L + 11'/n)^-1 - 11'/n.
func pseudoInverse(laplacian *mat.SymDense) (*mat.SymDense, error) {
	n := laplacian.SymmetricDim()
	shift := 1 / float64(n)
	shifted := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			shifted.SetSym(i, j, laplacian.At(i, j)+shift)
		}
	}
	var chol mat.Cholesky
	if !chol.Factorize(shifted) {
		return nil, fmt.Errorf("%w: the columns hardly overlap", ErrSingular)
	}
	var inverse mat.SymDense
	if err := chol.InverseTo(&inverse); !solved(err) {
		return nil, fmt.Errorf("%w: %v", ErrSingular, err)
	}
	for i := range n {
		for j := i; j < n; j++ {
			inverse.SetSym(i, j, inverse.At(i, j)-shift)
		}
	}
	return &inverse, nil
}

// centreOn0 takes the mean off the values and returns it.
func centreOn0(x []float64) float64 {
	m := mean(x)
	for i := range x {
		x[i] -= m
	}
	return m
}

// residuals fills in the cells' fit and the spread of the residuals, taking
// residuals no larger than rounding for 0.
func (f *TwoWay) residuals(t Table) {
	f.Cells = make([]CellFit, len(t.Cells))
	largestResidual := 0.0
	for i, c := range t.Cells {
		fitted, _ := f.At(c.Row, c.Column)
		e := c.Value - fitted
		f.Cells[i] = CellFit{Fitted: fitted, Residual: e}
		f.RSS += e * e
		largestResidual = math.Max(largestResidual, math.Abs(e))
	}
	if largestResidual <= 1e-12*maxAbs(t.values()) {
		f.RSS = 0
	}
	f.Sigma = math.Sqrt(f.RSS / float64(f.DF))
}

func (f *TwoWay) leverages(t Table, rows [][]int, spread *mat.SymDense) {
	// towards[c] is (L^+ 1_r/n_r)_c, within its mean over the row's columns.
	towards := make([]float64, t.Columns)
	for _, cells := range rows {
		share := 1 / float64(len(cells))
		clear(towards)
		within := 0.0
		for _, i := range cells {
			for c := range towards {
				towards[c] += share * spread.At(c, t.Cells[i].Column)
			}
		}
		for _, i := range cells {
			within += share * towards[t.Cells[i].Column]
		}
		for _, i := range cells {
			c := t.Cells[i].Column
			h := share + spread.At(c, c) - 2*towards[c] + within
			f.Cells[i].Leverage = math.Min(1, math.Max(0, h))
		}
	}
}

// test fills in the deleted residual of a cell.
func (f *TwoWay) test(i int, value float64) {
	c := &f.Cells[i]
	room := 1 - c.Leverage
	if room < alone || f.DF < 2 || f.Sigma == 0 {
		return
	}
	c.Tested = true
	c.Without = value - c.Residual/room
	rest := math.Max(0, f.RSS-c.Residual*c.Residual/room)
	se := math.Sqrt(rest/float64(f.DF-1)) * math.Sqrt(room)
	switch e := math.Abs(c.Residual); {
	case e <= se*largestT:
		if e > 0 {
			c.T = c.Residual / se
		}
	default:
		c.T = math.Copysign(largestT, c.Residual)
	}
}
