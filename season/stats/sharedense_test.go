package stats

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// The dense form is the definition: V inverted at every point of the grid.
func TestShareModelEqualsDenseForm(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d, rows := drawShares(rt)
		equalsDenseForm(rt, d, rows)
	})
}

// Shares of which one is some 200 powers of ten of another made eigenvalues of 10^119
// out of a matrix of numbers below 1.
func TestShareModelOfSharesNearNothing(t *testing.T) {
	for _, tiny := range []float64{1e-320, 1e-235, 1e-160, 1e-120, 1e-60, 1e-14} {
		d := ShareData{Z: []float64{0, 0, 0.005}, Times: []float64{12, 2, 12}, Level: []int{0, 1, 0}, DF: 3, Step: 1}
		d.Shares = [][]float64{{-1.48 * tiny, -1e-48, -tiny, -2e-5}, {1e-120, -1, tiny, 1e-83}, {tiny, 1.5e-14, -tiny, 0.787}}
		rows := []ShareRow{{Parts: []float64{-.2, 1, 0, .4}, Levels: []float64{1, 0}, Units: []UnitShare{{Unit: 2, Share: 1}}}}
		equalsDenseForm(t, d, rows)
	}
}

// Where many units leave most of the sa without weight, those are not worked out, and
// nothing else changes.
func TestShareModelLeavesOutWhatWeighsNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	d := ShareData{Variance: 4, DF: 100, Step: 1}
	for i := range 60 {
		d.Z, d.Times = append(d.Z, random.NormFloat64()), append(d.Times, float64(1+i%7))
		d.Shares, d.Level = append(d.Shares, []float64{random.Float64(), random.Float64(), random.Float64()}), append(d.Level, i%2)
	}
	rows := []ShareRow{{Parts: []float64{1, -.5, -.5}, Levels: []float64{1, 0}, Units: []UnitShare{{3, 1}, {60, .5}}}}
	equalsDenseForm(t, d, rows)
	f, err := FitShares(d)
	require.NoError(t, err)
	worked := slices.DeleteFunc(slices.Clone(f.layers), func(l shareLayer) bool { return l.eigen == nil })
	require.Less(t, len(worked), ShareSteps/2)
	weighing := slices.DeleteFunc(worked, func(l shareLayer) bool { return l.weight == 0 })
	require.NotEmpty(t, weighing)
}

func equalsDenseForm(t require.TestingT, d ShareData, rows []ShareRow) {
	f, err := FitShares(d)
	require.NoError(t, err)
	means, covariance, err := f.Ask(rows)
	require.NoError(t, err)
	want := denseShares(d, rows)
	assert.InDelta(t, want.tau, f.Tau, 1e-7)
	assert.InDelta(t, want.unit, f.Unit, 1e-7)
	for i := range rows {
		assert.InDelta(t, want.means[i], means[i], 1e-6)
		for j := range rows {
			assert.InDelta(t, want.covariance.At(i, j), covariance.At(i, j), 1e-5)
		}
		one, err := f.Of(rows[i])
		require.NoError(t, err)
		assert.InDelta(t, means[i], one.Mean(), 1e-9)
		// A value known but for rounding steps from 0 to 1 within it: the chance is held
		// between those at points as far apart as the means may be.
		assert.LessOrEqual(t, one.Below(-1e-6)-1e-7, want.below[i])
		assert.GreaterOrEqual(t, one.Below(1e-6)+1e-7, want.below[i])
	}
}

func drawShares(rt *rapid.T) (ShareData, []ShareRow) {
	units, parts := rapid.IntRange(3, 9).Draw(rt, "units"), rapid.IntRange(1, 4).Draw(rt, "parts")
	d := ShareData{Variance: rapid.Float64Range(0, 100).Draw(rt, "variance"), DF: rapid.IntRange(0, 20).Draw(rt, "df"), Step: 1}
	for i := range units {
		d.Z = append(d.Z, rapid.Float64Range(-15, 15).Draw(rt, "z"))
		d.Times = append(d.Times, float64(rapid.IntRange(1, 12).Draw(rt, "times")))
		d.Shares = append(d.Shares, rapid.SliceOfN(rapid.Float64Range(-1, 1), parts, parts).Draw(rt, "shares"))
		d.Level = append(d.Level, i%2)
	}
	var rows []ShareRow
	for range 3 {
		row := ShareRow{Parts: rapid.SliceOfN(rapid.Float64Range(-1, 1), parts, parts).Draw(rt, "asked parts")}
		row.Levels = rapid.SliceOfN(rapid.Float64Range(-1, 1), 2, 2).Draw(rt, "asked levels")
		for range 2 {
			row.Units = append(row.Units, UnitShare{rapid.IntRange(0, units+1).Draw(rt, "asked unit"), rapid.Float64Range(-1, 1).Draw(rt, "share")})
		}
		rows = append(rows, row)
	}
	return d, rows
}

type denseAnswer struct {
	tau, unit    float64
	means, below []float64
	covariance   *mat.Dense
}

