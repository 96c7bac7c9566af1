package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// The eight schools [derived: metafor, rma]; citation Bayesian Data Analysis
// [memory].
func TestShrinkEightSchools(t *testing.T) {
	y := []float64{28, 8, -3, 7, -1, 1, 18, 12}
	v := make([]float64, len(y))
	for i, se := range []float64{15, 10, 16, 11, 9, 11, 10, 18} {
		v[i] = se * se
	}
	s, err := Shrink(y, v)
	require.NoError(t, err)
	dl, reml := derSimonianLaird(y, v), restrictedML(y, v)
	profile, err := QProfile(y, v, .95)
	require.NoError(t, err)
	at10, err := ShrinkAt(y, v, 100)
	require.NoError(t, err)
	checks := []check{
		{"pooled", 7.6856167, s.Mean, 5e-8},
		{"variance", 16.58, s.MeanSE * s.MeanSE, .005},
		{"se", 4.0719192, s.MeanSE, 5e-8},
		{"Q", 4.7070789, s.Q, 5e-8},
		{"p of Q", .6957, s.QP, 5e-5},
		{"Paule-Mandel", 0, s.TauSquared, 0},
		{"DerSimonian-Laird", 0, dl, 0},
		{"REML", 0, reml, 0},
		{"Q-profile lower", 0, profile.Low, 0},
		{"Q-profile upper, root", 16.44285, math.Sqrt(profile.High), 5e-6},
		{"mean at 10", 8.1264722, at10.Mean, 5e-8},
	}
	for i, want := range []float64{14.241404, 8.0632361, 5.0010587, 7.6167563, 3.0842224, 4.9018241, 13.063236, 9.0400401} {
		checks = append(checks, check{"theta at 10", want, at10.Items[i].Value, 5e-7})
	}
	runChecks(t, checks)
	for _, item := range s.Items {
		assert.InDelta(t, s.Mean, item.Value, 1e-12, "no spread: everything is the mean")
		assert.Zero(t, item.Gap)
	}
}

// Efron and Morris's baseball averages: c = .212 [published: efron-morris-1977, c];
// the rest [derived].
func TestJamesSteinBaseball(t *testing.T) {
	hits := []float64{18, 17, 16, 15, 14, 14, 13, 12, 11, 11, 10, 10, 10, 10, 10, 9, 8, 7}
	y := make([]float64, len(hits))
	for i, h := range hits {
		y[i] = h / 45
	}
	m := mean(y)
	variance := m * (1 - m) / 45
	c, shrunken := jamesStein(y, variance)
	checks := []check{
		{"mean", .265, m, 5e-4},
		{"variance", .0043328, variance, 5e-8},
		{"sum of squares", .0824417, sumSquares(y, m), 5e-8},
		{"c as published", .212, c, 5e-4},
		{"c", .2116534, c, 5e-8},
	}
	for i, want := range []float64{.294, .289, .285, .280, .275, .275, .270, .266, .261, .261, .256, .256, .256, .256, .256, .252, .247, .242} {
		checks = append(checks, check{"average", want, shrunken[i], 5e-4})
	}
	runChecks(t, checks)

	// Equal variances: shrinking with the spread that leaves the same share is the
	// same thing.
	v := make([]float64, len(y))
	for i := range v {
		v[i] = variance
	}
	s, err := ShrinkAt(y, v, variance*c/(1-c))
	require.NoError(t, err)
	for i := range y {
		assert.InDelta(t, shrunken[i], s.Items[i].Value, 1e-14)
	}
}

// The BCG trials [derived: metafor, dat.bcg; metafor, rma; metafor, blup] with its
// tolerances at 1e-13; its defaults print fewer right digits.
func TestShrinkBCG(t *testing.T) {
	var bcg struct{ Y, V []float64 }
	reference(t, "bcg", &bcg)
	dl, reml := derSimonianLaird(bcg.Y, bcg.V), restrictedML(bcg.Y, bcg.V)
	pm, err := PauleMandel(bcg.Y, bcg.V)
	require.NoError(t, err)
	profile, err := QProfile(bcg.Y, bcg.V, .95)
	require.NoError(t, err)
	atDL, err := ShrinkAt(bcg.Y, bcg.V, dl)
	require.NoError(t, err)
	runChecks(t, []check{
		{"DerSimonian-Laird", 0.30876026, dl, 5e-9},
		{"Paule-Mandel", 0.318068452205, pm, 5e-11},
		// metafor's iteration stops short here; to forty digits the maximum of the
		// restricted likelihood is at 0.31324325813 [derived].
		{"REML", 0.31324333, reml, 1e-7},
		{"REML, derived", 0.313243258134673443, reml, 1e-14},
		{"mean", -0.71411722, atDL.Mean, 5e-9},
		{"se", 0.17874209, atDL.MeanSE, 5e-9},
		{"Q", 152.23301, atDL.Q, 5e-6},
		{"blup 1 at DerSimonian-Laird", -0.79939, atDL.Items[0].Value, 5e-6},
		{"se 1", .40852, atDL.Items[0].SE, 5e-6},
		{"blup 13", -0.14819, atDL.Items[12].Value, 5e-6},
		{"se 13", .24315, atDL.Items[12].SE, 5e-6},
		{"Q-profile lower", 0.119718361141, profile.Low, 5e-12},
		{"Q-profile upper", 1.11147908406, profile.High, 5e-11},
	})
}

