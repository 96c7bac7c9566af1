package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// [published: nist-strd, Norris].
func TestLeastSquaresNorris(t *testing.T) {
	var norris xy
	reference(t, "norris", &norris)
	f, err := Line(norris.X, norris.Y, nil)
	require.NoError(t, err)
	se := standardErrors(f)
	runChecks(t, []check{
		{"b0", -0.262323073774029, f.Coef[0], 1e-12},
		{"se0", 0.232818234301152, se[0], 1e-12},
		{"b1", 1.00211681802045, f.Coef[1], 1e-12},
		{"se1", 0.429796848199937e-03, se[1], 1e-12},
		{"s", 0.884796396144373, f.Sigma, 1e-12},
	})
}

// [published: nist-strd, NoInt1, NoInt2]: lines through the origin.
func TestLeastSquaresNoIntercept(t *testing.T) {
	var x1 [][]float64
	var y1 []float64
	for i := range 11 {
		x1 = append(x1, []float64{float64(60 + i)})
		y1 = append(y1, float64(130+i))
	}
	one, err := LeastSquares(x1, y1, nil)
	require.NoError(t, err)
	two, err := LeastSquares([][]float64{{4}, {5}, {6}}, []float64{3, 4, 4}, nil)
	require.NoError(t, err)
	runChecks(t, []check{
		{"NoInt1 b1", 2.07438016528926, one.Coef[0], 1e-13},
		{"NoInt1 se1", 0.165289256198347e-01, standardErrors(one)[0], 1e-14},
		{"NoInt1 s", 3.56753034006338, one.Sigma, 1e-13},
		{"NoInt2 b1", 0.727272727272727, two.Coef[0], 1e-14},
		{"NoInt2 se1", 0.420827318078432e-01, standardErrors(two)[0], 1e-14},
	})
}

// [published: nist-strd, Longley].
func TestLeastSquaresLongley(t *testing.T) {
	var longley struct {
		X [][]float64
		Y []float64
	}
	reference(t, "longley", &longley)
	f, err := LeastSquares(longley.X, longley.Y, nil)
	require.NoError(t, err)
	runChecks(t, []check{
		{"b0", -3482258.63459582, f.Coef[0], relative(3482258.63459582, 1e-9)},
		{"se0", 890420.383607373, standardErrors(f)[0], relative(890420.383607373, 1e-9)},
		{"b6", 1829.15146461355, f.Coef[6], relative(1829.15146461355, 1e-9)},
		{"RSS", 836424.055505915, f.RSS, relative(836424.055505915, 1e-9)},
	})
}

// [published: nist-strd, Wampler1, Wampler3].
func TestLeastSquaresWampler(t *testing.T) {
	var wampler struct {
		Wampler3 []float64 `json:"wampler3_y"`
	}
	reference(t, "wampler", &wampler)
	var x [][]float64
	var y1 []float64
	for i := range 21 {
		row, sum := make([]float64, 6), 0.0
		for p := range row {
			row[p] = math.Pow(float64(i), float64(p))
			sum += row[p]
		}
		x, y1 = append(x, row), append(y1, sum)
	}
	one, err := LeastSquares(x, y1, nil)
	require.NoError(t, err)
	three, err := LeastSquares(x, wampler.Wampler3, nil)
	require.NoError(t, err)
	for j := range 6 {
		assert.InDelta(t, 1, one.Coef[j], 1e-8, "Wampler1 b%d", j)
		assert.InDelta(t, 1, three.Coef[j], 1e-8, "Wampler3 b%d", j)
	}
	runChecks(t, []check{
		{"Wampler3 se0", 2152.32624678170, standardErrors(three)[0], relative(2152.32624678170, 1e-9)},
		{"Wampler3 se5", 0.112324854679312, standardErrors(three)[5], relative(0.112324854679312, 1e-9)},
	})
}

// The constructed demo: [derived: r, lm; statsmodels, WLS].
func TestLeastSquaresWeighted(t *testing.T) {
	var demo struct{ Day, Percent, Weight []float64 }
	reference(t, "weighted_demo", &demo)
	for _, scale := range []float64{1, 1e-6, 1.0 / 41, 1e6} {
		w := make([]float64, len(demo.Weight))
		for i, v := range demo.Weight {
			w[i] = v * scale
		}
		f, err := Line(demo.Day, demo.Percent, w)
		require.NoError(t, err)
		slope := coefInterval(f, 1, .95)
		next, err := f.Predict([]float64{1, 180}, 5*scale, .95)
		require.NoError(t, err)
		runChecks(t, []check{
			{"b0", 62.2591921546, f.Coef[0], 5e-11},
			{"b1", 0.0581062035, f.Coef[1], 5e-11},
			{"slope low", 0.0272876, slope.Low, 5e-8},
			{"slope high", 0.0889248, slope.High, 5e-8},
			{"day 180", 72.718309, next.Value, 5e-7},
			{"day 180 low", 66.899018, next.Interval.Low, 5e-7},
			{"day 180 high", 78.5376, next.Interval.High, 5e-5},
		})
	}
}

