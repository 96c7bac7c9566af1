package stats

import (
	"fmt"
	"math"
)

// Components are the variances of rows, columns and the rest of a two-way table.
type Components struct {
	// RowMS, ColumnMS and ResidualMS are the mean squares, rows adjusted for
	// columns and columns for rows.
	RowMS, ColumnMS, ResidualMS float64
	// Row, Column and Residual are the components; one estimated below 0 is 0,
	// which reads "none found".
	Row, Column, Residual float64
	// ColumnCounts are the cells of each column.
	ColumnCounts []int
}

// VarianceComponents estimates them by fitting constants (Henderson's method 3):
// the sums of squares of rows adjusted for columns and the reverse, R rows, C
// columns, N cells, put equal to their expectations
//
//	SS columns|rows = (C-1) Residual + (N-R) Column
//	SS rows|columns = (R-1) Residual + (N-C) Row
//
// Without gaps this is the classical analysis, Column = (ColumnMS -
// ResidualMS)/R, which equals restricted maximum likelihood when nothing is cut
// off at 0. fit must be [FitTwoWay] of the same table, else ErrShape; ErrShape
// and ErrRange for a table that is none.
//
// [derived] (Henderson's method [memory]); balanced values [derived: lme4,
// Penicillin].
func VarianceComponents(t Table, fit TwoWay) (Components, error) {
	if err := t.check(); err != nil {
		return Components{}, err
	}
	if len(t.Cells) != len(fit.Cells) || t.Rows != len(fit.Rows) || t.Columns != len(fit.Columns) {
		return Components{}, fmt.Errorf("%w: the fit is of another table", ErrShape)
	}
	values := t.values()
	rows, columns, cells := float64(t.Rows), float64(t.Columns), float64(len(values))
	columnSS := math.Max(0, withinLines(values, t.byRow())-fit.RSS)
	rowSS := math.Max(0, withinLines(values, t.byColumn())-fit.RSS)
	c := Components{
		RowMS:      rowSS / (rows - 1),
		ColumnMS:   columnSS / (columns - 1),
		ResidualMS: fit.Sigma * fit.Sigma,
	}
	c.Residual = c.ResidualMS
	c.Row = math.Max(0, (rowSS-(rows-1)*c.Residual)/(cells-columns))
	c.Column = math.Max(0, (columnSS-(columns-1)*c.Residual)/(cells-rows))
	for _, line := range t.byColumn() {
		c.ColumnCounts = append(c.ColumnCounts, len(line))
	}
	return c, nil
}

// withinLines is the sum of squares about the means of the lines.
func withinLines(values []float64, lines [][]int) float64 {
	total := 0.0
	for _, cells := range lines {
		line := make([]float64, len(cells))
		for j, i := range cells {
			line[j] = values[i]
		}
		if len(line) > 0 {
			total += sumSquares(line, mean(line))
		}
	}
	return total
}

// ShrinkColumns draws the column effects of a fit towards 0 by how much of their
// spread is chance, [ShrinkEffect] with the cells of each column: the best linear
// unbiased prediction when the table has no gaps, close to it otherwise. ok is
// false when the numbers of columns differ.
func (c Components) ShrinkColumns(fit TwoWay) (effects []float64, ok bool) {
	if len(fit.Columns) != len(c.ColumnCounts) {
		return nil, false
	}
	effects = make([]float64, len(fit.Columns))
	for j, b := range fit.Columns {
		effects[j] = ShrinkEffect(b, c.Column, c.Residual, c.ColumnCounts[j])
	}
	return effects, true
}

// ShrinkEffect is effect between/(between + within/n), the best linear
// prediction of an effect seen as the mean of n values: 0 when between or n is
// not above 0 or a number is out of range, the effect itself when within is 0.
// [derived: lme4, lmer].
func ShrinkEffect(effect, between, within float64, n int) float64 {
	if !(between > 0) || n < 1 || !(within >= 0) || checkValues([]float64{effect, between, within}) != nil {
		return 0
	}
	return effect / (1 + within/between/float64(n))
}

// WeightedMeanNoise is the standard deviation that the columns alone give to a
// weighted mean over rows of the means over a set of columns: of each row's
// value residualSD/sqrt(columns) by chance, and columnSD/sqrt(columns) from the
// levels of the columns, which no number of rows averages out.
//
//	sqrt( residualSD^2 sum w^2/(C (sum w)^2) + columnSD^2/C )
//
// ok is false for no weights, weights not above 0, fewer than one column, or
// standard deviations below 0 or out of range. [derived].
func WeightedMeanNoise(weights []float64, columns int, residualSD, columnSD float64) (sd float64, ok bool) {
	if len(weights) == 0 || columns < 1 || checkPositive(weights) != nil ||
		!(residualSD >= 0 && columnSD >= 0) || checkValues([]float64{residualSD, columnSD}) != nil {
		return 0, false
	}
	effective := effectiveSize(weights)
	return math.Sqrt((residualSD*residualSD/effective + columnSD*columnSD) / float64(columns)), true
}

// effectiveSize is (sum w)^2/sum w^2, the number of equal weights that would
// average as well.
func effectiveSize(weights []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	return sum * sum / squares
}
