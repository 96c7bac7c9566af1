package stats

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// These tests hold what gonum v0.17.0 does where this package must do otherwise.
// When one fails after an upgrade, gonum has changed and the reason for own code
// may be gone. All derived by running it.

// Trap: Kendall takes ties for concordant.
func TestGonumKendall(t *testing.T) {
	assert.Equal(t, 1.0, stat.Kendall([]float64{1, 2, 3}, []float64{5, 5, 5}, nil))
	r, err := MannKendall([]float64{5, 5, 5})
	require.NoError(t, err)
	assert.Zero(t, r.Tau)
}

// Trap: Quantile is no median.
func TestGonumQuantile(t *testing.T) {
	x := []float64{1, 2, 3, 4}
	assert.Equal(t, 2.0, stat.Quantile(.5, stat.Empirical, x, nil))
	assert.Equal(t, 2.0, stat.Quantile(.5, stat.LinInterp, x, nil))
	m, ok := Median(x)
	require.True(t, ok)
	assert.Equal(t, 2.5, m)
}

// Trap: weights are frequencies.
func TestGonumWeightsAreFrequencies(t *testing.T) {
	x, once, twice := []float64{1, 2, 4}, []float64{1, 1, 1}, []float64{2, 2, 2}
	assert.NotEqual(t, stat.Variance(x, once), stat.Variance(x, twice))
	a, err := Line([]float64{0, 1, 3}, x, once)
	require.NoError(t, err)
	b, err := Line([]float64{0, 1, 3}, x, twice)
	require.NoError(t, err)
	assert.InDelta(t, standardErrors(a)[1], standardErrors(b)[1], 1e-15, "only the ratios of weights matter")
}

// Trap: weights that add up to 1.
func TestGonumWeightsAddingTo1(t *testing.T) {
	x, y, w := []float64{0, 1, 2, 3}, []float64{1, 2, 2, 4}, []float64{.25, .25, .25, .25}
	alpha, beta := stat.LinearRegression(x, y, w, false)
	assert.True(t, math.IsNaN(alpha) || math.IsNaN(beta) || math.IsInf(beta, 0))
	f, err := Line(x, y, w)
	require.NoError(t, err)
	assert.InDelta(t, .9, f.Coef[1], 1e-14)
}

// Trap: all x equal.
func TestGonumAllXEqual(t *testing.T) {
	_, beta := stat.LinearRegression([]float64{2, 2, 2}, []float64{1, 2, 3}, nil, false)
	assert.True(t, math.IsNaN(beta))
	_, err := Line([]float64{2, 2, 2}, []float64{1, 2, 3}, nil)
	assert.ErrorIs(t, err, ErrSingular)
}

// Trap: one value has no spread.
func TestGonumOneValue(t *testing.T) {
	assert.True(t, math.IsNaN(stat.StdDev([]float64{3}, nil)))
	_, _, err := PooledVariance([][]float64{{3}})
	assert.ErrorIs(t, err, ErrTooFew)
}

// Trap: a condition is not a failure.
func TestGonumCondition(t *testing.T) {
	// Columns of very different size: the remark comes, and so does the answer.
	a := mat.NewDense(3, 2, []float64{1, 0, 0, 1e-17, 0, 0})
	var qr mat.QR
	qr.Factorize(a)
	var x mat.VecDense
	err := qr.SolveVecTo(&x, false, mat.NewVecDense(3, []float64{2, 3e-17, 0}))
	var condition mat.Condition
	require.True(t, errors.As(err, &condition))
	assert.InDelta(t, 2, x.AtVec(0), 1e-12)
	assert.InDelta(t, 3, x.AtVec(1), 1e-12)
	assert.True(t, solved(err))
	f, err := LeastSquares([][]float64{{1, 0}, {0, 1e-17}, {0, 0}}, []float64{2, 3e-17, 0}, nil)
	require.NoError(t, err)
	assert.InDelta(t, 3, f.Coef[1], 1e-12)
	assert.True(t, solved(mat.Condition(1e17)))
	assert.True(t, solved(nil))
	assert.False(t, solved(mat.Condition(math.Inf(1))))
	assert.False(t, solved(errors.New("anything else")))
}

// Trap: the wrong tail of the noncentral t.
func TestGonumNoncentralTail(t *testing.T) {
	// P(T' <= -50) with noncentrality -45 on 10 degrees of freedom is a small
	// part of the whole, P(T' <= 50) with 45 the rest of it.
	left := distuv.NoncentralT{Nu: 10, Mu: -45}.CDF(-50)
	right := distuv.NoncentralT{Nu: 10, Mu: 45}.CDF(50)
	assert.Greater(t, math.Abs(left-(1-right)), .1, "gonum breaks the mirror here")
	assert.InDelta(t, noncentral(10, -50, -45), 1-noncentral(10, 50, 45), 1e-9)
}