// denseShares is the model as it is written down.
func denseShares(d ShareData, rows []ShareRow) denseAnswer {
	steps := ShareSteps
	if d.DF < 5 {
		d.Variance, steps = 0, 2*ShareSteps
	}
	var logs []float64
	var points []shareDensePoint
	for i := range steps {
		for j := range ShareSteps {
			tau, unit := (float64(j)+.5)*d.Step, (float64(i)+.5)*d.Step
			p := shareDenseAt(d, rows, tau, unit)
			p.log -= tau * tau / 72
			if d.DF >= 5 {
				p.log -= unit * unit / 72
			}
			logs, points = append(logs, p.log), append(points, p)
		}
	}
	most, total := mat.Max(mat.NewVecDense(len(logs), logs)), 0.0
	for i := range points {
		points[i].log = math.Exp(points[i].log - most)
		total += points[i].log
	}
	n := len(rows)
	out := denseAnswer{means: make([]float64, n), below: make([]float64, n), covariance: mat.NewDense(n, n, nil)}
	for _, p := range points {
		w := p.log / total
		out.tau, out.unit = out.tau+w*p.tau, out.unit+w*p.unit
		for i := range n {
			out.means[i] += w * p.means[i]
			out.below[i] += w * normalBelow(-p.means[i], math.Sqrt(max(0, p.covariance.At(i, i))))
			for j := range n {
				out.covariance.Set(i, j, out.covariance.At(i, j)+w*(p.covariance.At(i, j)+p.means[i]*p.means[j]))
			}
		}
	}
	for i := range n {
		for j := range n {
			out.covariance.Set(i, j, out.covariance.At(i, j)-out.means[i]*out.means[j])
		}
	}
	return out
}

type shareDensePoint struct {
	log, tau, unit float64
	means          []float64
	covariance     *mat.Dense
	r              []*mat.VecDense
}

func shareDenseAt(d ShareData, rows []ShareRow, tau, unit float64) shareDensePoint {
	n, levels := len(d.Z), 2
	v, m := mat.NewDense(n, n, nil), mat.NewDense(n, levels, nil)
	for i := range n {
		m.Set(i, d.Level[i], 1)
		for j := range n {
			v.Set(i, j, tau*tau*dot(d.Shares[i], d.Shares[j]))
		}
		v.Set(i, i, v.At(i, i)+unit*unit+d.Variance/d.Times[i])
	}
	var inverse, vm, middle, middleInverse, mu, levelled, taken, p mat.Dense
	mustInvert(inverse.Inverse(v))
	vm.Mul(&inverse, m)
	middle.Mul(m.T(), &vm)
	mustInvert(middleInverse.Inverse(&middle))
	z := mat.NewVecDense(n, d.Z)
	var sums mat.VecDense
	sums.MulVec(vm.T(), z)
	mu.Mul(&middleInverse, &sums)
	var rest, solved mat.VecDense
	rest.MulVec(m, mu.ColView(0))
	rest.SubVec(z, &rest)
	solved.MulVec(&inverse, &rest)
	levelled.Mul(&vm, &middleInverse)
	taken.Mul(&levelled, vm.T())
	p.Sub(&inverse, &taken)
	logV, _ := mat.LogDet(v)
	logM, _ := mat.LogDet(&middle)
	point := shareDensePoint{-.5 * (logV + logM + mat.Dot(&rest, &solved)), tau, unit, nil, mat.NewDense(len(rows), len(rows), nil), nil}
	means := mat.NewVecDense(levels, nil)
	means.CopyVec(mu.ColView(0))
	point.ask(d, rows, &solved, &p)
	point.askLevels(rows, means, &middleInverse, &levelled)
	return point
}

// ask is r'V^-1(z - M mu), and tau^2 cb cb' + sa^2 (ca ca' + the new ones) - r'P r.
func (o *shareDensePoint) ask(d ShareData, rows []ShareRow, solved *mat.VecDense, p *mat.Dense) {
	n := len(d.Z)
	units := make([][]float64, len(rows))
	for i, row := range rows {
		units[i] = make([]float64, n+2)
		for _, u := range row.Units {
			units[i][u.Unit] += u.Share
		}
		v := mat.NewVecDense(n, nil)
		for s := range n {
			v.SetVec(s, o.tau*o.tau*dot(d.Shares[s], row.Parts)+o.unit*o.unit*units[i][s])
		}
		o.r = append(o.r, v)
		o.means = append(o.means, mat.Dot(v, solved))
	}
	for i := range rows {
		for j := range rows {
			prior := o.tau*o.tau*dot(rows[i].Parts, rows[j].Parts) + o.unit*o.unit*dot(units[i], units[j])
			o.covariance.Set(i, j, prior-mat.Inner(o.r[i], p, o.r[j]))
		}
	}
}

// askLevels adds l'mu and its uncertainty: l'A l - l'A M'V^-1 r, A = (M'V^-1 M)^-1,
// both ways round.
func (o *shareDensePoint) askLevels(rows []ShareRow, mu *mat.VecDense, a, levelled *mat.Dense) {
	var with []*mat.VecDense // A M'V^-1 r
	for i := range rows {
		v := mat.NewVecDense(mu.Len(), nil)
		v.MulVec(levelled.T(), o.r[i])
		with = append(with, v)
	}
	for i, row := range rows {
		l := mat.NewVecDense(mu.Len(), row.Levels)
		o.means[i] += mat.Dot(l, mu)
		for j, other := range rows {
			m := mat.NewVecDense(mu.Len(), other.Levels)
			more := mat.Inner(l, a, m) - mat.Dot(l, with[j]) - mat.Dot(m, with[i])
			o.covariance.Set(i, j, o.covariance.At(i, j)+more)
		}
	}
}

func mustInvert(err error) {
	if err != nil {
		panic(err)
	}
}
