package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// reml is the mixed model of the cells themselves, with a fixed effect a group,
// straight from its definition: -2 times the restricted log likelihood at three
// standard deviations, and what it predicts the parts to be.
func reml(t *testing.T, cells []ShareCell, part, unit, rest float64) (criterion float64, effects []float64) {
	t.Helper()
	n, groups, parts := len(cells), cells[len(cells)-1].Group+1, len(cells[0].Shares)
	v, x, y := mat.NewSymDense(n, nil), mat.NewDense(n, groups, nil), mat.NewVecDense(n, nil)
	for i, c := range cells {
		x.Set(i, c.Group, 1)
		y.SetVec(i, c.Value)
		for j, d := range cells[:i+1] {
			cov := part * part * dot(c.Shares, d.Shares)
			if c.Unit == d.Unit {
				cov += unit * unit
			}
			if i == j {
				cov += rest * rest
			}
			v.SetSym(i, j, cov)
		}
	}
	var cholesky, fixed mat.Cholesky
	require.True(t, cholesky.Factorize(v))
	var vx, xvx mat.Dense
	require.NoError(t, cholesky.SolveTo(&vx, x))
	xvx.Mul(x.T(), &vx)
	require.True(t, fixed.Factorize(symmetric(&xvx)))
	var right, beta, residual, vr mat.VecDense
	right.MulVec(vx.T(), y)
	require.NoError(t, fixed.SolveVecTo(&beta, &right))
	residual.MulVec(x, &beta)
	residual.SubVec(y, &residual)
	require.NoError(t, cholesky.SolveVecTo(&vr, &residual))
	effects = make([]float64, parts)
	for i, c := range cells {
		addScaled(effects, c.Shares, part*part*vr.AtVec(i))
	}
	return cholesky.LogDet() + fixed.LogDet() + mat.Dot(&residual, &vr) + float64(n-groups)*math.Log(2*math.Pi), effects
}

func symmetric(m *mat.Dense) *mat.SymDense {
	n, _ := m.Dims()
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			s.SetSym(i, j, m.At(i, j))
		}
	}
	return s
}

// The same flights by restricted maximum likelihood on their 47 figures (lme4
// 1.1-31 and an optimiser of its own agree): another model of the same thing, which
// the grid's effects lie close to.
func TestShareModelBesideREML(t *testing.T) {
	cells, _ := threeSequences()
	require.Len(t, cells, 47)
	const part, unit, rest = .814586, .150759, .427066
	best, effects := reml(t, cells, part, unit, rest)
	assert.InDelta(t, 72.573428, best, 1e-6)
	assert.InDeltaSlice(t, []float64{-.424232, -.907703, .597404, .734530, 0}, effects, 2e-6)
	for _, step := range []float64{.99, 1.01} {
		for i := range 3 {
			at := []float64{part, unit, rest}
			at[i] *= step
			worse, _ := reml(t, cells, at[0], at[1], at[2])
			assert.Greater(t, worse, best)
		}
	}

	pool, err := PoolShares(cells, 5, true)
	require.NoError(t, err)
	pool.Step = .1
	for i := range pool.Z {
		pool.Level = append(pool.Level, i/8)
	}
	f, err := FitShares(pool.ShareData)
	require.NoError(t, err)
	assert.InDeltaSlice(t, effects, f.Parts, .04)
}
