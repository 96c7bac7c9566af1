//go:build differential

package stats_test

import (
	"slices"

	"github.com/stretchr/testify/require"

	"boxbook/season/stats"
)

// Each of these draws one data set and asks the package about it.

// drawMannKendall draws one stratum with ties, two of them, or a longer one
// without ties.
func drawMannKendall(d *differential) (data, says []numbers) {
	var y, stratum []float64
	switch d.IntN(3) {
	case 0:
		y = d.halves(4+d.IntN(4), 0, 5)
	case 1:
		y = d.halves(4+d.IntN(7), 0, 7)
		for i := range y {
			stratum = append(stratum, float64(2*i/len(y)))
		}
	default:
		y = d.normals(4+d.IntN(37), 65, 4)
	}
	if stratum == nil {
		stratum = make([]float64, len(y))
	}
	strata := make([][]float64, 2)
	for i, v := range y {
		strata[int(stratum[i])] = append(strata[int(stratum[i])], v)
	}
	r, err := stats.MannKendall(strata...)
	require.NoError(d.t, err)
	require.True(d.t, r.Exact)
	return []numbers{many("y", y...), many("stratum", stratum...)}, []numbers{
		count("s", r.S), one("variance", r.VarS), one("upper", r.Upper), one("lower", r.Lower),
		one("p", r.P), one("smallest", r.Smallest), one("tau", r.Tau),
	}
}

// drawTheilSen draws days without ties.
func drawTheilSen(d *differential) (data, says []numbers) {
	n := 4 + d.IntN(9)
	var x []float64
	for _, day := range d.Perm(200)[:n] {
		x = append(x, float64(day))
	}
	slices.Sort(x)
	y, confidence := d.normals(n, 65, 4), d.oneOf(.8, .9, .95)
	r, err := stats.TheilSen(confidence, stats.Series{X: x, Y: y})
	require.NoError(d.t, err)
	return []numbers{many("x", x...), many("y", y...), one("confidence", confidence)}, []numbers{
		one("slope", r.Slope), one("low", r.Interval.Low), one("high", r.Interval.High), one("achieved", r.Confidence),
	}
}

func drawFisher(d *differential) (data, says []numbers) {
	cells := []int{d.IntN(12), d.IntN(12), d.IntN(12), 1 + d.IntN(30)}
	r, err := stats.Fisher(cells[0], cells[1], cells[2], cells[3])
	require.NoError(d.t, err)
	return []numbers{count("cells", cells...)}, []numbers{one("less", r.Less), one("greater", r.Greater), one("two-sided", r.TwoSided)}
}

// drawFisherWithin draws tables with no margin of 0, as R asks for.
func drawFisherWithin(d *differential) (data, says []numbers) {
	var tables [][4]int
	var cells []int
	for range 2 + d.IntN(3) {
		t := [4]int{1 + d.IntN(8), d.IntN(12), d.IntN(12), 1 + d.IntN(12)}
		tables, cells = append(tables, t), append(cells, t[:]...)
	}
	less, err := stats.FisherWithin(tables...)
	require.NoError(d.t, err)
	return []numbers{count("cells", cells...)}, []numbers{one("less", less)}
}

func drawProportion(d *differential) (data, says []numbers) {
	n := 1 + d.IntN(60)
	k, confidence := d.IntN(n+1), d.oneOf(.8, .9, .95, .99)
	wilson, err := stats.Wilson(k, n, confidence)
	require.NoError(d.t, err)
	exact, err := stats.ClopperPearson(k, n, confidence)
	require.NoError(d.t, err)
	return []numbers{count("counts", k, n), one("confidence", confidence)}, []numbers{
		many("wilson", wilson.Low, wilson.High), many("exact", exact.Low, exact.High),
	}
}

func drawRates(d *differential) (data, says []numbers) {
	x1, x2 := d.IntN(20), 1+d.IntN(20)
	t1, t2, confidence := float64(10+d.IntN(200)), float64(10+d.IntN(200)), d.oneOf(.8, .9, .95)
	r, err := stats.CompareRates(x1, t1, x2, t2, confidence)
	require.NoError(d.t, err)
	return []numbers{count("counts", x1, x2), many("exposures", t1, t2), one("confidence", confidence)}, []numbers{
		one("ratio", r.Ratio), many("interval", r.Interval.Low, r.Interval.High),
		one("less", r.Less), one("greater", r.Greater), one("two-sided", r.TwoSided),
	}
}

// drawTwoWay draws a panel's grades with up to two gaps. A row of one cell is no test
// of it, and has 0 there.
func drawTwoWay(d *differential) (data, says []numbers) {
	rows, columns := 4+d.IntN(9), 3+d.IntN(4)
	gaps := d.Perm(rows * columns)[:d.IntN(3)]
	table := stats.Table{Rows: rows, Columns: columns}
	var row, column, value []float64
	for i, v := range d.halves(rows*columns, 8, 18) {
		if !slices.Contains(gaps, i) {
			table.Cells = append(table.Cells, stats.Cell{Row: i / columns, Column: i % columns, Value: v})
			row, column, value = append(row, float64(i/columns)), append(column, float64(i%columns)), append(value, v)
		}
	}
	f, err := stats.FitTwoWay(table)
	require.NoError(d.t, err)
	var fitted, leverage, t []float64
	for _, c := range f.Cells {
		fitted, leverage, t = append(fitted, c.Fitted), append(leverage, c.Leverage), append(t, c.T)
	}
	return []numbers{many("row", row...), many("column", column...), many("value", value...)}, []numbers{
		one("mean", f.Mean), many("columns", f.Columns...), many("errors", f.ColumnSE...), one("sigma", f.Sigma),
		many("fitted", fitted...), many("leverage", leverage...), many("studentised", t...),
	}
}

// drawShift draws values before and after in up to three strata, each of which has
// both.
func drawShift(d *differential) (data, says []numbers) {
	s := stats.Shifts{}
	var y, after, stratum []float64
	for h := range 1 + d.IntN(3) {
		for side := range 2 {
			for _, v := range d.normals(2+d.IntN(3), float64(2*h+side), 3) {
				l := stats.Levels{Values: []float64{v}, Has: []bool{true}, Stratum: h, Cluster: len(y)}
				if side == 0 {
					s.Before = append(s.Before, l)
				} else {
					s.After = append(s.After, l)
				}
				y, after, stratum = append(y, v), append(after, float64(side)), append(stratum, float64(h))
			}
		}
	}
	r, err := stats.ShiftOfGroup(s)
	require.NoError(d.t, err)
	require.Equal(d.t, 1.0, r.Effect)
	i, err := r.Interval(.9)
	require.NoError(d.t, err)
	return []numbers{many("y", y...), many("after", after...), many("stratum", stratum...)}, []numbers{
		one("change", r.Change), one("t", r.T), one("error", r.SE), count("df", r.DF), many("interval", i.Low, i.High),
	}
}
