package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The 6 by 5 table with three gaps and a wild 4.0: constructed; effects and
// deleted residuals [derived: r, lm; r, rstudent] with contr.sum.
func TestTwoWay(t *testing.T) {
	table := twoWayTable(t)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	checks := []check{
		{"mu", 6.9674242, f.Mean, 5e-8},
		{"sigma", 0.70537238, f.Sigma, 5e-9},
		{"df", 17, float64(f.DF), 0},
	}
	for c, want := range []float64{0.28257576, -0.24832536, 0.19924242, -0.48516746, 0.25167464} {
		checks = append(checks, check{"column", want, f.Columns[c], 5e-9})
	}
	for r, want := range []float64{0.33257576, -0.58871611, 0.93257576, -0.86742424, -1.4045056, 1.5954944} {
		checks = append(checks, check{"row", want, f.Rows[r], 5e-8})
	}
	runChecks(t, checks)

	found, err := f.Outliers(table, .05, 2)
	require.NoError(t, err)
	require.Len(t, found, 1)
	next := 0.0
	for i, c := range f.Cells {
		require.True(t, c.Tested)
		if i != found[0].Cell {
			next = math.Max(next, math.Abs(c.T))
		}
	}
	runChecks(t, []check{
		{"value", 4, found[0].Value, 0},
		{"deleted studentised residual", -16.4142804, found[0].T, 5e-8},
		{"Bonferroni p", 5.303306e-10, found[0].Bonferroni, 5e-16},
		{"next largest", 1.3613722, next, 5e-8},
		// In words: the rest of the table says about 7.5.
		{"without", 7.5, found[0].Without, .05},
	})
	none, err := f.Outliers(table, .05, 4)
	require.NoError(t, err)
	assert.Empty(t, none, "a gap of 3.5 is below 4")
}

// Leaving the wild value out, as its flag asks, must give the fit that the
// deleted residual was computed from.
func TestTwoWayWithout(t *testing.T) {
	table := twoWayTable(t)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	for i, left := range table.Cells {
		rest := table
		rest.Cells = append(append([]Cell{}, table.Cells[:i]...), table.Cells[i+1:]...)
		g, err := FitTwoWay(rest)
		require.NoError(t, err)
		at, ok := g.At(left.Row, left.Column)
		require.True(t, ok)
		assert.InDelta(t, at, f.Cells[i].Without, 1e-10)
		room := 1 - f.Cells[i].Leverage
		assert.InDelta(t, (left.Value-at)*math.Sqrt(room)/g.Sigma, f.Cells[i].T, 1e-8)
		assert.InDelta(t, f.Cells[i].Residual/(left.Value-at), room, 1e-8)
	}
}

// One missing cell: Shrout and Fleiss 1979 with one value left out, by
// Yates's formula [derived: r, lm].
func TestTwoWayYates(t *testing.T) {
	rows := [][]float64{{9, 2, 5, 8}, {6, 1, 0, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}}
	table := fullTable(rows)
	table.Cells = append(table.Cells[:6], table.Cells[7:]...)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	got, ok := f.At(1, 2)
	require.True(t, ok)
	assert.InDelta(t, 1.46666667, got, 5e-9)
	r, c := 6.0, 4.0
	rowTotal, columnTotal, total := 6.0+1+2, 5.0+6+2+6+4, 0.0
	for _, cell := range table.Cells {
		total += cell.Value
	}
	assert.InDelta(t, (r*rowTotal+c*columnTotal-total)/((r-1)*(c-1)), got, 1e-12)
}

// Grubbs [published: nist-handbook, 1.3.5.17.1] [derived: r, pt, qt].
func TestGrubbs(t *testing.T) {
	x := []float64{199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57}
	index, g := grubbs(x)
	runChecks(t, []check{
		{"G", 2.468765, g, 5e-7},
		{"index", 7, float64(index), 0},
		{"one-sided", 2.031652, grubbsCritical(8, .05, false), 5e-7},
		{"two-sided", 2.126645, grubbsCritical(8, .05, true), 5e-7},
	})
	// Three values: G cannot exceed 2/sqrt 3, and comes close for small alpha.
	three := grubbsCritical(3, .001, true)
	assert.InDelta(t, 2/math.Sqrt(3), three, 1e-5)
	assert.Less(t, three, 2/math.Sqrt(3))
}

