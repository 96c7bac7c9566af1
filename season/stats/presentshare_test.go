package stats

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// sampleShare is the share above a mark k standard deviations below the mean of
// n independent values.
func sampleShare(n int, k float64) PresentShare {
	return PresentShare{&Present{N: n, DF: n - 1, Points: []PresentPoint{{Weight: 1, Mean: k, V: 1 / float64(n), S2: 1}}}, 0}
}

// The share of a plain sample [derived: r, pt, qt], whose root search left the
// upper end at n 12 one unit high in the fifth place: .9854226 by numerical
// integration [derived].
func TestShareEndsOfASample(t *testing.T) {
	for _, c := range []struct {
		n         int
		k         float64
		low, high float64
	}{
		{3, 1, .38345, .98371},
		{5, 1, .51188, .96994},
		{8, .5, .44576, .86521},
		{12, 1.5, .78042, .98543},
		{25, 2, .92102, .99481},
	} {
		ends, err := sampleShare(c.n, c.k).Ends(.9)
		require.NoError(t, err)
		runChecks(t, []check{{"low", c.low, ends.Low, 5e-6}, {"high", c.high, ends.High, 1e-5}})
	}
}

// The one-sided tolerance factor of NIST's handbook, 7.2.6.3 [memory], n 43,
// share .90, confidence .99 [derived: r, pt, qt]: a mark that far below the
// mean is exceeded by nine of ten values with that confidence.
func TestShareToleranceFactor(t *testing.T) {
	sure, err := sampleShare(43, 1.8739536).AtLeast(.9)
	require.NoError(t, err)
	assert.InDelta(t, .99, sure, 1e-7)
}

// The sums over W are the noncentral t distribution, here integrated with 20,000
// steps, and where gonum's is to be had (see the traps) that one too.
func TestShareAgainstIntegration(t *testing.T) {
	for _, nu := range []int{3, 4, 7, 11, 39, 120} {
		for _, tt := range []float64{-6, -1, 0, .3, 2.5, 6, 12, 30} {
			m := oneShare(nu, tt)
			for _, d := range []float64{-8, -1, 0, .5, 2, 5, 11, 25} {
				chance, density, _ := m.reaches(d)
				wantChance, wantDensity := noncentralByIntegration(nu, tt, d)
				assert.InDelta(t, wantChance, chance, 5e-9, "nu %d, t %g, ncp %g", nu, tt, d)
				if tt >= 0 {
					assert.InDelta(t, distuv.NoncentralT{Nu: float64(nu), Mu: d}.CDF(tt), chance, 5e-9, "nu %d, t %g, ncp %g", nu, tt, d)
				}
				assert.InDelta(t, wantDensity, density, 1e-7, "nu %d, t %g, ncp %g", nu, tt, d)
			}
		}
	}
}

// oneShare is a mixture of one part, whose chance is a noncentral t's.
func oneShare(nu int, t float64) shareMixture {
	factors, masses := chiNodes(nu, math.Abs(t), fineShare.step)
	return shareMixture{weights: []float64{1}, distances: []float64{t}, spreads: []float64{1}, factors: factors, masses: masses}
}

// noncentral is P(T' <= t) as the share has it.
func noncentral(nu int, t, ncp float64) float64 {
	chance, _, _ := oneShare(nu, t).reaches(ncp)
	return chance
}

// noncentralByIntegration is P(T' <= t) and how fast it falls with ncp, by
// Simpson's rule over the factor of the standard deviation.
func noncentralByIntegration(nu int, t, ncp float64) (chance, density float64) {
	const steps, end = 20000, 6.0
	n := float64(nu)
	gamma, _ := math.Lgamma(n / 2)
	front := math.Ln2 + n/2*math.Log(n/2) - gamma
	for i := 1; i < steps; i++ {
		w := end * float64(i) / steps
		mass := math.Exp(front+(n-1)*math.Log(w)-n*w*w/2) * float64(2+2*(i%2)) * end / steps / 3
		chance += mass * math.Erfc((ncp-t*w)/math.Sqrt2) / 2
		density += mass * math.Exp(-(t*w-ncp)*(t*w-ncp)/2) / math.Sqrt(2*math.Pi)
	}
	return chance, density
}

