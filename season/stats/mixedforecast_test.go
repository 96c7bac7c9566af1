package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// balanced makes a table without slopes: a value for each of outers x inners x
// errors, from sums of three lists of deviations.
func balanced(outers, inners, errors []float64) MixedData {
	var d MixedData
	cluster := 0
	for o, a := range outers {
		for _, b := range inners {
			for _, c := range errors {
				// The products keep the mean squares apart without moving the means
				// of what is inside them.
				d.Y = append(d.Y, 3+a+b*(1+a)+c*(1+b))
				d.Weights, d.Shares = append(d.Weights, 1), append(d.Shares, []float64{0})
				d.Outer, d.Inner = append(d.Outer, o), append(d.Inner, cluster)
			}
			cluster++
		}
	}
	return d
}

// meanSquares are those of the nested analysis of variance of a balanced table:
// outer clusters, inner ones within outer ones, errors.
func meanSquares(d MixedData, outers, inners, errors int) (outer, inner, rest float64) {
	total := mean(d.Y)
	for o := range outers {
		block := d.Y[o*inners*errors : (o+1)*inners*errors]
		outer += float64(len(block)) * math.Pow(mean(block)-total, 2) / float64(outers-1)
		for i := range inners {
			values := block[i*errors : (i+1)*errors]
			inner += float64(errors) * math.Pow(mean(values)-mean(block), 2) / float64(outers*(inners-1))
			rest += sumSquares(values, mean(values)) / float64(outers*inners*(errors-1))
		}
	}
	return outer, inner, rest
}

// Derived: in a balanced table the components are those of the analysis of
// variance, below 0 where a mean square is less than the one inside it; the
// forecast of a value made as those seen has the variance
//
//	outer (1 + 1/C)/(k m) + inner (1 - 1/k)/m
//
// with Satterthwaite's degrees of freedom for that sum.
func TestForecastOfABalancedTable(t *testing.T) {
	for name, c := range map[string]struct{ outers, inners, errors []float64 }{
		"all above 0":            {[]float64{-2, 0.5, 0, 1.5}, []float64{-0.8, 0, 0.8}, []float64{-0.5, 0.2, 0.3}},
		"outer below 0":          {[]float64{-0.05, 0.02, 0, 0.03}, []float64{-0.8, 0, 0.8}, []float64{-0.5, 0.2, 0.3}},
		"inner below 0":          {[]float64{-2, 0.5, 0, 1.5}, []float64{-0.1, 0, 0.1}, []float64{-0.5, 0.2, 0.3}},
		"of two inner, below 0s": {[]float64{-0.1, 0.1, 0.15, -0.15, 0}, []float64{-0.2, 0.2}, []float64{-0.6, 0.2, 0.4}},
	} {
		d := balanced(c.outers, c.inners, c.errors)
		C, k, m := float64(len(c.outers)), float64(len(c.inners)), float64(len(c.errors))
		outer, inner, rest := meanSquares(d, len(c.outers), len(c.inners), len(c.errors))
		fit, err := FitMixed(d)
		require.NoError(t, err, name)
		assert.InDelta(t, rest, fit.Error, 1e-3*rest, name)
		assert.InDelta(t, (inner-rest)/m, fit.InnerVar, 1e-3*rest, name)
		assert.InDelta(t, (outer-inner)/(k*m), fit.OuterVar, 1e-3*rest, name)
		a, b := outer*(1+1/C)/(k*m), inner*(1-1/k)/m
		f, err := fit.Forecast(NewValue{Shares: []float64{0}, ErrorWeight: 1 / m}, 0)
		require.NoError(t, err, name)
		assert.InDelta(t, a+b, f.Variance, 2e-3*(a+b), name)
		assert.InDelta(t, (a+b)*(a+b)/(a*a/(C-1)+b*b/(C*(k-1))), f.DF, 0.05, name)
	}
}

// Derived: with one inner cluster in each outer one the forecast is Student's
// classical one from the clusters' means, on clusters - 1 degrees of freedom.
func TestForecastIsStudents(t *testing.T) {
	d := balanced([]float64{-0.3, 0.1, 0.2, 0, 0.25}, []float64{0}, []float64{-0.7, -0.1, 0.2, 0.6})
	d.Outer = nil
	var means []float64
	for i := range 5 {
		means = append(means, mean(d.Y[4*i:4*i+4]))
	}
	half := studentCritical(0.8, 4) * math.Sqrt(sumSquares(means, mean(means))/4*(1+1.0/5))
	fit, err := FitMixed(d)
	require.NoError(t, err)
	f, err := fit.Forecast(NewValue{Shares: []float64{0}, ErrorWeight: 0.25}, 1)
	require.NoError(t, err)
	assert.InDelta(t, 4, f.DF, 0.02)
	got, err := f.Range(0.8)
	require.NoError(t, err)
	assert.InDelta(t, mean(means)-half, got.Low, 2e-3)
	assert.InDelta(t, mean(means)+half, got.High, 2e-3)
}

// Components below 0 never make a new value steadier than half of what its own
// errors make it, however long it is.
func TestForecastKeepsItsOwnErrors(t *testing.T) {
	d := balanced([]float64{-0.01, 0, 0.01}, []float64{-0.02, 0.02}, []float64{-1, 0.2, 0.8})
	fit, err := FitMixed(d)
	require.NoError(t, err)
	require.Negative(t, fit.InnerVar)
	for _, weight := range []float64{0.01, 0.1, 0.33, 1} {
		f, err := fit.Forecast(NewValue{Shares: []float64{0}, ErrorWeight: weight}, 1)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, f.Variance, 0.5*weight*fit.Error)
	}
}

func TestFitMixedNeedsTwoOuterClusters(t *testing.T) {
	d := balanced([]float64{0.1}, []float64{-0.2, 0, 0.3}, []float64{-0.5, 0.5})
	_, err := FitMixed(d)
	assert.ErrorIs(t, err, ErrTooFew)
}