func TestTwoWayEdges(t *testing.T) {
	additive := fullTable([][]float64{{1, 2, 4}, {2, 3, 5}, {4, 5, 7}, {3, 4, 6}})
	f, err := FitTwoWay(additive)
	require.NoError(t, err)
	assert.Zero(t, f.Sigma)
	found, err := f.Outliers(additive, .05, 0)
	require.NoError(t, err)
	assert.Empty(t, found, "nothing stands out where everything fits")

	// One wild value in a table that fits exactly otherwise: found, and finite.
	additive.Cells[4].Value += 3
	f, err = FitTwoWay(additive)
	require.NoError(t, err)
	found, err = f.Outliers(additive, .05, 2)
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, 4, found[0].Cell)
	assert.Equal(t, largestT, found[0].T)
	assert.InDelta(t, 3, found[0].Without, 1e-9)

	// Two columns: residuals are mirror images, so nothing is flagged.
	pair := fullTable([][]float64{{1, 2}, {2, 3}, {4, 9}, {3, 4}, {5, 6}})
	f, err = FitTwoWay(pair)
	require.NoError(t, err)
	for i := 0; i < len(f.Cells); i += 2 {
		assert.InDelta(t, -f.Cells[i].Residual, f.Cells[i+1].Residual, 1e-12)
	}
	found, err = f.Outliers(pair, .05, 2)
	require.NoError(t, err)
	assert.Empty(t, found)
	_, err = f.Outliers(additive, .05, 2)
	assert.ErrorIs(t, err, ErrShape)

	for name, c := range map[string]struct {
		table Table
		want  error
	}{
		"one column":   {fullTable([][]float64{{1}, {2}, {3}}), ErrTooFew},
		"empty":        {Table{}, ErrTooFew},
		"saturated":    {Table{2, 2, []Cell{{0, 0, 1}, {0, 1, 2}, {1, 0, 3}}}, ErrTooFew},
		"apart":        {Table{2, 2, []Cell{{0, 0, 1}, {1, 1, 2}}}, ErrDisconnected},
		"empty row":    {Table{3, 2, []Cell{{0, 0, 1}, {0, 1, 2}, {1, 0, 3}, {1, 1, 5}}}, ErrDisconnected},
		"outside":      {Table{2, 2, []Cell{{2, 0, 1}}}, ErrShape},
		"twice":        {Table{2, 2, []Cell{{0, 0, 1}, {0, 0, 1}}}, ErrShape},
		"negative":     {Table{-1, 2, nil}, ErrShape},
		"enormous":     {Table{1 << 30, 2, nil}, ErrRange},
		"not a number": {Table{2, 2, []Cell{{0, 0, math.NaN()}}}, ErrRange},
	} {
		_, err := FitTwoWay(c.table)
		assert.ErrorIs(t, err, c.want, name)
	}
	_, ok := f.At(5, 0)
	assert.False(t, ok)
}

// A cell alone in its row takes the row with it: leverage 1, and nothing can be
// said of it.
func TestTwoWayAlone(t *testing.T) {
	table := fullTable([][]float64{{1, 2, 4}, {2, 3, 6}, {4, 5, 7}})
	table.Rows++
	table.Cells = append(table.Cells, Cell{3, 1, 9})
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	last := f.Cells[9]
	assert.InDelta(t, 1, last.Leverage, 1e-12)
	assert.InDelta(t, 0, last.Residual, 1e-12)
	assert.False(t, last.Tested)
}

// Leaving a cell out takes a degree of freedom: with two there is one left to
// test on, with one there is none.
func TestTwoWayFewDegrees(t *testing.T) {
	two, err := FitTwoWay(fullTable([][]float64{{1, 2}, {2, 5}, {4, 4}}))
	require.NoError(t, err)
	assert.Equal(t, 2, two.DF)
	assert.True(t, two.Cells[0].Tested)
	one, err := FitTwoWay(fullTable([][]float64{{1, 2}, {2, 5}}))
	require.NoError(t, err)
	assert.Equal(t, 1, one.DF)
	assert.Greater(t, one.Sigma, 0.0)
	assert.False(t, one.Cells[0].Tested)
}