func TestShrinkEdges(t *testing.T) {
	_, err := Shrink([]float64{1, 2}, []float64{1, 1})
	assert.ErrorIs(t, err, ErrTooFew)
	_, err = Shrink([]float64{1, 2, 3}, []float64{1, 1})
	assert.ErrorIs(t, err, ErrShape)
	_, err = Shrink([]float64{1, 2, 3}, []float64{1, 0, 1})
	assert.ErrorIs(t, err, ErrRange)
	_, err = ShrinkAt([]float64{1, 2, 3}, []float64{1, 1, 1}, -1)
	assert.ErrorIs(t, err, ErrRange)
	_, err = QProfile([]float64{1, 2, 3}, []float64{1, 1, 1}, 0)
	assert.ErrorIs(t, err, ErrRange)
	_, err = PauleMandel([]float64{1}, []float64{1})
	assert.ErrorIs(t, err, ErrTooFew)
	equal, err := Shrink([]float64{4, 4, 4}, []float64{1, 2, 3})
	require.NoError(t, err)
	assert.Zero(t, equal.TauSquared)
	assert.InDelta(t, 1, equal.QP, 1e-12)
	_, ok := Shrunk{}.GapInterval(1)
	assert.False(t, ok)
}

func drawMeans(rt *rapid.T) (y, v []float64) {
	for range rapid.IntRange(3, 12).Draw(rt, "k") {
		y = append(y, rapid.Float64Range(-20, 20).Draw(rt, "y"))
		v = append(v, rapid.Float64Range(.1, 30).Draw(rt, "v"))
	}
	return y, v
}

func TestShrinkProperties(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y, v := drawMeans(rt)
		s, err := Shrink(y, v)
		require.NoError(rt, err)
		for i, item := range s.Items {
			low, high := math.Min(y[i], s.Mean), math.Max(y[i], s.Mean)
			assert.True(rt, item.Value >= low-1e-9 && item.Value <= high+1e-9, "between raw and mean")
			assert.InDelta(rt, item.Value-s.Mean, item.Gap, 1e-9)
			gap, ok := item.GapInterval(.9)
			require.True(rt, ok)
			assert.True(rt, gap.Contains(item.Gap))
			assert.LessOrEqual(rt, item.SE*item.SE, v[i]+1/sumInverse(v, s.TauSquared)+1e-9)
		}
		moved := make([]float64, len(y))
		for i := range y {
			moved[i] = y[i] + 1e7
		}
		far, err := PauleMandel(moved, v)
		require.NoError(rt, err)
		assert.InDelta(rt, s.TauSquared, far, 1e-5*(1+s.TauSquared), "far from 0 no digit is lost")
		profile, err := QProfile(y, v, .9)
		require.NoError(rt, err)
		// Q at the two ends is on either side of k-1, its value at the estimate.
		assert.LessOrEqual(rt, profile.Low, s.TauSquared*(1+1e-9))
		assert.True(rt, profile.High >= s.TauSquared*(1-1e-9) || s.TauSquared == 0)
		if s.TauSquared > 0 {
			assert.InDelta(rt, float64(len(y)-1), spreadAbout(y, v, s.TauSquared), 1e-6)
		}
	})
}

func sumInverse(v []float64, t float64) float64 {
	total := 0.0
	for _, x := range v {
		total += 1 / (x + t)
	}
	return total
}

// At one point of its grid, units that are each a part of its own, the model of
// shares is the shrinkage of means with known variances: what is not the part's own
// is the variance.
func TestShareModelIsShrinkageAtAPoint(t *testing.T) {
	y := []float64{28, 8, -3, 7, -1, 1, 18, 12}
	d := ShareData{Z: y, Variance: 50, DF: 9, Step: 1, Level: make([]int, len(y))}
	v := make([]float64, len(y))
	for i := range y {
		row := make([]float64, len(y))
		row[i] = 1
		d.Times, d.Shares = append(d.Times, float64(1+i)), append(d.Shares, row)
		v[i] = 1.5*1.5 + 50/float64(1+i)
	}
	f := &ShareFit{data: d, Pooled: true}
	f.layers, f.points = make([]shareLayer, 1), []sharePoint{{tau: 10}}
	room := newShareRoom(len(y), 1)
	_, err := f.layerAt(&f.layers[0], 1.5, sumShares(d), room)
	require.NoError(t, err)
	require.NoError(t, f.weigh([]float64{0}, room))
	want, err := ShrinkAt(y, v, 100)
	require.NoError(t, err)
	for i, item := range want.Items {
		row := make([]float64, len(y))
		row[i] = 1
		gap, err := f.Of(ShareRow{Parts: row})
		require.NoError(t, err)
		assert.InDelta(t, item.Gap, gap.means[0], 1e-10)
		assert.InDelta(t, item.GapSE*item.GapSE, gap.sds[0]*gap.sds[0], 1e-8)
	}
}
