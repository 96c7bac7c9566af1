package stats

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat/distuv"
)

// The two-sided probability is that of gonum, by the finite sum and beyond it.
func TestStudentTwoSided(t *testing.T) {
	for _, df := range []int{1, 2, 3, 4, 7, 20, 37, 99, 500, 501, 3000} {
		for _, x := range []float64{0, .01, .1, -.7, 1.3, 2, 2.9, 3.3, 5, 12, 60} {
			want := math.Min(1, 2*distuv.StudentsT{Sigma: 1, Nu: float64(df)}.CDF(-math.Abs(x)))
			require.InDelta(t, want, studentTwoSided(x, df), 1e-11*want, "t %g on %d", x, df)
		}
	}
}

// By whole numbers the sum of the binomial distribution; between them the incomplete
// beta function, checked by its integral.
func TestAtLeastOf(t *testing.T) {
	for n := 1; n <= 12; n++ {
		for k := range n + 1 {
			for _, p := range []float64{.1, .5, .83} {
				assert.InDelta(t, BinomialAtLeast(k, n, p), AtLeastOf(float64(k), float64(n), p), 1e-12)
				assert.InDelta(t, 1-BinomialAtLeast(k+1, n, p), AtMostOf(float64(k), float64(n), p), 1e-12)
			}
		}
	}
	for _, c := range []struct{ k, n, p, want float64 }{
		{0, 5.5, .2, 1}, {-1, 5, .2, 1}, {6, 5.5, .9, 0}, {2, 5, 0, 0}, {2, 5, 1, 1},
	} {
		assert.InDelta(t, c.want, AtLeastOf(c.k, c.n, c.p), 0)
	}
	const a, b, steps = 4.5, 3.2, 200_000
	part, whole := 0.0, 0.0
	for i := range steps {
		x := (float64(i) + .5) / steps
		f := math.Pow(x, a-1) * math.Pow(1-x, b-1)
		whole += f
		if x <= .5 {
			part += f
		}
	}
	assert.InDelta(t, part/whole, AtLeastOf(a, a+b-1, .5), 1e-9)
}