// Three columns of 12 rows: h about (R + C - 1)/(R C) = 0.39, and a lone wild
// value is still found through its deleted residual. [derived].
func TestTwoWayThreeColumns(t *testing.T) {
	var rows [][]float64
	for r := range 12 {
		base := 6 + float64(r*r%5)/2
		rows = append(rows, []float64{base, base + .5*float64(r%2), base - .5*float64(r%3)})
	}
	rows[5][1] -= 4
	table := fullTable(rows)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	assert.InDelta(t, 14.0/36, f.Cells[0].Leverage, 1e-12)
	found, err := f.Outliers(table, .05, 2)
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, 16, found[0].Cell)
}

func TestParts(t *testing.T) {
	table := Table{5, 5, []Cell{
		{0, 0, 1}, {0, 2, 2}, {1, 1, 3}, {1, 3, 4}, {2, 2, 5}, {2, 0, 6}, {3, 3, 7}, {3, 1, 9},
	}}
	parts, err := table.Parts()
	require.NoError(t, err)
	require.Len(t, parts, 2)
	assert.Equal(t, Part{
		Rows: []int{0, 2}, Columns: []int{0, 2}, CellIndex: []int{0, 1, 4, 5},
		Table: Table{2, 2, []Cell{{0, 0, 1}, {0, 1, 2}, {1, 1, 5}, {1, 0, 6}}},
	}, parts[0])
	assert.Equal(t, []int{1, 3}, parts[1].Rows)
	assert.Equal(t, []int{1, 3}, parts[1].Columns)
	for _, p := range parts {
		_, err := FitTwoWay(p.Table)
		assert.NoError(t, err)
	}
	// A chain of shared columns joins rows that share none.
	chain := Table{3, 4, []Cell{{0, 0, 1}, {0, 1, 1}, {1, 1, 1}, {1, 2, 1}, {2, 2, 1}, {2, 3, 1}}}
	parts, err = chain.Parts()
	require.NoError(t, err)
	assert.Len(t, parts, 1)
	none, err := Table{}.Parts()
	require.NoError(t, err)
	assert.Empty(t, none)
}

func TestColumnScatter(t *testing.T) {
	// Differences from the others of column 0: 0-2, 4-2, 2-2 and so on. [derived].
	s, err := ColumnScatter(fullTable([][]float64{{0, 2, 2}, {4, 2, 2}, {2, 2, 2}}), .9)
	require.NoError(t, err)
	runChecks(t, []check{
		{"N", 3, float64(s[0].N), 0},
		{"mean", 0, s[0].Mean, 1e-15},
		{"SD", 2, s[0].SD, 1e-15},
		{"others' SD", 1, s[1].SD, 1e-15},
		// chi-square on 2 degrees of freedom has the quantile -2 ln(1-p) [derived].
		{"low", 2 * math.Sqrt(2/(-2*math.Log(.05))), s[0].Interval.Low, 1e-9},
		{"high", 2 * math.Sqrt(2/(-2*math.Log(.95))), s[0].Interval.High, 1e-9},
	})
	gaps, err := ColumnScatter(Table{2, 3, []Cell{{0, 0, 5}, {1, 0, 6}, {1, 1, 8}}}, .9)
	require.NoError(t, err)
	assert.Equal(t, []Scatter{{N: 1, Mean: -2}, {N: 1, Mean: 2}, {}}, gaps)
	_, err = ColumnScatter(Table{}, 2)
	assert.ErrorIs(t, err, ErrRange)
	_, err = SDInterval(1, 0, .9)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = SDInterval(-1, 3, .9)
	assert.ErrorIs(t, err, ErrRange)
}

