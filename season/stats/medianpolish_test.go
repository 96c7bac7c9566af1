package stats

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// Tukey's deaths [derived: r, medpolish], the example of its help.
func TestMedianPolishDeaths(t *testing.T) {
	p, err := MedianPolish(fullTable([][]float64{{14, 15, 14}, {7, 4, 7}, {8, 2, 10}, {15, 9, 10}, {0, 2, 0}}))
	require.NoError(t, err)
	assert.Equal(t, 8.0, p.Overall)
	assert.Equal(t, []float64{6, -1, 0, 2, -8}, p.Rows)
	assert.Equal(t, []float64{0, -1, 0}, p.Columns)
	assert.True(t, p.Converged)
}

// The table with three gaps and a wild 4.0 [derived: r, medpolish] with na.rm=TRUE.
func TestMedianPolishGaps(t *testing.T) {
	table := twoWayTable(t)
	p, err := MedianPolish(table)
	require.NoError(t, err)
	assert.Equal(t, 7.25, p.Overall)
	assert.Equal(t, []float64{0, -.5, .5, -.5, 0}, p.Columns)

	// The wild value drags its column from +0.5 here to +0.20 in least squares.
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	assert.InDelta(t, .20, f.Columns[2], .005)

	wild := p.WildCells(2, 3.5, .5)
	require.Len(t, wild, 1)
	assert.Equal(t, 4.0, table.Cells[wild[0]].Value)
	assert.Empty(t, p.WildCells(4, 3.5, .5))
	assert.Empty(t, p.WildCells(2, 3.5, 5), "a high floor hides it")
}

// Two wild values in one row hide each other from least squares.
func TestMedianPolishTwoWild(t *testing.T) {
	var rows [][]float64
	for r := range 8 {
		base := 5 + float64(r*3%4)/2
		rows = append(rows, []float64{base, base + .5, base - .5, base, base + .5})
	}
	rows[3][0] -= 3.5
	rows[3][1] += 3.5
	p, err := MedianPolish(fullTable(rows))
	require.NoError(t, err)
	assert.Equal(t, []int{15, 16}, p.WildCells(2, 3.5, .5))
}

func TestMedianPolishEdges(t *testing.T) {
	_, err := MedianPolish(Table{})
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = MedianPolish(Table{2, 1, []Cell{{0, 0, 1}}})
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = MedianPolish(Table{1, 1, []Cell{{0, 0, 1}, {0, 0, 2}}})
	assert.ErrorIs(t, err, ErrShape)
	one, err := MedianPolish(Table{1, 1, []Cell{{0, 0, 3}}})
	require.NoError(t, err)
	assert.Equal(t, 3.0, one.Overall)
	assert.Empty(t, one.WildCells(0, 0, 0), "too small a table")
}

func TestMedianPolishProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		table := drawTable(rt)
		p, err := MedianPolish(table)
		if err != nil {
			return
		}
		for i, c := range table.Cells {
			sum := p.Overall + p.Rows[c.Row] + p.Columns[c.Column] + p.Residuals[i]
			assert.InDelta(rt, c.Value, sum, 1e-12, "parts add up to the value")
		}
		assert.LessOrEqual(rt, p.Sweeps, polishSweeps)
		rowMedian, _ := Median(p.Rows)
		assert.InDelta(rt, 0, rowMedian, 1e-12)
	})
}