// Ends and AtLeast are each other's inverse, a half is Student's own t, and the
// chance falls as more is asked.
func TestShareIsConsistent(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 6))
	for range 20 {
		p, err := NewPresent(randomPresent(r, 4+r.IntN(30), 3))
		require.NoError(t, err)
		share, err := p.ShareAbove(55 + 10*r.Float64())
		require.NoError(t, err)
		ends, err := share.Ends(.9)
		require.NoError(t, err)
		for _, end := range []struct{ at, want float64 }{{ends.Low, .95}, {ends.High, .05}} {
			if end.at > 1e-6 && end.at < 1-1e-6 {
				sure, err := share.AtLeast(end.at)
				require.NoError(t, err)
				assert.InDelta(t, end.want, sure, 1e-7)
			}
		}
		half, err := share.AtLeast(.5)
		require.NoError(t, err)
		near, err := share.AtLeast(.5 + 1e-12)
		require.NoError(t, err)
		assert.InDelta(t, half, near, 1e-9)
		before := 1.0
		for want := 0.0; want <= 1; want += .125 {
			sure, err := share.AtLeast(want)
			require.NoError(t, err)
			assert.LessOrEqual(t, sure, before)
			before = sure
		}
		assert.Zero(t, before, "nobody is sure of every value")
	}
}

// Marks far away, also beyond where the noncentral t's series ends, give shares
// next to 0 and 1 in the right order.
func TestShareOfFarMarks(t *testing.T) {
	p, err := NewPresent(randomPresent(rand.New(rand.NewPCG(4, 7)), 12, 1))
	require.NoError(t, err)
	for _, c := range []struct{ mark, low, high float64 }{{-1e6, .999, 1}, {-100, .999, 1}, {200, 0, .001}, {1e6, 0, .001}} {
		share, err := p.ShareAbove(c.mark)
		require.NoError(t, err)
		ends, err := share.Ends(.9)
		require.NoError(t, err)
		assert.True(t, c.low <= ends.Low && ends.Low <= ends.High && ends.High <= c.high, "mark %g: %v", c.mark, ends)
	}
	_, err = p.ShareAbove(math.Inf(1))
	assert.ErrorIs(t, err, ErrRange)
	share, err := p.ShareAbove(60)
	require.NoError(t, err)
	_, err = share.AtLeast(1.5)
	assert.ErrorIs(t, err, ErrRange)
	_, err = share.Ends(1)
	assert.ErrorIs(t, err, ErrRange)
}

// Student's distribution function as a finite sum is that of gonum.
func TestStudentAgainstGonum(t *testing.T) {
	for _, nu := range []int{1, 2, 3, 4, 5, 11, 12, 39, 200, 1001} {
		s := newStudent(nu)
		want := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(nu)}
		for _, at := range []float64{-40, -6, -2.2, -.5, 0, 1e-3, .7, 1, 3.3, 12, 1e6} {
			assert.InDelta(t, want.CDF(at), s.cdf(at), 1e-11, "nu %d at %g", nu, at)
			assert.InDelta(t, want.Prob(at), s.density(at), 1e-10, "nu %d at %g", nu, at)
		}
	}
}

// A quantile of a mixture is where its distribution function is, whatever the
// parts.
func TestStudentMixtureQuantile(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 8))
	for range 50 {
		m := StudentMixture{DF: 3 + r.IntN(40)}
		total := 0.0
		for range 1 + r.IntN(20) {
			w := math.Exp(6 * r.NormFloat64())
			total += w
			m.add(w, 60+10*r.NormFloat64(), math.Exp(2*r.NormFloat64()))
		}
		for i := range m.Weights {
			m.Weights[i] /= total
		}
		for _, p := range []float64{.001, .05, .1, .5, .9, .999} {
			at, err := m.Quantile(p)
			require.NoError(t, err)
			assert.InDelta(t, p, m.AtMost(at), 1e-8)
			assert.InDelta(t, 1-p, m.AtLeast(at), 1e-8)
		}
	}
	m := StudentMixture{DF: 3, Weights: []float64{1}, Centres: []float64{0}, Scales: []float64{1}}
	for _, p := range []float64{0, 1, math.NaN()} {
		_, err := m.Quantile(p)
		assert.ErrorIs(t, err, ErrRange)
	}
}
