package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// penicillin has the sufficient statistics of lme4's Penicillin data (24 plates
// by 6 samples, balanced), not its values: column means 158, -73, 140, -7, -1 and
// -217 seventy-seconds from the grand mean, and rows and residuals made to have
// the mean squares [derived: lme4, Penicillin].
func penicillin() Table {
	const rowMS, residualMS = 4.603865, 0.302415
	columns := []float64{158, -73, 140, -7, -1, -217}
	rows, rowSquares := make([]float64, 24), 0.0
	for r := range rows {
		rows[r] = float64(r) - 11.5
		rowSquares += rows[r] * rows[r]
	}
	// A product of contrasts is free of row and column effects.
	inRows := func(r int) float64 { return float64(1 - 2*(r%2)) }
	inColumns := []float64{1, 1, -2, 2, -1, -1}
	pattern := 24.0 * (1 + 1 + 4 + 4 + 1 + 1)
	t := Table{Rows: 24, Columns: 6}
	for r := range 24 {
		for c := range 6 {
			v := 23 + columns[c]/72 +
				rows[r]*math.Sqrt(rowMS*23/6/rowSquares) +
				inRows(r)*inColumns[c]*math.Sqrt(residualMS*23*5/pattern)
			t.Cells = append(t.Cells, Cell{r, c, v})
		}
	}
	return t
}

// [derived: lme4, Penicillin] and by the closed form, which agree.
func TestVarianceComponents(t *testing.T) {
	table := penicillin()
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	c, err := VarianceComponents(table, f)
	require.NoError(t, err)
	checks := []check{
		{"row mean square", 4.603865, c.RowMS, 5e-7},
		{"column mean square", 89.844444, c.ColumnMS, 5e-7},
		{"residual mean square", 0.302415, c.ResidualMS, 5e-7},
		{"row component", 0.7169082, c.Row, 5e-7},
		{"column component", 3.7309179, c.Column, 5e-7},
		{"residual component", 0.3024155, c.Residual, 1e-6},
		{"REML SD of rows", 0.8467, math.Sqrt(c.Row), 5e-5},
		{"REML SD of columns", 1.9316, math.Sqrt(c.Column), 6e-5},
		{"REML SD of residuals", 0.5499, math.Sqrt(c.Residual), 5e-5},
	}
	shrunken, ok := c.ShrinkColumns(f)
	require.True(t, ok)
	for j, want := range []float64{2.187058, -1.010476, 1.937900, -0.096895, -0.013842, -3.003745} {
		checks = append(checks, check{"BLUP of a sample", want, shrunken[j], 1e-6})
	}
	runChecks(t, checks)
}

// A weighted mean over rows: [derived], given in words as 2.0 (0.9 from scatter
// alone), 2.6 and 1.4 on a scale ten times as wide.
func TestWeightedMeanNoise(t *testing.T) {
	equal := func(n int) []float64 {
		w := make([]float64, n)
		for i := range w {
			w[i] = 7
		}
		return w
	}
	for _, c := range []struct {
		rows, columns          int
		residual, column, want float64
	}{
		{12, 5, .7, .4, 2.0}, {12, 5, .7, 0, .9}, {10, 3, .7, .4, 2.6}, {12, 10, .7, .4, 1.4},
	} {
		sd, ok := WeightedMeanNoise(equal(c.rows), c.columns, c.residual, c.column)
		require.True(t, ok)
		assert.InDelta(t, c.want, 10*sd, .05, "%+v", c)
	}
	unequal, ok := WeightedMeanNoise([]float64{1, 3}, 2, 1, 0)
	require.True(t, ok)
	assert.InDelta(t, math.Sqrt(10.0/16/2), unequal, 1e-15)
	for _, w := range [][]float64{nil, {0}, {math.NaN()}} {
		_, ok := WeightedMeanNoise(w, 2, 1, 1)
		assert.False(t, ok)
	}
	_, ok = WeightedMeanNoise([]float64{1}, 0, 1, 1)
	assert.False(t, ok)
	_, ok = WeightedMeanNoise([]float64{1}, 1, -1, 1)
	assert.False(t, ok)
}

func TestVarianceComponentsEdges(t *testing.T) {
	// Columns differ less than chance gives: none found, and all is shrunk to 0.
	table := fullTable([][]float64{{1, 3}, {4, 2}, {5, 7}, {8, 6}})
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	c, err := VarianceComponents(table, f)
	require.NoError(t, err)
	assert.Zero(t, c.Column)
	shrunken, ok := c.ShrinkColumns(f)
	require.True(t, ok)
	assert.Equal(t, []float64{0, 0}, shrunken)
	_, err = VarianceComponents(penicillin(), f)
	assert.ErrorIs(t, err, ErrShape)
	_, ok = c.ShrinkColumns(TwoWay{})
	assert.False(t, ok)
	assert.Equal(t, 3.0, ShrinkEffect(3, 1, 0, 1))
	assert.Zero(t, ShrinkEffect(3, 1, 1, 0))
	assert.Zero(t, ShrinkEffect(3, 0, 0, 5))
}

// Means over many simulated tables with gaps must be near the truth: fitting
// constants is unbiased.
func TestVarianceComponentsUnbiased(t *testing.T) {
	random := newRandom()
	const tables = 400
	row, column, residual := 0.0, 0.0, 0.0
	for range tables {
		rows, columns := make([]float64, 10), make([]float64, 5)
		for r := range rows {
			rows[r] = 2 * random.NormFloat64()
		}
		for c := range columns {
			columns[c] = 1.5 * random.NormFloat64()
		}
		table := Table{Rows: 10, Columns: 5}
		for r := range rows {
			for c := range columns {
				if (r+2*c)%4 != 0 {
					table.Cells = append(table.Cells, Cell{r, c, rows[r] + columns[c] + random.NormFloat64()})
				}
			}
		}
		f, err := FitTwoWay(table)
		require.NoError(t, err)
		k, err := VarianceComponents(table, f)
		require.NoError(t, err)
		row += k.Row / tables
		column += k.Column / tables
		residual += k.Residual / tables
	}
	assert.InDelta(t, 4, row, .4)
	assert.InDelta(t, 2.25, column, .35)
	assert.InDelta(t, 1, residual, .05)
}

func TestShrinkEffectProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		effect := rapid.Float64Range(-10, 10).Draw(rt, "effect")
		between := rapid.Float64Range(0, 10).Draw(rt, "between")
		within := rapid.Float64Range(0, 10).Draw(rt, "within")
		n := rapid.IntRange(1, 50).Draw(rt, "n")
		s := ShrinkEffect(effect, between, within, n)
		assert.LessOrEqual(rt, math.Abs(s), math.Abs(effect))
		assert.GreaterOrEqual(rt, s*effect, 0.0)
		assert.GreaterOrEqual(rt, math.Abs(ShrinkEffect(effect, between, within, n+1))+1e-15, math.Abs(s))
	})
}