// drawTable is a table with gaps.
func drawTable(rt *rapid.T) Table {
	rows, columns := rapid.IntRange(3, 7).Draw(rt, "rows"), rapid.IntRange(2, 5).Draw(rt, "columns")
	t := Table{Rows: rows, Columns: columns}
	for r := range rows {
		for c := range columns {
			if rapid.IntRange(0, 4).Draw(rt, "gap") > 0 {
				t.Cells = append(t.Cells, Cell{r, c, float64(rapid.IntRange(0, 20).Draw(rt, "value")) / 2})
			}
		}
	}
	return t
}

// alternate is the slow way to the same fit: means in turn until nothing moves.
func alternate(t Table) (rows, columns []float64) {
	rows, columns = make([]float64, t.Rows), make([]float64, t.Columns)
	for range 20_000 {
		moved := 0.0
		step := func(effects, other []float64, lines [][]int, at func(Cell) int) {
			for k, cells := range lines {
				m := 0.0
				for _, i := range cells {
					m += (t.Cells[i].Value - other[at(t.Cells[i])]) / float64(len(cells))
				}
				moved = math.Max(moved, math.Abs(m-effects[k]))
				effects[k] = m
			}
		}
		step(rows, columns, t.byRow(), func(c Cell) int { return c.Column })
		step(columns, rows, t.byColumn(), func(c Cell) int { return c.Row })
		if moved < 1e-12 {
			break
		}
	}
	return rows, columns
}

func TestTwoWayProperties(t *testing.T) {
	drawn, fitted := 0, 0
	rapid.Check(t, func(rt *rapid.T) {
		table := drawTable(rt)
		drawn++
		f, err := FitTwoWay(table)
		if err != nil {
			return
		}
		fitted++
		// The regression on indicator columns, the last of each kind left out.
		var design [][]float64
		for _, c := range table.Cells {
			row := make([]float64, table.Rows+table.Columns-1)
			row[c.Row] = 1
			if c.Column < table.Columns-1 {
				row[table.Rows+c.Column] = 1
			}
			design = append(design, row)
		}
		g, err := LeastSquares(design, table.values(), nil)
		require.NoError(rt, err)
		assert.Equal(rt, g.DF, f.DF)
		assert.InDelta(rt, g.RSS, f.RSS, 1e-9)
		h, e := leverages(g, design, nil), residuals(g, design, table.values())
		for i, c := range f.Cells {
			assert.InDelta(rt, h[i], c.Leverage, 1e-9)
			assert.InDelta(rt, e[i], c.Residual, 1e-9)
		}
		rows, columns := alternate(table)
		for r := range rows {
			assert.InDelta(rt, rows[r]-mean(rows), f.Rows[r], 1e-8)
		}
		for c := range columns {
			assert.InDelta(rt, columns[c]-mean(columns), f.Columns[c], 1e-8)
		}
		if len(table.Cells) == table.Rows*table.Columns {
			r, c := float64(table.Rows), float64(table.Columns)
			assert.InDelta(rt, f.Sigma*math.Sqrt((1-1/c)/r), f.ColumnSE[0], 1e-10)
		}
	})
	assert.Greater(t, 2*fitted, drawn, "most drawn tables can be fitted")
}

// The standard error of a column with gaps, against the regression's covariance.
func TestColumnSE(t *testing.T) {
	table := twoWayTable(t)
	f, err := FitTwoWay(table)
	require.NoError(t, err)
	// Effects that add up to 0, coded as such: the last column is minus the rest.
	var design [][]float64
	for _, c := range table.Cells {
		row := make([]float64, table.Rows+table.Columns-1)
		row[c.Row] = 1
		for k := range table.Columns - 1 {
			if c.Column == table.Columns-1 {
				row[table.Rows+k] = -1
			}
		}
		if c.Column < table.Columns-1 {
			row[table.Rows+c.Column] = 1
		}
		design = append(design, row)
	}
	g, err := LeastSquares(design, table.values(), nil)
	require.NoError(t, err)
	se := standardErrors(g)
	for k := range table.Columns - 1 {
		assert.InDelta(t, g.Coef[table.Rows+k], f.Columns[k], 1e-12)
		assert.InDelta(t, se[table.Rows+k], f.ColumnSE[k], 1e-12)
	}
}
