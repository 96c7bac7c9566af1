package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// penicillinMixed is the Penicillin table as a mixed model: samples as slopes
// with shares of one, plates as inner clusters.
func penicillinMixed() MixedData {
	var d MixedData
	table := penicillin()
	for _, c := range table.Cells {
		shares := make([]float64, table.Columns)
		shares[c.Column] = 1
		d.Y, d.Weights, d.Shares, d.Inner = append(d.Y, c.Value), append(d.Weights, 1), append(d.Shares, shares), append(d.Inner, c.Row)
	}
	return d
}

// Variances and predictions computed by lme4 1.1-31 (REML) on the same table.
func TestFitMixedAgreesWithLme4(t *testing.T) {
	m, err := FitMixed(penicillinMixed())
	require.NoError(t, err)
	checks := []check{
		{"SD of slopes", 1.9316, math.Sqrt(m.Slope), 1e-4},
		{"SD of inner clusters", 0.8467, math.Sqrt(m.InnerVar), 1e-4},
		{"SD of errors", 0.5499, math.Sqrt(m.Error), 1e-4},
	}
	for j, want := range []float64{2.187058, -1.010476, 1.937900, -0.096895, -0.013842, -3.003745} {
		checks = append(checks, check{"BLUP of a sample", want, m.Slopes[j], 1e-4})
	}
	runChecks(t, checks)
}

// With the variances held fixed, and clusters that add nothing, the slopes are
// those of ridge regression with the penalty error/slope variance. Computed by
// MASS 7.3-58.2's lm.ridge (R 4.2.2, $coef, for columns scaled to mean 0 and a
// root mean square of 1) on NIST's Longley data, which R's datasets hold in
// thousands and millions; the mean is theirs.
func TestMixedAtFixedVariancesIsRidge(t *testing.T) {
	var longley struct {
		X [][]float64
		Y []float64
	}
	reference(t, "longley", &longley)
	d := MixedData{Inner: make([]int, len(longley.Y))}
	for i, row := range longley.X {
		d.Y, d.Weights, d.Inner[i] = append(d.Y, longley.Y[i]/1000), append(d.Weights, 1), i
		d.Shares = append(d.Shares, append([]float64(nil), row[len(row)-6:]...))
	}
	for j := range 6 {
		column := make([]float64, len(d.Y))
		for i := range column {
			column[i] = d.Shares[i][j]
		}
		centreOn0(column)
		scale := math.Sqrt(sumSquares(column, 0) / float64(len(column)))
		for i := range column {
			d.Shares[i][j] = column[i] / scale
		}
	}
	for penalty, want := range map[float64][]float64{
		0.1: {0.641185157950, 1.119494393734, -1.066576971683, -0.443032002880, 0.050340083071, 2.385895344422},
		2:   {0.8591907078421, 1.0057543177316, -0.5457428683929, -0.0617032473708, 0.8040477194799, 0.9258892393201},
	} {
		m := newMixedEquations(d).fitted([]float64{1 / math.Sqrt(penalty), math.Log(1 - leastSquare)}, 0)
		assert.InDelta(t, 65.317, m.Mean, 1e-9)
		assert.InDeltaSlice(t, want, m.Slopes, 1e-8, "penalty %g", penalty)
		assert.InDelta(t, penalty, m.Error/m.Slope, 1e-9)
	}
}

// Weights scale the errors: doubling all weights halves nothing but the error
// variance (derived).
func TestFitMixedWeights(t *testing.T) {
	d := penicillinMixed()
	plain, err := FitMixed(d)
	require.NoError(t, err)
	for i := range d.Weights {
		d.Weights[i] = 2
	}
	doubled, err := FitMixed(d)
	require.NoError(t, err)
	assert.InDelta(t, 2*plain.Error, doubled.Error, 1e-4)
	assert.InDelta(t, plain.Slope, doubled.Slope, 1e-3)
	assert.InDelta(t, plain.Mean, doubled.Mean, 1e-6)
}

// A slope never seen has its whole variance, and no estimate of its own
// (derived).
func TestForecastOfAnUnseenSlope(t *testing.T) {
	d := penicillinMixed()
	for i := range d.Shares {
		d.Shares[i] = append(d.Shares[i], 0)
	}
	m, err := FitMixed(d)
	require.NoError(t, err)
	seen, err := m.Forecast(NewValue{Shares: []float64{1, 0, 0, 0, 0, 0, 0}, ErrorWeight: 1}, 3)
	require.NoError(t, err)
	unseen, err := m.Forecast(NewValue{Shares: []float64{0, 0, 0, 0, 0, 0, 1}, ErrorWeight: 1}, 3)
	require.NoError(t, err)
	assert.InDelta(t, m.Mean, unseen.Mean, 1e-9)
	assert.Greater(t, unseen.Variance, seen.Variance+m.Slope/2)
	assert.GreaterOrEqual(t, unseen.DF, 3.0)
	interval, err := unseen.Range(0.8)
	require.NoError(t, err)
	assert.True(t, interval.Contains(unseen.Mean))
}