// Weights are scaled to mean 1: equal ones change nothing, whatever their size.
func TestLeastSquaresScale(t *testing.T) {
	x, y := []float64{0, 1, 2, 5}, []float64{1, 3, 2, 6}
	plain, err := Line(x, y, nil)
	require.NoError(t, err)
	for _, w := range []float64{1, 7, 1e-9} {
		f, err := Line(x, y, []float64{w, w, w, w})
		require.NoError(t, err)
		assert.InDelta(t, plain.RSS, f.RSS, 1e-12)
		assert.InDelta(t, plain.Sigma, f.Sigma, 1e-12)
		assert.InDelta(t, standardErrors(plain)[1], standardErrors(f)[1], 1e-12)
	}
}

func TestLeastSquaresEdges(t *testing.T) {
	_, err := Line([]float64{1, 2}, []float64{1, 2}, nil)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = Line(nil, nil, nil)
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = Line([]float64{45000, 45000, 45000}, []float64{1, 2, 3}, nil)
	assert.ErrorIs(t, err, ErrSingular, "all on one day")
	_, err = Line([]float64{1, 2, 3}, []float64{1, 2}, nil)
	assert.ErrorIs(t, err, ErrShape)
	_, err = Line([]float64{1, 2, 3}, []float64{1, 2, 3}, []float64{1, 1})
	assert.ErrorIs(t, err, ErrShape)
	_, err = Line([]float64{1, 2, 3}, []float64{1, 2, 3}, []float64{1, 0, 1})
	assert.ErrorIs(t, err, ErrRange)
	_, err = Line([]float64{1, 2, 3}, []float64{1, 2, math.NaN()}, nil)
	assert.ErrorIs(t, err, ErrRange)
	_, err = LeastSquares([][]float64{{}, {}}, []float64{1, 2}, nil)
	assert.ErrorIs(t, err, ErrShape)
	_, err = LeastSquares([][]float64{{1, 0}, {1, 0}, {1, 0}}, []float64{1, 2, 3}, nil)
	assert.ErrorIs(t, err, ErrSingular)
	_, err = LeastSquares([][]float64{{1, 2}, {1}, {1, 0}}, []float64{1, 2, 3}, nil)
	assert.ErrorIs(t, err, ErrShape)

	exact, err := Line([]float64{0, 1, 2, 3}, []float64{5, 5, 5, 5}, nil)
	require.NoError(t, err)
	assert.InDelta(t, 0, exact.Coef[1], 1e-14)
	assert.InDelta(t, 0, exact.Sigma, 1e-14)
	_, err = exact.Predict([]float64{1}, 1, .9)
	assert.ErrorIs(t, err, ErrShape)
	_, err = exact.Predict([]float64{1, 2}, 0, .9)
	assert.ErrorIs(t, err, ErrRange)
	_, err = exact.Predict([]float64{1, 2}, 1, 0)
	assert.ErrorIs(t, err, ErrRange)
	_, err = exact.Predict([]float64{1, 2}, 1, 1)
	assert.ErrorIs(t, err, ErrRange)
}

func TestLeastSquaresProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		n := rapid.IntRange(4, 15).Draw(rt, "n")
		var x, y, w []float64
		for i := range n {
			x = append(x, float64(i)+rapid.Float64Range(0, .9).Draw(rt, "x"))
			y = append(y, rapid.Float64Range(-100, 100).Draw(rt, "y"))
			w = append(w, rapid.Float64Range(.1, 10).Draw(rt, "w"))
		}
		f, err := Line(x, y, w)
		require.NoError(rt, err)
		total, alongX, leverage := 0.0, 0.0, 0.0
		rows := onLine(x)
		h := leverages(f, rows, w)
		for i, e := range residuals(f, rows, y) {
			total += w[i] * e
			alongX += w[i] * e * x[i]
			leverage += h[i]
			assert.True(rt, h[i] > 0 && h[i] < 1+1e-12)
		}
		assert.InDelta(rt, 0, total, 1e-9)
		assert.InDelta(rt, 0, alongX, 1e-8)
		assert.InDelta(rt, 2, leverage, 1e-10, "leverages add up to the number of columns")
		p, err := f.Predict([]float64{1, 3}, 1, .9)
		require.NoError(rt, err)
		assert.True(rt, p.Interval.Contains(p.Value))
		// Doubling a weight is seeing the observation twice, but for the degrees of
		// freedom, which count observations.
		twice, err := Line(append(x, x[0]), append(y, y[0]), append(w, w[0]))
		require.NoError(rt, err)
		w[0] *= 2
		doubled, err := Line(x, y, w)
		require.NoError(rt, err)
		assert.InDelta(rt, twice.Coef[1], doubled.Coef[1], 1e-9)
		assert.Equal(rt, twice.DF-1, doubled.DF)
	})
}
