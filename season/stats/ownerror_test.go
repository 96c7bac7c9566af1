package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Without gaps a column's own error is that of the t test of the column less the mean
// of the others, and its unevenness the ratio of two independent variances. [derived].
func TestOwnError(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 5))
	const rows, columns = 9, 4
	values := make([][]float64, rows)
	for r := range values {
		values[r] = make([]float64, columns)
		for c := range values[r] {
			values[r][c] = float64(r) + float64(1+c)*draw.NormFloat64()
		}
	}
	table := fullTable(values)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	scatter, err := ColumnScatter(table, .9)
	require.NoError(t, err)
	uneven := f.Uneven(table, 0)
	for c, own := range f.Own {
		share := float64(columns-1) / columns
		assert.InDelta(t, share*scatter[c].SD/math.Sqrt(rows), own.SE, 1e-12)
		assert.Equal(t, rows-1, own.DF)
		assert.InDelta(t, studentTwoSided(scatter[c].Mean*math.Sqrt(rows)/scatter[c].SD, rows-1), own.P(f.Columns[c]), 1e-12)

		others := make([][]float64, rows)
		for r := range values {
			others[r] = append(append([]float64{}, values[r][:c]...), values[r][c+1:]...)
		}
		g, err := FitTwoWay(fullTable(others))
		require.NoError(t, err)
		ratio := scatter[c].SD * scatter[c].SD * share / (g.Sigma * g.Sigma)
		assert.InDelta(t, upperF(ratio, rows-1, float64(g.DF)), uneven[c].P, 1e-12)
		assert.InDelta(t, math.Sqrt(max(0, (ratio*columns-1)/(columns-1))), uneven[c].Times, 1e-9)
	}
}

// With gaps the own error is right on average where all columns scatter alike, and where
// one scatters three times as much.
func TestOwnErrorWithGaps(t *testing.T) {
	for _, times := range []float64{1, 3} {
		squares, claimed := 0.0, 0.0
		const draws = 2000
		for seed := range draws {
			draw := rand.New(rand.NewPCG(uint64(seed), 11))
			table := Table{Rows: 24, Columns: 4}
			for r := range table.Rows {
				for c := range table.Columns {
					scatter := 1.0
					if c == 0 {
						scatter = times
					}
					if v := scatter * draw.NormFloat64(); r < 12 && c != 3 || r >= 12 && c != 1 {
						table.Cells = append(table.Cells, Cell{r, c, v})
					}
				}
			}
			f, err := FitTwoWay(table)
			require.NoError(t, err)
			squares += f.Columns[0] * f.Columns[0] / draws
			claimed += f.Own[0].SE * f.Own[0].SE / draws
		}
		assert.InDelta(t, 1, claimed/squares, .1, "%g times", times)
	}
}

// What tells nothing has no verdict.
func TestOwnErrorEdges(t *testing.T) {
	assert.Equal(t, 1.0, OwnError{SE: 1}.P(5))
	assert.Equal(t, 1.0, OwnError{DF: 3}.P(0))
	assert.Equal(t, 0.0, OwnError{DF: 3}.P(1))
	table := fullTable([][]float64{{1, 2}, {2, 1}, {3, 3}, {5, 4}})
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	for _, u := range f.Uneven(table, .1) {
		assert.Equal(t, 1.0, u.P, "of two columns nobody can say which one is off")
	}
}