func TestFitMixedRefuses(t *testing.T) {
	good := penicillinMixed()
	for name, spoil := range map[string]struct {
		change func(*MixedData)
		want   error
	}{
		"short weights":   {func(d *MixedData) { d.Weights = d.Weights[1:] }, ErrShape},
		"a weight of 0":   {func(d *MixedData) { d.Weights[0] = 0 }, ErrRange},
		"not a number":    {func(d *MixedData) { d.Y[0] = math.NaN() }, ErrRange},
		"ragged shares":   {func(d *MixedData) { d.Shares[1] = nil }, ErrShape},
		"one cluster":     {func(d *MixedData) { clear(d.Inner) }, ErrTooFew},
		"a cluster of -1": {func(d *MixedData) { d.Inner[3] = -1 }, ErrRange},
		"two values": {func(d *MixedData) {
			*d = MixedData{Y: d.Y[:2], Weights: d.Weights[:2], Shares: d.Shares[:2], Inner: d.Inner[:2]}
		}, ErrTooFew},
		"all values equal": {func(d *MixedData) { clear(d.Y) }, ErrNoSpread},
	} {
		d := penicillinMixed()
		spoil.change(&d)
		_, err := FitMixed(d)
		assert.ErrorIs(t, err, spoil.want, name)
	}
	m, err := FitMixed(good)
	require.NoError(t, err)
	shares := func(first float64) []float64 { return append([]float64{first}, make([]float64, len(m.Slopes)-1)...) }
	for name, spoil := range map[string]struct {
		value NewValue
		least float64
		want  error
	}{
		"too few shares":     {NewValue{Shares: []float64{1}}, 3, ErrShape},
		"a share of nothing": {NewValue{Shares: shares(math.NaN()), ErrorWeight: 1}, 3, ErrRange},
		"no error weight":    {NewValue{Shares: shares(1), ErrorWeight: math.NaN()}, 3, ErrRange},
		"below 0":            {NewValue{Shares: shares(1), ErrorWeight: -1}, 3, ErrRange},
		"no freedom":         {NewValue{Shares: shares(1), ErrorWeight: 1}, math.NaN(), ErrRange},
	} {
		_, err = m.Forecast(spoil.value, spoil.least)
		assert.ErrorIs(t, err, spoil.want, name)
	}
	_, err = MixedForecast{Mean: 1, Variance: 1}.Range(0.8)
	assert.ErrorIs(t, err, ErrTooFew, "no degrees of freedom")
}

func BenchmarkFitMixed(b *testing.B) {
	d := penicillinMixed()
	for b.Loop() {
		if _, err := FitMixed(d); err != nil {
			b.Fatal(err)
		}
	}
}

// clusterRows are clusters of k values each about the means given, the values of
// a cluster apart by spread.
func clusterRows(k int, spread float64, means ...float64) MixedData {
	var d MixedData
	for i, mean := range means {
		for j := range k {
			d.Y = append(d.Y, mean+spread*(float64(j)-float64(k-1)/2))
			d.Weights = append(d.Weights, 1)
			d.Shares = append(d.Shares, []float64{0})
			d.Inner = append(d.Inner, i)
		}
	}
	return d
}

// Where the values of a cluster are rounded to the same, the error variance is
// what rounding leaves, and the component between clusters the analysis of
// variance's: the means 4, 5, 3, 6, 2 have the variance 2.5, less an error of .02
// over five values. Derived.
func TestFitMixedWithALeastError(t *testing.T) {
	d := clusterRows(5, 0, 4, 5, 3, 6, 2)
	d.LeastError = 0.02
	m, err := FitMixed(d)
	require.NoError(t, err)
	runChecks(t, []check{
		{"error", 0.02, m.Error, 1e-5},
		{"inner", 2.5 - 0.02/5, m.InnerVar, 1e-3},
		{"mean", 4, m.Mean, 1e-9},
	})
	// One new cluster of the five: its own variance, the mean's, the errors'.
	forecast, err := m.Forecast(NewValue{Shares: []float64{0}, ErrorWeight: 0.2}, 4)
	require.NoError(t, err)
	assert.InDelta(t, 2.5*1.2, forecast.Variance, 1e-3)

	// Just below and just above the least there is no step.
	below, above := clusterRows(5, 0.0999, 4, 5, 3, 6, 2), clusterRows(5, 0.1001, 4, 5, 3, 6, 2)
	below.LeastError, above.LeastError = 0.025, 0.025 // 5 times .1^2 x 10 over 20
	low, err := FitMixed(below)
	require.NoError(t, err)
	high, err := FitMixed(above)
	require.NoError(t, err)
	assert.InDelta(t, 0.025, low.Error, 1e-5)
	assert.InDelta(t, low.Error, high.Error, 2e-4)
	assert.InDelta(t, low.InnerVar, high.InnerVar, 2e-3)

	// Above it nothing changes; below 0 there is none.
	plain, err := FitMixed(penicillinMixed())
	require.NoError(t, err)
	coarse := penicillinMixed()
	coarse.LeastError = plain.Error / 2
	same, err := FitMixed(coarse)
	require.NoError(t, err)
	assert.Equal(t, plain.Error, same.Error)
	coarse.LeastError = -1
	_, err = FitMixed(coarse)
	assert.ErrorIs(t, err, ErrRange)
	coarse.LeastError = math.NaN()
	_, err = FitMixed(coarse)
	assert.ErrorIs(t, err, ErrRange)
}
