package stats

import (
	"math"
	"testing"

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
